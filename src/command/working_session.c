#include "working_session.h"

#include "file_text.h"
#include "heard_json.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const cue_names[] = {
	[CUE_NONE] = NULL,	   [CUE_TAKEN] = "taken",   [CUE_REFUSED] = "refused",
	[CUE_DOUBTED] = "doubted", [CUE_HELD] = "held",	    [CUE_PAUSED] = "paused",
	[CUE_RESUMED] = "resumed", [CUE_STRUCK] = "struck", [CUE_TROUBLE] = "trouble",
};

static const enum ears_place ears_places[] = {
	[PLACE_ITEM] = EARS_ITEM,     [PLACE_ASKED] = EARS_ASKED, [PLACE_QUESTION] = EARS_QUESTION,
	[PLACE_PAUSED] = EARS_PAUSED, [PLACE_NOTE] = EARS_NOTE,
};

static void feed(struct working_session *work, const struct event *event);

static void
do_store(struct working_session *work, const struct effect *effect, int64_t at_ms)
{
	struct written written;
	struct utterance utterance = {0};
	const struct ears_utterance *heard = work->utterance;
	bool belongs = heard != NULL && heard->number == effect->write->utterance;
	if (belongs) {
		utterance.number = heard->number;
		utterance.start_ms = heard->start_ms;
		utterance.end_ms = heard->end_ms;
		utterance.decided_ms = heard->decided_ms;
		utterance.decided_by = decided_by_name(heard->decided_by);
		utterance.alternatives = work->alternatives;
		utterance.evidence = heard->evidence;
		utterance.score = heard->score;
		utterance.sound = work->keep_sound ? heard->sound : NULL;
		utterance.sound_count = work->keep_sound ? heard->sound_count : 0;
	}
	transcript_stored(work->transcript, effect->write);
	store_write(work->store, effect->write, belongs ? &utterance : NULL, &written);
	struct event answer = {.type = EVENT_STORED, .at_ms = at_ms, .written = &written};
	feed(work, &answer);
}

static void
do_find(struct working_session *work, const struct effect *effect, int64_t at_ms)
{
	struct record *record = malloc(sizeof *record);
	int64_t item = 0;
	if (record == NULL)
		abort();
	switch (effect->find) {
	case FIND_LABEL:
		item = store_item_by_number(work->store, effect->label);
		break;
	case FIND_BEFORE:
		item = store_item_before(work->store, effect->item);
		break;
	case FIND_ITEM:
		item = effect->item;
		break;
	}
	record_init(record);
	if (item != 0)
		store_load(work->store, item, record);
	struct event answer = {.type = EVENT_FOUND, .at_ms = at_ms, .found = record};
	feed(work, &answer);
	free(record);
}

static void
do_say(struct working_session *work, const struct effect *effect, int64_t at_ms)
{
	transcript_said(work->transcript, at_ms, effect->text);
	voice_say(work->voice, at_ms, cue_names[effect->cue],
		  effect->text[0] != '\0' ? effect->text : NULL, &work->trouble);
	work->speaking = true;
}

static void
begin_note(struct working_session *work, const struct effect *effect)
{
	work->noting = true;
	work->note_call = effect->call;
	work->note_token = effect->token;
	work->note_by_silence = strcmp(effect->name, call_type_name(CALL_NOTE)) != 0;
	ears_expect(work->ears, EARS_NOTE, NULL);
}

/* Keeps what was recorded. The conversation is told when all else that it asked for is done. */
static void
end_note(struct working_session *work, enum ears_place place, const char *measure)
{
	int64_t count;
	const int16_t *sound = ears_note(work->ears, &count);
	ears_expect(work->ears, place, measure);
	store_note(work->store, work->note_call, sound, count, &work->note_written);
	work->noting = false;
	work->note_ended = true;
}

static void
do_effect(struct working_session *work, const struct effect *effect, int64_t at_ms)
{
	switch (effect->type) {
	case EFFECT_SAY:
		do_say(work, effect, at_ms);
		break;
	case EFFECT_HUSH:
		voice_hush(work->voice, at_ms);
		work->speaking = false;
		break;
	case EFFECT_LISTEN:
		if (work->noting)
			end_note(work, ears_places[effect->place], effect->name);
		else
			ears_expect(work->ears, ears_places[effect->place], effect->name);
		break;
	case EFFECT_STORE:
		do_store(work, effect, at_ms);
		break;
	case EFFECT_FIND:
		do_find(work, effect, at_ms);
		break;
	case EFFECT_ANSWER:
		transcript_answer(work->transcript, effect);
		break;
	case EFFECT_NOTE:
		begin_note(work, effect);
		break;
	case EFFECT_ENDED:
		work->ended = true;
		break;
	}
}

static void
tell_noted(struct working_session *work, int64_t at_ms)
{
	struct event noted = {.type = EVENT_NOTED,
			      .at_ms = at_ms,
			      .token = work->note_token,
			      .written = &work->note_written};
	work->note_ended = false;
	feed(work, &noted);
}

/* Answers are fed while the effects before them are being done, so all effects of an event are
 * fetched first. */
static void
feed(struct working_session *work, const struct event *event)
{
	enum { EFFECTS_MAX = 64 };
	struct effect *effects = malloc(sizeof *effects * EFFECTS_MAX);
	int count = 0;
	if (effects == NULL)
		abort();
	session_feed(work->session, event);
	while (count < EFFECTS_MAX && session_next_effect(work->session, &effects[count]))
		count++;
	for (int i = 0; i < count; i++)
		do_effect(work, &effects[i], event->at_ms);
	free(effects);
	if (work->note_ended)
		tell_noted(work, event->at_ms);
}

bool
working_session_ranges(struct ranges *ranges, const char *grammars, struct problem *problem)
{
	char *text = file_text_in(grammars, "ranges.txt", problem);
	bool read = text != NULL && ranges_read(ranges, "ranges.txt", text, problem);
	free(text);
	return read;
}

void
working_session_start(struct working_session *work, int64_t at_ms)
{
	struct record *record = malloc(sizeof *record);
	if (record == NULL)
		abort();
	record_init(record);
	int64_t item = store_item_open(work->store);
	if (item != 0)
		store_load(work->store, item, record);
	char last_number[LABEL_MAX];
	bool numbered = store_last_number(work->store, last_number);
	struct event event = {.type = EVENT_STARTED,
			      .at_ms = at_ms,
			      .found = record,
			      .last_number = numbered ? last_number : NULL};
	feed(work, &event);
	free(record);
}

/* The runner-up for one call: the first other reading with as many calls that differs there. */
static void
find_second(const struct ears_utterance *utterance, int index, struct heard_call *call)
{
	const struct meaning *best = &utterance->readings[0].meaning;
	for (int i = 1; i < utterance->reading_count; i++) {
		const struct meaning *other = &utterance->readings[i].meaning;
		if (other->count != best->count ||
		    call_same(&other->calls[index], &best->calls[index]))
			continue;
		call->has_second = true;
		call->second = other->calls[index];
		call->second_confidence = utterance->readings[i].confidence;
		return;
	}
}

static void
hear(struct working_session *work, const struct ears_utterance *utterance, int64_t at_ms)
{
	struct heard *heard = calloc(1, sizeof *heard);
	if (heard == NULL)
		abort();
	heard->utterance = utterance->number;
	heard->start_ms = utterance->start_ms;
	heard->end_ms = utterance->end_ms;
	heard->text = utterance->reading_count > 0 ? utterance->readings[0].text : "";
	heard->verdict = utterance->verdict;
	heard->confidence = utterance->confidence;
	heard->near = utterance->near;
	if (utterance->reading_count > 0)
		heard->call_count = utterance->readings[0].meaning.count;
	for (int i = 0; i < heard->call_count; i++) {
		heard->calls[i].call = utterance->readings[0].meaning.calls[i];
		heard->calls[i].verdict = utterance->call_verdicts[i];
		heard->calls[i].confidence = utterance->call_confidences[i];
		find_second(utterance, i, &heard->calls[i]);
	}
	struct event event = {.type = EVENT_HEARD, .at_ms = at_ms, .heard = heard};
	feed(work, &event);
	free(heard);
}

static void
pass_over(struct working_session *work, const struct ears_utterance *heard)
{
	struct utterance utterance = {.number = heard->number,
				      .start_ms = heard->start_ms,
				      .end_ms = heard->end_ms,
				      .decided_ms = heard->decided_ms,
				      .decided_by = decided_by_name(heard->decided_by),
				      .score = heard->score};
	store_passed_over(work->store, &utterance, &work->trouble);
}

void
working_session_ears(struct working_session *work, const struct ears_event *event)
{
	if (event->speech_began) {
		struct event speech = {.type = EVENT_SPEECH, .at_ms = event->at_ms};
		feed(work, &speech);
	}
	if (event->fell_silent && work->noting && work->note_by_silence) {
		end_note(work, EARS_ITEM, NULL);
		tell_noted(work, event->at_ms);
	}
	if (!event->decided)
		return;
	work->utterance = event->utterance;
	json_t *alternatives = heard_json_alternatives(event->utterance);
	work->alternatives = json_dumps(alternatives, JSON_COMPACT | JSON_REAL_PRECISION(6));
	json_decref(alternatives);
	transcript_begin_heard(work->transcript, event->utterance);
	if (event->utterance->verdict == VERDICT_REFUSED && !event->utterance->near)
		pass_over(work, event->utterance);
	hear(work, event->utterance, event->at_ms);
	transcript_end_heard(work->transcript);
	free(work->alternatives);
	work->alternatives = NULL;
	work->utterance = NULL;
}

void
working_session_gesture(struct working_session *work, enum gesture_step step, int64_t at_ms)
{
	static const struct {
		enum event_type type;
		enum gesture gesture;
	} events[] = {
		[STEP_DOWN] = {EVENT_PEDAL_DOWN, 0},
		[STEP_HELD] = {EVENT_PEDAL_HELD, 0},
		[STEP_TAP] = {EVENT_GESTURE, GESTURE_TAP},
		[STEP_DOUBLE_TAP] = {EVENT_GESTURE, GESTURE_DOUBLE_TAP},
		[STEP_HOLD] = {EVENT_GESTURE, GESTURE_HOLD},
		[STEP_LONG_HOLD] = {EVENT_GESTURE, GESTURE_LONG_HOLD},
	};
	struct event event = {
		.type = events[step].type, .at_ms = at_ms, .gesture = events[step].gesture};
	feed(work, &event);
}

void
working_session_scan(struct working_session *work, const char *label, int64_t at_ms)
{
	char text[WRITE_TEXT_MAX];
	struct event event = {.type = EVENT_PEDAL_DOWN, .at_ms = at_ms};
	feed(work, &event);
	if (work->noting) {
		/* As with the pedal: it ends the note and does nothing more. */
		working_session_gesture(work, STEP_TAP, at_ms);
		return;
	}
	if (strlen(label) >= LABEL_MAX) {
		voice_say(work->voice, at_ms, cue_names[CUE_REFUSED], "that is no item's label",
			  &work->trouble);
		work->speaking = true;
		return;
	}
	struct heard *heard = calloc(1, sizeof *heard);
	if (heard == NULL)
		abort();
	snprintf(text, sizeof text, "scan %s", label);
	heard->start_ms = heard->end_ms = at_ms;
	heard->text = text;
	heard->verdict = heard->calls[0].verdict = VERDICT_TAKEN;
	heard->confidence = heard->calls[0].confidence = 1;
	heard->call_count = 1;
	heard->calls[0].call = (struct call){.type = CALL_ORDER, .order = ORDER_OPEN_ITEM};
	strcpy(heard->calls[0].call.label, label);
	event = (struct event){.type = EVENT_HEARD, .at_ms = at_ms, .heard = heard};
	feed(work, &event);
	free(heard);
}

int64_t
working_session_deadline_ms(const struct working_session *work)
{
	int64_t deadline_ms = session_deadline_ms(work->session);
	if (work->speaking && voice_done_ms(work->voice) < deadline_ms)
		deadline_ms = voice_done_ms(work->voice);
	return deadline_ms;
}

void
working_session_time(struct working_session *work, int64_t at_ms)
{
	if (work->speaking && voice_done_ms(work->voice) <= at_ms) {
		struct event spoken = {.type = EVENT_SPOKEN, .at_ms = at_ms};
		work->speaking = false;
		feed(work, &spoken);
	}
	if (session_deadline_ms(work->session) <= at_ms) {
		struct event time = {.type = EVENT_TIME, .at_ms = at_ms};
		feed(work, &time);
	}
}

void
working_session_stop(struct working_session *work, int64_t at_ms)
{
	struct event stop = {.type = EVENT_STOPPING, .at_ms = at_ms};
	feed(work, &stop);
}
