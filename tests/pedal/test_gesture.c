#include "gesture.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

/* A story is told in words: "D100 U300 =700" is down at 100 ms, up at 300, and time comes to 700.
 * What came of it is told in the same manner: "down@100 tap@600". */
static const char *const step_names[] = {
	[STEP_DOWN] = "down",	      [STEP_HELD] = "held", [STEP_TAP] = "tap",
	[STEP_DOUBLE_TAP] = "double", [STEP_HOLD] = "hold", [STEP_LONG_HOLD] = "long"};

static void
tell(char *told, size_t size, const enum gesture_step *steps, const int64_t *step_ms, int count)
{
	for (int i = 0; i < count; i++) {
		size_t length = strlen(told);
		snprintf(told + length, size - length, "%s%s@%lld", length > 0 ? " " : "",
			 step_names[steps[i]], (long long)step_ms[i]);
	}
}

static void
live_through(const struct gesture_setting *setting, const char *story, char *told, size_t size)
{
	struct gesture_state state;
	gesture_init(&state, setting);
	enum gesture_step steps[4];
	int64_t step_ms[4];
	told[0] = '\0';
	for (const char *word = story; word != NULL && *word != '\0';) {
		char *after;
		int64_t at_ms = strtoll(word + 1, &after, 10);
		int count = *word == '='
				    ? gesture_time(&state, at_ms, steps, step_ms)
				    : gesture_change(&state, *word == 'D', at_ms, steps, step_ms);
		tell(told, size, steps, step_ms, count);
		word = *after == ' ' ? after + 1 : after;
	}
}

struct scene {
	const char *what, *story, *told;
};

static void
check(const struct gesture_setting *setting, const struct scene *scenes, size_t count)
{
	char told[512];
	for (size_t i = 0; i < count; i++) {
		live_through(setting, scenes[i].story, told, sizeof told);
		if (strcmp(told, scenes[i].told) != 0)
			fail_msg("%s (%s): want \"%s\", got \"%s\"", scenes[i].what,
				 scenes[i].story, scenes[i].told, told);
	}
}
#define CHECK(setting, scenes) check(setting, scenes, sizeof(scenes) / sizeof *(scenes))

/* 0.6 s, 2 s and 0.3 s are the product's own. */
static void
gestures_are_told_apart_by_how_long_and_how_often(void **unused)
{
	static const struct scene scenes[] = {
		{"a tap waits for the window", "D100 U300 =599", "down@100"},
		{"a tap", "D100 U300 =600", "down@100 tap@600"},
		{"a tap, told late", "D100 U300 =9000", "down@100 tap@600"},
		{"two taps, told at the second release", "D0 U100 D300 U400 =425",
		 "down@0 down@300 double@425"},
		{"two taps are no tap more", "D0 U100 D300 U400 =9000",
		 "down@0 down@300 double@425"},
		{"three taps: a double and a tap", "D0 U100 D200 U300 D400 U500 =9000",
		 "down@0 down@200 double@325 down@400 tap@800"},
		{"four taps: two doubles", "D0 U100 D200 U300 D400 U500 D600 U700 =9000",
		 "down@0 down@200 double@325 down@400 down@600 double@725"},
		{"a hold, marked at 0.6 s", "D0 =600 U1000 =1025", "down@0 held@600 hold@1025"},
		{"a long hold, told while it is held", "D0 =2000", "down@0 held@600 long@2000"},
		{"nothing at the release of a long hold", "D0 U5000 =9000",
		 "down@0 held@600 long@2000"},
		{"a tap, then a hold", "D0 U100 D300 U1000 =9000",
		 "down@0 down@300 tap@900 held@900 hold@1025"},
		{"a tap, then a long hold", "D0 U100 D300 U3000 =9000",
		 "down@0 down@300 tap@900 held@900 long@2300"},
		{"a hold, then a tap", "D0 U1000 D1100 U1200 =9000",
		 "down@0 held@600 hold@1025 down@1100 tap@1500"},
		{"a long hold, then two taps", "D0 U2500 D2600 U2700 D2800 U2900 =9000",
		 "down@0 held@600 long@2000 down@2600 down@2800 double@2925"},
		{"nothing at all", "=9000", ""}};
	CHECK(&gesture_usual, scenes);
}

static void
boundaries_belong_to_the_longer_gesture(void **unused)
{
	static const struct scene scenes[] = {
		{"599 ms is a tap", "D0 U599 =9000", "down@0 tap@899"},
		{"600 ms is a hold", "D0 U600 =9000", "down@0 held@600 hold@625"},
		{"1999 ms is a hold", "D0 U1999 =9000", "down@0 held@600 hold@2024"},
		{"2000 ms is a long hold", "D0 U2000 =9000", "down@0 held@600 long@2000"},
		{"299 ms after a release is a second tap", "D0 U100 D399 U450 =9000",
		 "down@0 down@399 double@475"},
		{"300 ms after a release is a tap of its own", "D0 U100 D400 U450 =9000",
		 "down@0 tap@400 down@400 tap@750"},
		{"a second tap of 599 ms", "D0 U100 D300 U899 =9000", "down@0 down@300 double@924"},
		{"a second press of 600 ms", "D0 U100 D300 U900 =9000",
		 "down@0 down@300 tap@900 held@900 hold@925"}};
	CHECK(&gesture_usual, scenes);
}

static void
a_bouncing_switch_is_pressed_once(void **unused)
{
	static const struct scene scenes[] = {
		{"bounces on the way down", "D0 U3 D6 U9 D12 U200 =9000", "down@0 tap@500"},
		{"bounces on the way up", "D0 U200 D203 U206 D209 U212 =9000", "down@0 tap@512"},
		{"a contact lost for 24 ms while held", "D0 U300 D324 U700 =9000",
		 "down@0 held@600 hold@725"},
		{"a contact lost for 25 ms: two presses", "D0 U300 D325 U400 =9000",
		 "down@0 down@325 double@425"},
		{"a press of 10 ms is a press", "D0 U10 =9000", "down@0 tap@310"},
		{"a press of no time is a press", "D0 U0 =9000", "down@0 tap@300"},
		{"held is told once it is clear", "D0 U590 D610 =9000",
		 "down@0 held@610 long@2000"},
		{"long hold is told once it is clear", "D0 =700 U1990 D2010 =9000",
		 "down@0 held@600 long@2010"},
		{"a tap although 0.6 s pass while it bounces", "D0 U590 =9000", "down@0 tap@890"},
		{"a hold although 2 s pass while it bounces", "D0 U1990 =9000",
		 "down@0 held@600 hold@2015"},
		{"a tap and a bouncing hold", "D0 U100 D200 U790 D810 U900 =9000",
		 "down@0 down@200 tap@810 held@810 hold@925"},
		{"bounces for ever", "D0 U20 D40 U60 D80 U100 D120 U140 =9000", "down@0 tap@440"}};
	CHECK(&gesture_usual, scenes);
}

static void
what_is_told_twice_or_late_changes_nothing(void **unused)
{
	static const struct scene scenes[] = {
		{"down while down", "D0 D50 D100 U300 =9000", "down@0 tap@600"},
		{"up while up", "U0 U10 D20 U120 U200 =9000", "down@20 tap@420"},
		{"up while bouncing does not begin anew", "D0 U100 U120 =125 D126 U200 =9000",
		 "down@0 down@126 double@225"},
		{"a change stamped before the time told last counts then", "D0 =700 U650 =9000",
		 "down@0 held@600 hold@725"},
		{"a press stamped before a tap that was told", "D0 U100 =405 D399 U450 =9000",
		 "down@0 tap@400 down@405 tap@750"}};
	CHECK(&gesture_usual, scenes);
}

static void
settings_are_followed(void **unused)
{
	static const struct gesture_setting no_bounce = {400, 1000, 200, 0};
	static const struct scene sharp[] = {
		{"at once without bounce", "D0 U399 D500 U501", "down@0 down@500 double@501"},
		{"a hold at its release", "D0 U400", "down@0 held@400 hold@400"},
		{"a long hold", "D0 =1000", "down@0 held@400 long@1000"},
		{"a contact lost for no time", "D0 U5 D5 U9", "down@0 down@5 double@9"}};
	CHECK(&no_bounce, sharp);
	static const struct gesture_setting no_window = {400, 1000, 0, 25};
	static const struct scene single[] = {{"no double tap: a tap when it is clear",
					       "D0 U100 =125 D130 U200 =300",
					       "down@0 tap@125 down@130 tap@225"}};
	CHECK(&no_window, single);
}

/* What must always hold, on stories that nobody thought of. */
enum { WALK_CHANGES = 40, WALKS = 4000 };

struct walk {
	struct gesture_setting setting;
	int64_t at_ms[WALK_CHANGES];
	bool down[WALK_CHANGES];
	int64_t end_ms;
};

static int64_t
below(unsigned *seed, int64_t limit)
{
	return rand_r(seed) % limit;
}

/* Times of the lengths that matter, and at their edges. */
static void
walk_make(struct walk *walk, unsigned *seed)
{
	static const int64_t spans[] = {0,   1,	  24,  25,  26,	 275,  299,
					300, 301, 599, 600, 601, 1999, 2000};
	enum { SPANS = sizeof spans / sizeof *spans };
	walk->setting = gesture_usual;
	if (below(seed, 4) == 0)
		walk->setting.bounce_ms = 0;
	int64_t at_ms = 0;
	for (int i = 0; i < WALK_CHANGES; i++) {
		at_ms += below(seed, 2) == 0 ? spans[below(seed, SPANS)] : below(seed, 900);
		walk->at_ms[i] = at_ms;
		walk->down[i] = below(seed, 12) == 0 ? below(seed, 2) == 0 : i % 2 == 0;
	}
	walk->end_ms = at_ms + 10000;
}

enum chunking { NO_TIMER, PROMPT_TIMER, RANDOM_TIMER };

/* Checks after each feeding that times do not go down and that the next deadline lies ahead. */
static void
walk_fed(const struct gesture_state *state, const int64_t *step_ms, int count, int64_t at_ms,
	 int64_t *last_ms)
{
	for (int i = 0; i < count; i++) {
		assert_true(step_ms[i] >= *last_ms);
		assert_true(step_ms[i] <= at_ms);
		*last_ms = step_ms[i];
	}
	assert_true(gesture_deadline_ms(state) > at_ms);
}

static void
walk_live(const struct walk *walk, enum chunking chunking, unsigned *seed, char *told, size_t size)
{
	struct gesture_state state;
	enum gesture_step steps[4];
	int64_t step_ms[4], last_ms = INT64_MIN, now_ms = 0;
	gesture_init(&state, &walk->setting);
	told[0] = '\0';
	for (int i = 0; i <= WALK_CHANGES; i++) {
		int64_t until_ms = i < WALK_CHANGES ? walk->at_ms[i] : walk->end_ms;
		while (chunking != NO_TIMER) {
			int64_t next_ms = chunking == PROMPT_TIMER ? gesture_deadline_ms(&state)
								   : now_ms + below(seed, 400);
			if (next_ms > until_ms ||
			    (chunking == RANDOM_TIMER && below(seed, 20) == 0))
				break;
			now_ms = next_ms;
			int count = gesture_time(&state, now_ms, steps, step_ms);
			tell(told, size, steps, step_ms, count);
			walk_fed(&state, step_ms, count, now_ms, &last_ms);
			if (chunking == PROMPT_TIMER) /* what is told on time is told at its time */
				for (int step = 0; step < count; step++)
					assert_int_equal(step_ms[step], now_ms);
		}
		now_ms = until_ms;
		int count = i < WALK_CHANGES
				    ? gesture_change(&state, walk->down[i], now_ms, steps, step_ms)
				    : gesture_time(&state, now_ms, steps, step_ms);
		tell(told, size, steps, step_ms, count);
		walk_fed(&state, step_ms, count, now_ms, &last_ms);
	}
}

/* The presses of the walk, by the definition and not by the machine: a release that is followed by
 * a down sooner than bounce_ms is none. Then each press is what its length says, and taps pair up.
 */
static int
walk_presses(const struct walk *walk, int64_t from_ms[], int64_t to_ms[])
{
	int count = 0;
	bool down = false;
	for (int i = 0; i < WALK_CHANGES; i++) {
		if (walk->down[i] == down)
			continue;
		down = walk->down[i];
		if (!down)
			to_ms[count - 1] = walk->at_ms[i];
		else if (count > 0 && walk->at_ms[i] - to_ms[count - 1] < walk->setting.bounce_ms)
			to_ms[count - 1] = INT64_MAX;
		else
			from_ms[count] = walk->at_ms[i], to_ms[count++] = INT64_MAX;
	}
	return count;
}

static void
count_steps(const char *told, int counts[])
{
	for (int step = STEP_DOWN; step <= STEP_LONG_HOLD; step++) {
		char name[16];
		counts[step] = 0;
		snprintf(name, sizeof name, "%s@", step_names[step]);
		for (const char *at = told; (at = strstr(at, name)) != NULL; at++)
			counts[step]++;
	}
}

static void
walk_expect(const struct walk *walk, int counts[])
{
	int64_t from_ms[WALK_CHANGES], to_ms[WALK_CHANGES];
	int presses = walk_presses(walk, from_ms, to_ms);
	const struct gesture_setting *setting = &walk->setting;
	memset(counts, 0, (STEP_LONG_HOLD + 1) * sizeof *counts);
	counts[STEP_DOWN] = presses;
	bool tapped = false;
	for (int i = 0; i < presses; i++) {
		int64_t length_ms = (to_ms[i] == INT64_MAX ? walk->end_ms : to_ms[i]) - from_ms[i];
		if (tapped && from_ms[i] - to_ms[i - 1] >= setting->window_ms) {
			counts[STEP_TAP]++;
			tapped = false;
		}
		if (length_ms < setting->hold_ms) {
			counts[STEP_DOUBLE_TAP] += tapped;
			tapped = !tapped;
			continue;
		}
		counts[STEP_TAP] += tapped;
		tapped = false;
		counts[STEP_HELD]++;
		counts[length_ms < setting->long_ms ? STEP_HOLD : STEP_LONG_HOLD]++;
	}
	counts[STEP_TAP] += tapped;
}

static void
any_story_gives_what_was_pressed_however_time_is_told(void **unused)
{
	/* LAPEL_SEED repeats a walk. */
	const char *asked = getenv("LAPEL_SEED");
	unsigned seed = asked != NULL ? (unsigned)strtoul(asked, NULL, 10) : (unsigned)time(NULL);
	print_message("seed %u\n", seed);
	static char none[4096], prompt[4096], random[4096];
	for (int i = 0; i < WALKS; i++) {
		struct walk walk;
		walk_make(&walk, &seed);
		walk_live(&walk, NO_TIMER, &seed, none, sizeof none);
		walk_live(&walk, PROMPT_TIMER, &seed, prompt, sizeof prompt);
		walk_live(&walk, RANDOM_TIMER, &seed, random, sizeof random);
		assert_string_equal(none, prompt);
		assert_string_equal(none, random);
		int want[STEP_LONG_HOLD + 1], got[STEP_LONG_HOLD + 1];
		walk_expect(&walk, want);
		count_steps(none, got);
		for (int step = STEP_DOWN; step <= STEP_LONG_HOLD; step++)
			if (want[step] != got[step])
				fail_msg("%d times %s instead of %d in: %s", got[step],
					 step_names[step], want[step], none);
	}
}

static void
nothing_is_wanted_when_nothing_is_pressed(void **unused)
{
	struct gesture_state state;
	enum gesture_step steps[4];
	int64_t step_ms[4];
	gesture_init(&state, &gesture_usual);
	assert_true(gesture_deadline_ms(&state) == INT64_MAX);
	assert_int_equal(gesture_time(&state, INT64_MAX, steps, step_ms), 0);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(gestures_are_told_apart_by_how_long_and_how_often),
		cmocka_unit_test(boundaries_belong_to_the_longer_gesture),
		cmocka_unit_test(a_bouncing_switch_is_pressed_once),
		cmocka_unit_test(what_is_told_twice_or_late_changes_nothing),
		cmocka_unit_test(settings_are_followed),
		cmocka_unit_test(any_story_gives_what_was_pressed_however_time_is_told),
		cmocka_unit_test(nothing_is_wanted_when_nothing_is_pressed)};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
