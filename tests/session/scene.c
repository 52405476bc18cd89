#include "scene.h"

#include "phrase.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static const char *const lists[LIST_COUNT] = {
	[LIST_MEASURE] = "chest | | flat\nlength | | straight\nsleeve | | straight\n"
			 "waist | | flat\ninseam | | straight\n",
	[LIST_KIND] = "shirt | | chest, length | sleeve\ntrousers | | waist, inseam |\nscarf | | "
		      "|\nset | | parts |\n",
	[LIST_FLAW] = "hole\nstain\nmould | | isolate it\n",
	[LIST_PART] = "cuff\ncollar\nhem\nfront\nback\n",
	[LIST_ROUTE] = "sale\nmending\ncharity\n",
	[LIST_MAKER] = "marlock\nhallowick\nquernby mill\n",
	[LIST_GROUP] = "women\nchildren\n",
	[LIST_FIBRE] = "cotton\nlinen\n",
	[LIST_CARE] = "wash thirty\ndry flat\n",
	[LIST_MEND] = "new zip\nfix hem\n",
};

void
scene_ranges(struct ranges *ranges)
{
	static const char text[] =
		"chest | any | 127000 | 1143000 | 254000 | 762000 | made up for this test\n"
		"length | any | 127000 | 1524000 | 254000 | 1016000 | made up for this test\n";
	struct problem problem;
	if (!ranges_read(ranges, "ranges", text, &problem))
		fail_msg("%s", problem.text);
}

struct vocabulary *
scene_vocabulary(int with)
{
	struct vocabulary *vocabulary = vocabulary_create();
	struct problem problem = {""};
	static const enum list order[] = {LIST_MEASURE, LIST_KIND,  LIST_FLAW,	LIST_PART,
					  LIST_ROUTE,	LIST_MAKER, LIST_GROUP, LIST_CARE,
					  LIST_MEND,	LIST_FIBRE};
	for (size_t i = 0; i < sizeof(order) / sizeof(order[0]); i++)
		if (!vocabulary_read(vocabulary, order[i], "scene", lists[order[i]], &problem))
			fail_msg("%s", problem.text);
	if ((with & SCENE_BINS) &&
	    !vocabulary_read(vocabulary, LIST_BIN, "bins", "11\n12\n13\n", &problem))
		fail_msg("%s", problem.text);
	return vocabulary;
}

void
scene_begin(struct scene *scene, const struct session_setting *setting, int with)
{
	memset(scene, 0, sizeof(*scene));
	scene->vocabulary = scene_vocabulary(with);
	scene->setting = *setting;
	if (with & SCENE_RANGES) {
		scene_ranges(&scene->ranges);
		scene->setting.ranges = &scene->ranges;
		scene->setting.repeats = 2;
	}
	scene->session = session_create(scene->vocabulary, &scene->setting);
	memory_store_init(&scene->store);
}

void
scene_end(struct scene *scene)
{
	session_destroy(scene->session);
	memory_store_finish(&scene->store);
	vocabulary_destroy(scene->vocabulary);
}

static void
note(struct scene *scene, const char *format, ...)
{
	size_t used = strlen(scene->effects);
	va_list arguments;
	if (used > 0)
		used += (size_t)snprintf(scene->effects + used, SCENE_TEXT_MAX - used, "; ");
	va_start(arguments, format);
	vsnprintf(scene->effects + used, SCENE_TEXT_MAX - used, format, arguments);
	va_end(arguments);
}

static void
add(struct scene *scene, const char *format, ...)
{
	size_t used = strlen(scene->effects);
	va_list arguments;
	va_start(arguments, format);
	vsnprintf(scene->effects + used, SCENE_TEXT_MAX - used, format, arguments);
	va_end(arguments);
}

static void
add_flips(struct scene *scene, const struct record *record, const struct deed *deed)
{
	for (int f = 0; f < deed->flip_count; f++) {
		char text[256];
		phrase_call(&record->entries[deed->flips[f].entry].said, PHRASE_NAMED, text,
			    sizeof(text));
		add(scene, " %c%s", deed->flips[f].stands ? '+' : '-', text);
	}
}

static void
note_write(struct scene *scene, const struct write *write)
{
	static const char *const changes[] = {"", " opened", " reopened", " closed", " put aside"};
	note(scene, "store %s%s", verdict_name(write->verdict), changes[write->change]);
	if (write->has_deed)
		add_flips(scene, write->record, &write->deed);
	if (write->settles)
		add(scene, " settles %d", (int)write->settles);
	if (write->moved_from) {
		add(scene, " from %d%s", (int)write->moved_from, changes[write->from_change]);
		add_flips(scene, write->from_record, &write->from_deed);
	}
}

static void
note_effect(struct scene *scene, const struct effect *effect)
{
	static const char *const cues[] = {"plain",  "taken",	"refused", "doubted", "held",
					   "paused", "resumed", "struck",  "trouble"};
	static const char *const places[] = {"item", "asked", "question", "paused", "note"};
	static const char *const finds[] = {"label", "before", "item"};
	switch (effect->type) {
	case EFFECT_SAY:
		note(scene, "say %s: %s", cues[effect->cue], effect->text);
		break;
	case EFFECT_HUSH:
		note(scene, "hush");
		break;
	case EFFECT_LISTEN:
		note(scene, "listen %s%s%s", places[effect->place], effect->name[0] ? " " : "",
		     effect->name);
		break;
	case EFFECT_STORE:
		note_write(scene, effect->write);
		break;
	case EFFECT_FIND:
		if (effect->find == FIND_LABEL)
			note(scene, "find label %s", effect->label);
		else
			note(scene, "find %s %d", finds[effect->find], (int)effect->item);
		break;
	case EFFECT_ANSWER:
		note(scene, "answer %s", verdict_name(effect->verdict));
		break;
	case EFFECT_NOTE:
		note(scene, "note %s of call %d", effect->name, (int)effect->call);
		scene->note_token = effect->token;
		break;
	case EFFECT_ENDED:
		note(scene, "ended");
		break;
	}
}

static void feed(struct scene *scene, struct event *event);

static void
answer_store(struct scene *scene, const struct write *write)
{
	struct written written;
	struct event event = {.type = EVENT_STORED, .written = &written};
	memory_store_write(&scene->store, write, &written);
	feed(scene, &event);
}

static void
feed(struct scene *scene, struct event *event)
{
	struct effect effect;
	event->at_ms = scene->now_ms;
	session_feed(scene->session, event);
	const struct write *write = NULL;
	bool finds = false;
	while (session_next_effect(scene->session, &effect)) {
		note_effect(scene, &effect);
		if (effect.type == EFFECT_STORE)
			write = effect.write;
		if (effect.type == EFFECT_FIND) {
			memory_store_find(&scene->store, &effect, &scene->found);
			finds = true;
		}
	}
	if (finds)
		feed(scene, &(struct event){.type = EVENT_FOUND, .found = &scene->found});
	else if (write && scene->slow)
		scene->pending = write;
	else if (write)
		answer_store(scene, write);
}

static void
read_calls(struct scene *scene, const char *text, struct meaning *meaning)
{
	static const struct meaning_setting setting = {LENGTH_INCH, "USD"};
	static const char hand_over[] = "hand over to ";
	struct words words;
	if (strncmp(text, hand_over, strlen(hand_over)) == 0) {
		struct call call = {.type = CALL_ORDER, .order = ORDER_HAND_OVER};
		snprintf(call.name, sizeof(call.name), "%s", text + strlen(hand_over));
		*meaning = (struct meaning){.calls = {call}, .count = 1};
		return;
	}
	assert_true(words_split(&words, text));
	if (!meaning_read(scene->vocabulary, &setting, &words, meaning))
		fail_msg("no call: %s", text);
}

/* One call's words into `heard`, with its verdict mark and second reading. */
static void
hear_part(struct scene *scene, struct heard *heard, char *part, char *text)
{
	enum verdict verdict = VERDICT_TAKEN;
	struct words all;
	struct meaning meaning, second;
	char *other = strchr(part, '/');

	if (*part == '?' || *part == '!')
		verdict = *part++ == '?' ? VERDICT_DOUBTED : VERDICT_REFUSED;
	if (other)
		*other++ = '\0';
	read_calls(scene, part, &meaning);
	assert_true(words_split(&all, text));
	for (int i = 0; i < meaning.count; i++) {
		struct heard_call *call = &heard->calls[heard->call_count++];
		*call = (struct heard_call){.call = meaning.calls[i],
					    .verdict = verdict,
					    .confidence = verdict == VERDICT_TAKEN ? 0.97 : 0.6};
		call->call.first_word += all.count;
	}
	if (other) {
		struct heard_call *call = &heard->calls[heard->call_count - 1];
		read_calls(scene, other, &second);
		call->has_second = true;
		call->second = second.calls[0];
	}
	if (text[0])
		strcat(text, " ");
	strcat(text, part);
}

static void
hear(struct scene *scene, const char *words, enum verdict verdict, bool near)
{
	char parts[1024], text[1024] = "";
	struct heard heard = {.utterance = ++scene->utterances,
			      .start_ms = scene->now_ms - 1200,
			      .end_ms = scene->now_ms - 100,
			      .text = text,
			      .verdict = verdict,
			      .confidence = 0.9,
			      .near = near};
	snprintf(parts, sizeof(parts), "%s", words);
	if (verdict == VERDICT_REFUSED) {
		snprintf(text, sizeof(text), "%s", words);
	} else {
		char *rest = parts;
		for (char *part; (part = strsep(&rest, "+")) != NULL;) {
			part += strspn(part, " ");
			for (size_t n = strlen(part); n > 0 && part[n - 1] == ' '; n--)
				part[n - 1] = '\0';
			hear_part(scene, &heard, part, text);
		}
	}
	feed(scene, &(struct event){.type = EVENT_HEARD, .heard = &heard});
}

static void
start(struct scene *scene, const char *last_number)
{
	memory_store_load(&scene->store, memory_store_item_open(&scene->store), &scene->found);
	feed(scene, &(struct event){.type = EVENT_STARTED,
				    .found = &scene->found,
				    .last_number = last_number});
}

static void
noted(struct scene *scene, bool stored)
{
	struct written written = {.stored = stored, .why_not = "the disk is full"};
	feed(scene,
	     &(struct event){.type = EVENT_NOTED, .token = scene->note_token, .written = &written});
}

static bool
play_store(struct scene *scene, const char *event)
{
	if (strcmp(event, "disk full") == 0 || strcmp(event, "disk free") == 0) {
		scene->store.full = strcmp(event, "disk full") == 0;
	} else if (strcmp(event, "slow store") == 0) {
		scene->slow = true;
	} else if (strcmp(event, "stored") == 0) {
		assert_non_null(scene->pending);
		answer_store(scene, scene->pending);
	} else if (strcmp(event, "start again") == 0) {
		session_destroy(scene->session);
		scene->session = session_create(scene->vocabulary, &scene->setting);
		start(scene, NULL);
	} else {
		return false;
	}
	return true;
}

const char *
scene_play(struct scene *scene, const char *event)
{
	static const struct {
		const char *name;
		struct event event;
	} simple[] = {
		{"speech", {.type = EVENT_SPEECH}},
		{"down", {.type = EVENT_PEDAL_DOWN}},
		{"held", {.type = EVENT_PEDAL_HELD}},
		{"tap", {.type = EVENT_GESTURE, .gesture = GESTURE_TAP}},
		{"double tap", {.type = EVENT_GESTURE, .gesture = GESTURE_DOUBLE_TAP}},
		{"hold", {.type = EVENT_GESTURE, .gesture = GESTURE_HOLD}},
		{"long hold", {.type = EVENT_GESTURE, .gesture = GESTURE_LONG_HOLD}},
		{"spoken", {.type = EVENT_SPOKEN}},
		{"lost", {.type = EVENT_SOUND_LOST}},
		{"stop", {.type = EVENT_STOPPING}},
	};
	scene->effects[0] = '\0';
	scene->now_ms += 1000;
	if (play_store(scene, event))
		return scene->effects;
	for (size_t i = 0; i < sizeof(simple) / sizeof(simple[0]); i++)
		if (strcmp(event, simple[i].name) == 0) {
			struct event copy = simple[i].event;
			feed(scene, &copy);
			return scene->effects;
		}
	if (strcmp(event, "start") == 0) {
		start(scene, NULL);
	} else if (strncmp(event, "start after ", 12) == 0) {
		start(scene, event + 12);
	} else if (strncmp(event, "hear ", 5) == 0) {
		hear(scene, event + 5, VERDICT_TAKEN, false);
	} else if (strncmp(event, "near ", 5) == 0) {
		hear(scene, event + 5, VERDICT_REFUSED, true);
	} else if (strcmp(event, "noise") == 0) {
		hear(scene, "", VERDICT_REFUSED, false);
	} else if (strncmp(event, "time ", 5) == 0) {
		scene->now_ms += atoi(event + 5) - 1000;
		feed(scene, &(struct event){.type = EVENT_TIME});
	} else if (strncmp(event, "noted", 5) == 0) {
		noted(scene, event[5] == '\0');
	} else {
		fail_msg("no such event: %s", event);
	}
	return scene->effects;
}

void
scene_check(struct scene *scene, const char *name, const struct row *rows)
{
	for (int i = 0; rows[i].event; i++) {
		const char *got = scene_play(scene, rows[i].event);
		if (strcmp(got, rows[i].effects) != 0)
			fail_msg("%s, line %d: %s\nwant '%s'\n got '%s'", name, i + 1,
				 rows[i].event, rows[i].effects, got);
	}
}

void
scene_run_with(const struct session_setting *setting, int with, const char *name,
	       const struct row *rows)
{
	struct scene *scene = malloc(sizeof(*scene));
	assert_non_null(scene);
	scene_begin(scene, setting, with);
	if (strncmp(rows[0].event, "start", 5) != 0)
		assert_string_equal(scene_play(scene, "start"), "listen item");
	scene_check(scene, name, rows);
	scene_end(scene);
	free(scene);
}

void
scene_run(const char *name, const struct row *rows)
{
	scene_run_with(&session_usual, 0, name, rows);
}
