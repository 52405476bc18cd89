/* Calls drawn at random, one of any kind that can be said, for tests that go there and back. */
#ifndef LAPEL_TESTS_TRADE_RANDOM_CALL_H
#define LAPEL_TESTS_TRADE_RANDOM_CALL_H

#include "call.h"
#include "vocabulary.h"

#include <stdio.h>
#include <string.h>

/* Marsaglia, Xorshift RNGs, 2003 (shifts 13, 17, 5): the same draws from a seed everywhere. */
static uint32_t
draw(uint32_t *seed, uint32_t below)
{
	*seed ^= *seed << 13;
	*seed ^= *seed >> 17;
	*seed ^= *seed << 5;
	return *seed % below;
}

static const char *
draw_name(const struct vocabulary *vocabulary, enum list list, uint32_t *seed)
{
	int count = vocabulary_count(vocabulary, list);
	return vocabulary_term(vocabulary, list, (int)draw(seed, (uint32_t)count))->name;
}

static void
draw_length(struct call *call, uint32_t *seed)
{
	static const int32_t denominators[] = {1, 2, 4, 8, 16, 10, 100, 1000};
	struct length *length = &call->length;
	call->has_length = true;
	call->unit_said = draw(seed, 2) == 0;
	length->unit = draw(seed, 2) == 0 ? LENGTH_INCH : LENGTH_CENTIMETRE;
	length->denominator = denominators[draw(seed, 8)];
	length->numerator = (int32_t)draw(seed, 100) * length->denominator;
	if (length->denominator >= 10)
		length->numerator += (int32_t)draw(seed, (uint32_t)length->denominator);
	else if (length->denominator > 1) /* in lowest terms, as a fraction is said */
		length->numerator += 2 * (int32_t)draw(seed, (uint32_t)length->denominator / 2) + 1;
}

static void
draw_digits(char *label, uint32_t *seed)
{
	uint32_t count = 1 + draw(seed, 5);
	for (uint32_t i = 0; i < count; i++)
		label[i] = (char)('0' + draw(seed, 10));
	label[count] = '\0';
}

static void
draw_place(const struct vocabulary *vocabulary, struct call *call, uint32_t *seed)
{
	call->side = (enum side)draw(seed, 3);
	call->face = (enum face)draw(seed, 5);
	bool needs_part = call->face == FACE_FRONT || call->face == FACE_BACK;
	if (!needs_part && draw(seed, 2) == 0)
		return;
	do
		strcpy(call->part, draw_name(vocabulary, LIST_PART, seed));
	while (call->face != FACE_UNSAID && face_parse(call->part) != FACE_UNSAID);
	if (draw(seed, 6) == 0) { /* of a piece of a set */
		char part[sizeof call->part];
		strcpy(part, call->part);
		snprintf(call->part, sizeof call->part, "%s %.20s", "trousers", part);
	}
}

static void
draw_flaw(const struct vocabulary *vocabulary, struct call *call, uint32_t *seed)
{
	call->none = draw(seed, 8) == 0;
	if (call->none)
		return;
	call->other = draw(seed, 8) == 0;
	if (!call->other)
		strcpy(call->name, draw_name(vocabulary, LIST_FLAW, seed));
	if (draw(seed, 6) == 0)
		call->count = 2 + (int)draw(seed, 98);
	else if (draw(seed, 3) == 0)
		draw_length(call, seed);
	else
		call->size = (enum flaw_size)draw(seed, 3);
	draw_place(vocabulary, call, seed);
}

static void
draw_colour(const struct vocabulary *vocabulary, struct call *call, uint32_t *seed)
{
	uint32_t colours = 1 + draw(seed, 3);
	bool patterned = false;
	for (uint32_t i = 0; i < colours && !patterned; i++) {
		const struct term *term;
		do {
			int at = (int)draw(seed,
					   (uint32_t)vocabulary_count(vocabulary, LIST_COLOUR));
			term = vocabulary_term(vocabulary, LIST_COLOUR, at);
		} while (term->colour == COLOUR_SHADE);
		if (i > 0)
			strcat(call->name, " and ");
		if (term->colour == COLOUR_BASIC && draw(seed, 2) == 0)
			strcat(call->name, "dark ");
		strcat(call->name, term->name);
		patterned = term->colour == COLOUR_PATTERN;
	}
}

static void
draw_cloth(const struct vocabulary *vocabulary, struct call *call, uint32_t *seed)
{
	static const char *const sections[] = {"", "shell", "lining"};
	uint32_t section = draw(seed, 2);
	call->fibre_count = 1 + (int)draw(seed, CALL_FIBRES_MAX);
	for (int i = 0; i < call->fibre_count; i++) {
		struct fibre *fibre = &call->fibres[i];
		fibre->percent = 1 + (int)draw(seed, 100);
		strcpy(fibre->name, draw_name(vocabulary, LIST_FIBRE, seed));
		if (section == 1 && draw(seed, 3) == 0)
			section = 2;
		strcpy(fibre->section, sections[section]);
	}
}

static void
draw_order(const struct vocabulary *vocabulary, struct call *call, uint32_t *seed)
{
	static const char *const topics[] = {"", "measures", "flaws", "parts", "kinds", "orders"};
	call->order = (enum order)draw(seed, ORDER_HAND_OVER);
	if (call->order == ORDER_OPEN_ITEM || call->order == ORDER_BELONG_TO)
		draw_digits(call->label, seed);
	if (call->order == ORDER_HELP)
		strcpy(call->topic, topics[draw(seed, 6)]);
	if (call->order == ORDER_STRIKE && draw(seed, 2) == 0) {
		strcpy(call->name, "flaw");
		if (draw(seed, 2) == 0)
			strcpy(call->flaw, draw_name(vocabulary, LIST_FLAW, seed));
		draw_place(vocabulary, call, seed);
	} else if (call->order == ORDER_STRIKE) {
		strcpy(call->name, draw_name(vocabulary, LIST_MEASURE, seed));
	}
}

static void
draw_maker(const struct vocabulary *vocabulary, struct call *call, uint32_t *seed)
{
	static const char letters[] = "abcdefghijklmnopqrstuvwxyz0123456789";
	call->spelled = draw(seed, 4) == 0;
	call->other = !call->spelled && draw(seed, 8) == 0;
	if (!call->spelled && !call->other)
		strcpy(call->name, draw_name(vocabulary, LIST_MAKER, seed));
	for (uint32_t i = 0, count = 1 + draw(seed, 12); call->spelled && i < count; i++)
		call->name[i] = letters[draw(seed, sizeof letters - 1)];
}

static void
draw_names(const struct vocabulary *vocabulary, enum list list, struct call *call, uint32_t *seed)
{
	call->listed_count = 1 + (int)draw(seed, CALL_LISTED_MAX);
	for (int i = 0; i < call->listed_count; i++) {
		struct listed *listed = &call->listed[i];
		strcpy(listed->name, draw_name(vocabulary, list, seed));
		if (list == LIST_MEND && draw(seed, 3) > 0)
			listed->minutes = 1 + (int)draw(seed, CALL_MINUTES_MAX);
	}
}

static void
draw_mending(const struct vocabulary *vocabulary, struct call *call, uint32_t *seed)
{
	call->other = draw(seed, 8) == 0;
	if (call->other)
		return;
	draw_names(vocabulary, LIST_MEND, call, seed);
	if (draw(seed, 2) == 0)
		return;
	call->money.minor = draw(seed, 100000);
	strcpy(call->money.currency, "USD");
}

static void
draw_piece(const struct vocabulary *vocabulary, struct call *call, uint32_t *seed)
{
	do
		strcpy(call->name, draw_name(vocabulary, LIST_KIND, seed));
	while (strcmp(call->name, "set") == 0);
}

static void
draw_size(const struct vocabulary *vocabulary, struct call *call, uint32_t *seed)
{
	uint32_t way = draw(seed, 5);
	if (way == 3)
		snprintf(call->name, sizeof call->name, "%u to %u %s", 1 + draw(seed, 20),
			 1 + draw(seed, 20), draw(seed, 2) == 0 ? "years" : "months");
	else if (way == 4)
		snprintf(call->name, sizeof call->name, "%u %s", 1 + draw(seed, 190),
			 draw(seed, 2) == 0 ? "years" : "cm");
	else if (way == 0)
		strcpy(call->name, draw_name(vocabulary, LIST_TAG, seed));
	else if (way == 1)
		draw_digits(call->name, seed);
	else
		snprintf(call->name, sizeof call->name, "%ux%u", 24 + draw(seed, 30),
			 24 + draw(seed, 15));
}

static void
draw_listed(const struct vocabulary *vocabulary, enum list list, struct call *call, uint32_t *seed)
{
	call->other = draw(seed, 8) == 0;
	if (!call->other)
		strcpy(call->name, draw_name(vocabulary, list, seed));
}

static void
draw_fields(const struct vocabulary *vocabulary, enum call_type type, struct call *call,
	    uint32_t *seed)
{
	switch (type) {
	case CALL_KIND:
		draw_listed(vocabulary, LIST_KIND, call, seed);
		break;
	case CALL_MEASURE:
		strcpy(call->name, draw_name(vocabulary, LIST_MEASURE, seed));
		call->none = draw(seed, 8) == 0;
		if (!call->none)
			draw_length(call, seed);
		break;
	case CALL_FLAW:
		draw_flaw(vocabulary, call, seed);
		break;
	case CALL_ITEM:
		draw_digits(call->label, seed);
		break;
	case CALL_BIN:
		if (draw(seed, 2) == 0)
			draw_digits(call->label, seed);
		else
			strcpy(call->label, draw_name(vocabulary, LIST_BIN, seed));
		break;
	case CALL_MAKER:
		draw_maker(vocabulary, call, seed);
		break;
	case CALL_GROUP:
		strcpy(call->name, draw_name(vocabulary, LIST_GROUP, seed));
		break;
	case CALL_CARE:
		draw_names(vocabulary, LIST_CARE, call, seed);
		break;
	case CALL_MENDING:
		draw_mending(vocabulary, call, seed);
		break;
	case CALL_PART:
		draw_piece(vocabulary, call, seed);
		break;
	case CALL_SIZE:
		draw_size(vocabulary, call, seed);
		break;
	case CALL_COLOUR:
		draw_colour(vocabulary, call, seed);
		break;
	case CALL_CLOTH:
		draw_cloth(vocabulary, call, seed);
		break;
	case CALL_PILLING:
	case CALL_COLOUR_CHANGE:
		call->grade_halves = 2 + (int)draw(seed, 9);
		break;
	case CALL_WEIGHT:
		call->grams = 1 + (int32_t)draw(seed, 9999);
		break;
	case CALL_COST:
	case CALL_PRICE:
		call->money.minor = draw(seed, 100000);
		strcpy(call->money.currency, "USD");
		break;
	case CALL_PARCEL:
		draw_listed(vocabulary, LIST_PARCEL, call, seed);
		break;
	case CALL_ROUTE:
		draw_listed(vocabulary, LIST_ROUTE, call, seed);
		break;
	case CALL_ORDER:
		draw_order(vocabulary, call, seed);
		break;
	case CALL_ANSWER:
		call->choice = 1 + (int)draw(seed, 2);
		break;
	case CALL_NOTE:
	case CALL_KEEP:
	case CALL_TYPES:
		break;
	}
}

/* A call of any type; all but "no" and bare values, which mean something only in their place. */
static struct call
random_call(const struct vocabulary *vocabulary, uint32_t *seed)
{
	static const enum call_type keepable[] = {
		CALL_KIND,   CALL_BIN,	 CALL_MAKER, CALL_SIZE,	 CALL_COLOUR,
		CALL_CLOTH,  CALL_PRICE, CALL_COST,  CALL_ROUTE, CALL_PARCEL,
		CALL_WEIGHT, CALL_KEEP,	 CALL_GROUP, CALL_CARE,
	};
	struct call call = {.type = (enum call_type)draw(seed, CALL_TYPES)};
	if (call.type == CALL_KEEP)
		call.kept = keepable[draw(seed, sizeof keepable / sizeof keepable[0])];
	do
		draw_fields(vocabulary, call.type == CALL_KEEP ? call.kept : call.type, &call,
			    seed);
	while (call.type == CALL_KEEP && call.other); /* what is off the list is not kept */
	return call;
}

#endif
