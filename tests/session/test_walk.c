/* A hundred thousand events in no order that a person would think of, and what must hold all the
 * same. The store in memory checks its own half: what is flipped, struck, restored and settled.
 *
 * LAPEL_SEED sets the seed, which is printed. */
#include "phrase.h"
#include "random_call.h"
#include "scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { WALK_EVENTS = 100000, WALK_SESSION_EVENTS = 4000 };

struct walk {
	struct chance chance;
	struct vocabulary *vocabulary;
	struct ranges ranges;
	struct session *session;
	struct memory_store store;
	struct record found;
	int64_t now_ms;
	uint64_t utterances;
	uint64_t effects; /* a digest of all effects so far */
	int64_t fed;

	bool slow; /* the store answers when it likes */
	const struct write *pending;
	bool finds_pending, asked_before;
	struct effect find;
	bool speaking, ended;
	bool noting; /* and the note's token */
	uint64_t note_token;
	bool note_ends;
	enum place place;
	int stores, answers;
	uint64_t utterance; /* of the last write */
	int stored;	    /* calls of that utterance */
	int64_t open_limit; /* items that may be open at most */
};

static void
digest(struct walk *walk, const void *bytes, size_t size)
{
	/* FNV-1a, 64 bits; the constants are from memory. */
	for (size_t i = 0; i < size; i++)
		walk->effects =
			(walk->effects ^ ((const unsigned char *)bytes)[i]) * 1099511628211u;
}

static void
digest_effect(struct walk *walk, const struct effect *effect)
{
	int64_t numbers[] = {effect->type, effect->cue,	    effect->place,
			     effect->find, effect->verdict, (int64_t)effect->token,
			     effect->item, effect->call};
	digest(walk, numbers, sizeof(numbers));
	digest(walk, effect->label, strlen(effect->label));
	digest(walk, effect->name, strlen(effect->name));
	digest(walk, effect->text, strlen(effect->text));
}

static void
check_say(struct walk *walk, const struct event *event, const struct effect *effect)
{
	walk->speaking = true;
	if (effect->cue != CUE_TAKEN || event->type == EVENT_NOTED)
		return;
	if (event->type != EVENT_STORED || walk->stored == 0)
		fail_msg("taken is said before it is stored: %s", effect->text);
}

static void
check_answer(struct walk *walk, const struct event *event, const struct effect *effect)
{
	if (event->type != EVENT_STORED || effect->token != event->written->token)
		fail_msg("a call is answered before it is stored");
	if (!event->written->stored)
		assert_int_equal(effect->verdict, VERDICT_REFUSED);
	walk->answers++;
}

static void
check_effect(struct walk *walk, const struct event *event, const struct effect *effect)
{
	digest_effect(walk, effect);
	assert_false(walk->ended);
	if (walk->pending || walk->finds_pending)
		assert_true(walk->asked_before); /* what asks comes last */
	switch (effect->type) {
	case EFFECT_SAY:
		check_say(walk, event, effect);
		break;
	case EFFECT_HUSH:
		assert_true(walk->speaking);
		walk->speaking = false;
		break;
	case EFFECT_NOTE:
		walk->noting = true;
		walk->note_token = effect->token;
		walk->place = PLACE_NOTE;
		break;
	case EFFECT_LISTEN:
		walk->note_ends = walk->noting;
		walk->place = effect->place;
		break;
	case EFFECT_STORE:
		assert_null(walk->pending);
		assert_false(walk->finds_pending);
		if (effect->write->utterance == 0 || effect->write->utterance != walk->utterance)
			walk->stored = 0;
		walk->utterance = effect->write->utterance;
		walk->pending = effect->write;
		walk->stores++;
		break;
	case EFFECT_FIND:
		assert_null(walk->pending);
		assert_false(walk->finds_pending);
		walk->finds_pending = true;
		walk->find = *effect;
		break;
	case EFFECT_ANSWER:
		check_answer(walk, event, effect);
		break;
	case EFFECT_ENDED:
		assert_null(walk->pending);
		assert_false(walk->finds_pending);
		walk->ended = true;
		break;
	}
}

static void
feed(struct walk *walk, struct event event)
{
	struct effect effect;
	walk->asked_before = walk->pending || walk->finds_pending;
	event.at_ms = walk->now_ms;
	walk->fed++;
	session_feed(walk->session, &event);
	while (session_next_effect(walk->session, &effect))
		check_effect(walk, &event, &effect);

	if (event.type == EVENT_TIME && session_deadline_ms(walk->session) <= walk->now_ms)
		fail_msg("a deadline lies in the past");
	assert_int_equal(walk->stores - walk->answers, walk->pending != NULL);
	if (walk->store.open_count > walk->open_limit)
		fail_msg("an item was left open and lost");
}

static void
answer_store(struct walk *walk)
{
	struct written written;
	const struct write *write = walk->pending;
	memory_store_write(&walk->store, write, &written);
	walk->stored += written.stored;
	walk->pending = NULL;
	/* The session must not look at the write once it is answered, nor at this. */
	feed(walk, (struct event){.type = EVENT_STORED, .written = &written});
}

static bool
answer_one(struct walk *walk)
{
	if (walk->pending) {
		answer_store(walk);
	} else if (walk->finds_pending) {
		walk->finds_pending = false;
		memory_store_find(&walk->store, &walk->find, &walk->found);
		feed(walk, (struct event){.type = EVENT_FOUND, .found = &walk->found});
	} else {
		return false;
	}
	return true;
}

static void
answer_all(struct walk *walk)
{
	while (answer_one(walk))
		;
}

static void
hear(struct walk *walk)
{
	static const enum verdict verdicts[] = {VERDICT_TAKEN,	 VERDICT_TAKEN,	 VERDICT_TAKEN,
						VERDICT_TAKEN,	 VERDICT_TAKEN,	 VERDICT_DOUBTED,
						VERDICT_DOUBTED, VERDICT_REFUSED};
	struct chance *chance = &walk->chance;
	char text[256] = "words";
	struct heard heard = {.utterance = ++walk->utterances,
			      .start_ms = walk->now_ms - 500,
			      .end_ms = walk->now_ms,
			      .text = text,
			      .confidence = 0.9,
			      .verdict = VERDICT_TAKEN};
	bool noise = chance_in(chance, 6), resumes = false;
	heard.call_count = noise ? 0 : 1 + (chance_in(chance, 4) ? chance_below(chance, 4) : 0);
	heard.near = noise && chance_in(chance, 2);
	heard.verdict = noise ? VERDICT_REFUSED : VERDICT_TAKEN;
	for (int i = 0; i < heard.call_count; i++) {
		struct heard_call *call = &heard.calls[i];
		call->call = random_call(chance);
		resumes |= call->call.type == CALL_ORDER && call->call.order == ORDER_RESUME;
		call->verdict = verdicts[chance_below(chance, 8)];
		call->confidence = 0.8;
		call->has_second = chance_in(chance, 2);
		if (call->has_second)
			call->second = random_call(chance);
	}
	if (heard.call_count > 0 && heard.calls[0].call.correction)
		snprintf(text, sizeof(text), "no words");

	bool idle = !walk->pending && !walk->finds_pending;
	bool listens = walk->place != PLACE_PAUSED && walk->place != PLACE_NOTE;
	int stores = walk->stores;
	feed(walk, (struct event){.type = EVENT_HEARD, .heard = &heard});
	if (walk->slow || !idle || !listens || resumes)
		return;
	answer_all(walk);
	if (walk->place == PLACE_PAUSED || walk->place == PLACE_NOTE)
		return; /* it paused, or began a note, and the rest is not for us */
	int wanted = noise ? heard.near : heard.call_count;
	if (walk->stores - stores != wanted)
		fail_msg("%d calls, and %d stored", wanted, walk->stores - stores);
}

static void
pass_time(struct walk *walk)
{
	int64_t deadline = session_deadline_ms(walk->session);
	if (chance_in(&walk->chance, 3) && deadline != INT64_MAX && deadline > walk->now_ms)
		walk->now_ms = deadline;
	else
		walk->now_ms += chance_below(&walk->chance, 8000);
	feed(walk, (struct event){.type = EVENT_TIME});
}

static void
end_note(struct walk *walk)
{
	struct written written = {.stored = !chance_in(&walk->chance, 5), .why_not = "no room"};
	if (!walk->noting)
		return;
	walk->noting = walk->note_ends = false;
	feed(walk,
	     (struct event){.type = EVENT_NOTED, .token = walk->note_token, .written = &written});
}

static void
fall_silent(struct walk *walk)
{
	walk->speaking = false;
	feed(walk, (struct event){.type = EVENT_SPOKEN});
}

static void
step(struct walk *walk)
{
	struct chance *chance = &walk->chance;
	int draw = chance_below(chance, 100);
	walk->now_ms += chance_below(chance, 900);
	if (draw < 50)
		hear(walk);
	else if (draw < 62)
		feed(walk, (struct event){.type = EVENT_GESTURE,
					  .gesture = chance_in(chance, 3)
							     ? (enum gesture)chance_below(chance, 4)
							     : GESTURE_TAP});
	else if (draw < 70)
		feed(walk, (struct event){.type = EVENT_SPEECH});
	else if (draw < 74)
		feed(walk, (struct event){.type = EVENT_PEDAL_DOWN});
	else if (draw < 75)
		feed(walk, (struct event){.type = EVENT_PEDAL_HELD});
	else if (draw < 85)
		pass_time(walk);
	else if (draw < 93)
		fall_silent(walk);
	else if (draw < 94)
		feed(walk, (struct event){.type = EVENT_SOUND_LOST});
	else if (draw < 96)
		end_note(walk);
	else if (draw < 97)
		walk->store.full = chance_in(chance, 5);
	else if (draw < 98)
		walk->slow = chance_in(chance, 2);
	else
		answer_all(walk);
	if (walk->note_ends && chance_in(chance, 2))
		end_note(walk);
	if (!walk->slow)
		answer_all(walk);
	else if (chance_in(chance, 3))
		answer_one(walk);
}

static void
begin_session(struct walk *walk)
{
	struct session_setting setting = session_usual;
	setting.ranges = &walk->ranges;
	setting.repeats = 3;
	walk->session = session_create(walk->vocabulary, &setting);
	walk->ended = walk->speaking = walk->noting = walk->note_ends = false;
	walk->stores = walk->answers = walk->stored = 0;
	walk->place = PLACE_ITEM;
	walk->open_limit = walk->store.open_count + 2;
	int64_t item = memory_store_item_open(&walk->store);
	memory_store_load(&walk->store, item, &walk->found);
	feed(walk, (struct event){.type = EVENT_STARTED, .found = &walk->found});
}

static void
end_session(struct walk *walk)
{
	feed(walk, (struct event){.type = EVENT_STOPPING});
	answer_all(walk);
	end_note(walk);
	answer_all(walk);
	fall_silent(walk);
	if (!walk->ended)
		fail_msg("the session does not end");
	assert_int_equal(session_deadline_ms(walk->session), INT64_MAX);
	session_destroy(walk->session);
}

static void
check_entries(const struct memory_store *store)
{
	for (int64_t i = 0; i < store->item_count; i++)
		for (int e = 0; e < store->items[i].entry_count; e++) {
			const struct entry *entry = &store->items[i].entries[e];
			assert_in_range(entry->call, 1, store->call_count);
			const struct memory_call *call = &store->calls[entry->call - 1];
			if (call->verdict != VERDICT_TAKEN)
				fail_msg("something is written by a call that was not taken");
			if (call->type != entry->said.type && call->type != CALL_KEEP &&
			    !(call->type == CALL_ORDER && entry->said.type == CALL_ITEM))
				fail_msg("something is written that its call did not say");
		}
}

static void
check_numbers(const struct memory_store *store)
{
	for (int64_t i = 0; i < store->item_count; i++)
		for (int64_t other = 0; other < i && store->items[i].number[0]; other++)
			if (strcmp(store->items[i].number, store->items[other].number) == 0)
				fail_msg("two items have one number");
}

static uint64_t
walk_all(uint64_t seed)
{
	struct walk *walk = calloc(1, sizeof(*walk));
	assert_non_null(walk);
	walk->chance.state = seed;
	walk->effects = 14695981039346656037u;
	walk->vocabulary = scene_vocabulary(SCENE_BINS);
	scene_ranges(&walk->ranges);
	memory_store_init(&walk->store);
	while (walk->fed < WALK_EVENTS) {
		int64_t until = walk->fed + WALK_SESSION_EVENTS;
		begin_session(walk);
		while (walk->fed < until)
			step(walk);
		end_session(walk);
	}
	check_entries(&walk->store);
	check_numbers(&walk->store);
	print_message("%lld items, %lld calls, %lld entries\n", (long long)walk->store.item_count,
		      (long long)walk->store.call_count, (long long)walk->store.entry_count);
	memory_store_finish(&walk->store);
	vocabulary_destroy(walk->vocabulary);
	uint64_t effects = walk->effects;
	free(walk);
	return effects;
}

static void
what_must_hold_holds_and_the_same_events_give_the_same_effects(void **state)
{
	const char *text = getenv("LAPEL_SEED");
	uint64_t seed = text ? strtoull(text, NULL, 0) : 20240611;
	print_message("LAPEL_SEED=%llu\n", (unsigned long long)seed);
	seed = seed ? seed : 1;
	uint64_t once = walk_all(seed);
	assert_true(once == walk_all(seed));
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_must_hold_holds_and_the_same_events_give_the_same_effects),
	};
	return cmocka_run_group_tests_name("walk", tests, NULL, NULL);
}
