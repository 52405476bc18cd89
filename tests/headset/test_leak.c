/* What comes back of one's own voice is taken out; what somebody says over it is not. */
#include "leak.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

enum { SECOND = 100 /* frames */, LATE = 60 * 16 /* samples */, HISTORY = 1 << 15 };

static const double room_rms = 10;

struct scene {
	struct leak *leak;
	uint32_t random;
	double room_rms;
	int16_t played[HISTORY];
	int64_t at;
};

static double
noise(struct scene *scene)
{
	double sum = 0;
	for (int i = 0; i < 4; i++) {
		scene->random = scene->random * 1664525u + 1013904223u;
		sum += (double)(scene->random >> 8) / (1 << 23) - 1;
	}
	return sum * sqrt(3.0 / 4);
}

static void
enter(struct scene *scene)
{
	memset(scene, 0, sizeof *scene);
	scene->leak = leak_create();
	scene->random = 5;
	scene->room_rms = room_rms;
	assert_non_null(scene->leak);
}

/* One frame: what is played at `played_rms` comes back `gain` as loud, together with the room and
 * somebody at `voice_rms`. Returns the level of what is left. */
static double
frame(struct scene *scene, double played_rms, double gain, double voice_rms, int16_t *original)
{
	int16_t played[LEAK_FRAME], heard[LEAK_FRAME];
	double sum = 0;
	for (int i = 0; i < LEAK_FRAME; i++, scene->at++) {
		played[i] = (int16_t)lround(played_rms * noise(scene));
		scene->played[scene->at % HISTORY] = played[i];
		double leaked = scene->at < LATE ? 0 : scene->played[(scene->at - LATE) % HISTORY];
		heard[i] = (int16_t)lround(gain * leaked + scene->room_rms * noise(scene) +
					   voice_rms * noise(scene));
	}
	if (original != NULL)
		memcpy(original, heard, sizeof heard);
	leak_take_out(scene->leak, heard, played);
	if (original != NULL)
		assert_memory_equal(original, heard, sizeof heard);
	for (int i = 0; i < LEAK_FRAME; i++)
		sum += (double)heard[i] * heard[i];
	return sqrt(sum / LEAK_FRAME);
}

/* The loudest of so many frames. */
static double
loudest(struct scene *scene, int frames, double played_rms, double gain, double voice_rms)
{
	double most = 0;
	for (int i = 0; i < frames; i++)
		most = fmax(most, frame(scene, played_rms, gain, voice_rms, NULL));
	return most;
}

static void
what_is_heard_while_nothing_is_played_stays_as_it_is(void **state)
{
	struct scene scene;
	int16_t original[LEAK_FRAME];
	enter(&scene);
	for (int i = 0; i < SECOND; i++)
		frame(&scene, 0, 0, i % 20 < 10 ? 2000 : 0, original);
	assert_true(leak_silent(scene.leak));
	leak_destroy(scene.leak);
}

static void
the_first_read_back_is_already_kept_from_the_ears(void **state)
{
	static const double gains[] = {0.01, 0.03, 0.1};
	for (size_t i = 0; i < sizeof gains / sizeof *gains; i++) {
		struct scene scene;
		enter(&scene);
		loudest(&scene, SECOND, 0, 0, 0);
		assert_true(loudest(&scene, SECOND, 3000, gains[i], 0) < 2 * room_rms);
		assert_true(loudest(&scene, SECOND / 2, 0, gains[i], 0) < 2 * room_rms);
		leak_destroy(scene.leak);
	}
}

static void
the_room_does_not_fall_silent_meanwhile(void **state)
{
	struct scene scene;
	enter(&scene);
	loudest(&scene, SECOND, 0, 0, 0);
	for (int i = 0; i < SECOND; i++)
		assert_true(frame(&scene, 3000, 0.1, 0, NULL) > room_rms / 2);
	leak_destroy(scene.leak);
}

/* A microphone that gives nothing at all between words: their edges, soft as they are, are not put
 * in place of the leak. */
static void
the_edges_of_words_are_not_taken_for_the_room(void **state)
{
	struct scene scene;
	enter(&scene);
	scene.room_rms = 0;
	loudest(&scene, SECOND, 0, 0, 0);
	for (int rms = 1; rms < 10; rms++)
		frame(&scene, 0, 0, rms, NULL);
	loudest(&scene, SECOND / 2, 0, 0, 500);
	for (int rms = 10; rms > 0; rms--)
		frame(&scene, 0, 0, rms, NULL);
	loudest(&scene, SECOND / 4, 0, 0, 0);
	assert_true(loudest(&scene, SECOND, 3000, 0.1, 0) == 0);
	assert_true(loudest(&scene, SECOND / 3, 0, 0.1, 0) == 0);
	leak_destroy(scene.leak);
}

static void
what_is_said_over_it_is_heard_at_once(void **state)
{
	struct scene scene;
	enter(&scene);
	loudest(&scene, SECOND, 0, 0, 0);
	for (int i = 0; i < 4; i++) {
		loudest(&scene, SECOND, 3000, 0.03, 0);
		loudest(&scene, SECOND, 0, 0.03, 0);
	}
	loudest(&scene, SECOND / 2, 3000, 0.03, 0);
	/* 26 dB below full scale minus 10: a soft voice. */
	assert_true(frame(&scene, 3000, 0.03, 500, NULL) > 300);
	assert_true(frame(&scene, 3000, 0.03, 500, NULL) > 300);
	/* And a pause between two words does not shut it out. */
	loudest(&scene, 10, 3000, 0.03, 0);
	assert_true(frame(&scene, 3000, 0.03, 100, NULL) > 60);
	leak_destroy(scene.leak);
}

static void
a_small_leak_makes_the_gate_open_for_softer_voices(void **state)
{
	struct scene scene;
	enter(&scene);
	double first_db = leak_gate_db(scene.leak);
	for (int i = 0; i < 5; i++) {
		loudest(&scene, SECOND, 3000, 0.003, 0);
		loudest(&scene, SECOND, 0, 0.003, 0);
	}
	assert_true(leak_gate_db(scene.leak) < first_db - 15);
	leak_restart(scene.leak);
	assert_true(leak_gate_db(scene.leak) == first_db);
	leak_destroy(scene.leak);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_is_heard_while_nothing_is_played_stays_as_it_is),
		cmocka_unit_test(the_first_read_back_is_already_kept_from_the_ears),
		cmocka_unit_test(the_room_does_not_fall_silent_meanwhile),
		cmocka_unit_test(the_edges_of_words_are_not_taken_for_the_room),
		cmocka_unit_test(what_is_said_over_it_is_heard_at_once),
		cmocka_unit_test(a_small_leak_makes_the_gate_open_for_softer_voices),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
