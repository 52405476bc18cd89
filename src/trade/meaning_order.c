/* Orders with their arguments, and answers. */
#include "meaning_reader.h"

#include <stdio.h>
#include <string.h>

enum argument {
	ARGUMENT_NOTHING,
	ARGUMENT_LABEL,
	ARGUMENT_STRUCK,
	ARGUMENT_TOPIC,
	ARGUMENT_PERSON
};

static const enum argument arguments[ORDERS] = {
	[ORDER_STRIKE] = ARGUMENT_STRUCK,    [ORDER_OPEN_ITEM] = ARGUMENT_LABEL,
	[ORDER_BELONG_TO] = ARGUMENT_LABEL,  [ORDER_HELP] = ARGUMENT_TOPIC,
	[ORDER_HAND_OVER] = ARGUMENT_PERSON,
};

/* After "strike": a measure, or "flaw" and what tells which one. */
static int
read_struck(const struct reader *reader, int at, int nth, struct call *call)
{
	const struct vocabulary *vocabulary = reader->vocabulary;
	char measure[CALL_NAME_MAX];
	int used = read_measure_name(reader, at, measure);

	if (used > 0 && nth-- == 0) {
		memcpy(call->name, measure, sizeof measure);
		return used;
	}
	if (!words_is(reader->words, at, "flaw"))
		return 0;
	snprintf(call->name, sizeof call->name, "flaw");
	int flaw = vocabulary_match(vocabulary, LIST_FLAW, reader->words, at + 1, &used);
	if (flaw >= 0)
		snprintf(call->flaw, sizeof call->flaw, "%s",
			 vocabulary_term(vocabulary, LIST_FLAW, flaw)->name);
	return read_then_place(reader, at, 1 + used, nth, call);
}

static int
read_topic(const struct reader *reader, int at, struct call *call)
{
	static const char *const topics[] = {"measures", "flaws", "parts", "kinds", "orders"};
	for (size_t i = 0; i < sizeof topics / sizeof topics[0]; i++) {
		if (words_is(reader->words, at, topics[i])) {
			snprintf(call->topic, sizeof call->topic, "%s", topics[i]);
			return 1;
		}
	}
	return 0;
}

static int
read_person(const struct reader *reader, int at, int nth, struct call *call)
{
	int used;
	int person = vocabulary_match(reader->vocabulary, LIST_PERSON, reader->words, at, &used);
	if (person < 0 || nth != 0)
		return 0;
	snprintf(call->name, sizeof call->name, "%s",
		 vocabulary_term(reader->vocabulary, LIST_PERSON, person)->name);
	return used;
}

/* The nth way of reading what follows the `used` words of the order's name. */
static int
read_argument(const struct reader *reader, int at, int used, int nth, struct call *call)
{
	int further = 0;

	switch (arguments[call->order]) {
	case ARGUMENT_NOTHING:
		return nth == 0 ? used : 0;
	case ARGUMENT_LABEL:
		further = read_label(reader, at + used, nth, call);
		break;
	case ARGUMENT_STRUCK:
		further = read_struck(reader, at + used, nth, call);
		break;
	case ARGUMENT_TOPIC:
		return nth == 0 ? used + read_topic(reader, at + used, call) : 0;
	case ARGUMENT_PERSON:
		further = read_person(reader, at + used, nth, call);
		break;
	}
	return further > 0 ? used + further : 0;
}

int
read_order(const struct reader *reader, int at, int nth, struct call *call)
{
	for (int order = 0; order < ORDERS; order++) {
		int used = words_match(reader->words, at, order_name((enum order)order));
		if (used == 0)
			continue;
		for (int way = 0;; way++) {
			struct call read = {.type = CALL_ORDER, .order = (enum order)order};
			int all = read_argument(reader, at, used, way, &read);
			if (all == 0)
				break;
			if (nth-- == 0) {
				*call = read;
				return all;
			}
		}
	}
	return 0;
}

int
read_answer(const struct reader *reader, int at, int nth, struct call *call)
{
	static const struct {
		const char *word;
		int choice;
	} answers[] = {{"first", 1}, {"second", 2}, {"yes", 1}};

	for (size_t i = 0; nth == 0 && i < sizeof answers / sizeof answers[0]; i++) {
		if (words_is(reader->words, at, answers[i].word)) {
			call->choice = answers[i].choice;
			return 1;
		}
	}
	return 0;
}
