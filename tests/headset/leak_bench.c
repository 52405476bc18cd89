/* What lapel hears of its own voice. A read-back is mixed into the microphone as it leaks there
 * from the ear-piece, at several levels below the wearer's voice and several delays, and is fed to
 * the station's ears, once as it is and once with the leak taken out.
 *
 * Usage: leak_bench SOURCE [ROOM_DBFS [DECIBELS_BELOW]]
 *
 * Alone: nobody speaks; whatever begins or is heard is the station's own voice, and should be none.
 * Over it: a person begins half a second into each read-back, which stops when the ears notice; how
 * soon that was, and how often what was said was understood. */
#include "ears.h"
#include "leak.h"
#include "level.h"
#include "speech.h"
#include "station.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const phrases[] = {
	"chest twenty one and a half",
	"length twenty eight",
	"sleeve thirteen and a quarter",
	"waist fifteen, was sixteen",
	"flaw small hole, left cuff",
	"item four eighty two",
	"bin twelve",
	"collar fifteen",
	"struck chest twenty one",
	"missing: sleeve, shoulder",
	"hem twenty two",
	"colour dark green",
};
enum {
	PHRASES = sizeof phrases / sizeof *phrases,
	RATE = EARS_SAMPLE_RATE_HZ,
	TAPS = 24,
	PAUSE = RATE * 3 / 2,
	HISTORY = RATE
};
static const double wearer_dbfs = -26;

struct room {
	double tap[TAPS]; /* of the way from ear-piece to microphone */
	int tap_at[TAPS];
	double noise_dbfs;
	uint32_t random;
	int16_t played[HISTORY]; /* the last second */
	int64_t now;
};

struct figures {
	int spoken, began, taken, doubted, understood;
	double late_ms[PHRASES];
	int late_count;
};

static double
random_unit(uint32_t *state)
{
	*state = *state * 1664525u + 1013904223u;
	return (double)(*state >> 8) / (1 << 23) - 1;
}

/* A way of some twenty reflections within 12 ms, of unit power. */
static void
make_room(struct room *room, int delay_ms, double noise_dbfs)
{
	double power = 0;
	memset(room, 0, sizeof *room);
	room->random = 7;
	room->noise_dbfs = noise_dbfs;
	for (int i = 0; i < TAPS; i++) {
		room->tap_at[i] = delay_ms * RATE / 1000 + i * 8;
		room->tap[i] = random_unit(&room->random) * exp(-i / 6.0);
		power += room->tap[i] * room->tap[i];
	}
	for (int i = 0; i < TAPS; i++)
		room->tap[i] /= sqrt(power);
}

static int16_t
hear_sample(struct room *room, int16_t played, double leak_gain, double voice)
{
	double sum = voice;
	room->played[room->now % HISTORY] = played;
	for (int i = 0; i < TAPS; i++)
		if (room->now >= room->tap_at[i])
			sum += leak_gain * room->tap[i] *
			       room->played[(room->now - room->tap_at[i]) % HISTORY];
	room->now++;
	sum += random_unit(&room->random) * sqrt(3) * level_sample(room->noise_dbfs);
	return (int16_t)fmax(-32768, fmin(32767, lround(sum)));
}

struct run {
	struct ears *ears;
	struct leak *leak; /* NULL: the ears hear it as it is */
	struct room *room;
	double leak_gain;
	struct figures *figures;
};

/* Plays one phrase, with `voice` (or NULL) over it from half a second on. */
static void
play(struct run *run, const struct sound *phrase, const struct sound *voice, const char *said)
{
	int64_t count = phrase->count, voice_from = RATE / 2, hushed = INT64_MAX;
	int64_t end =
		(voice == NULL || count > voice_from + voice->count ? count
								    : voice_from + voice->count) +
		PAUSE;
	for (int64_t at = 0; at < end; at += LEAK_FRAME) {
		int16_t played[LEAK_FRAME], heard[LEAK_FRAME];
		for (int i = 0; i < LEAK_FRAME; i++) {
			int64_t n = at + i, v = n - voice_from;
			played[i] = n < count && n < hushed ? phrase->samples[n] : 0;
			heard[i] = hear_sample(run->room, played[i], run->leak_gain,
					       voice != NULL && v >= 0 && v < voice->count
						       ? voice->samples[v]
						       : 0);
		}
		if (run->leak != NULL)
			leak_take_out(run->leak, heard, played);
		for (int64_t used = 0; used < LEAK_FRAME;) {
			struct ears_event event;
			used += ears_feed(run->ears, heard + used, LEAK_FRAME - used, &event);
			bool late = voice != NULL && at >= voice_from;
			if (event.speech_began) {
				run->figures->began++;
				/* As live: some 40 ms pass until it is silent. */
				if (hushed == INT64_MAX)
					hushed = at + RATE * 40 / 1000;
				if (late && run->figures->late_count < PHRASES &&
				    at < voice_from + RATE)
					run->figures->late_ms[run->figures->late_count++] =
						(double)(at + used - voice_from) * 1000 / RATE;
			}
			if (!event.decided)
				continue;
			run->figures->taken += event.utterance->verdict == VERDICT_TAKEN;
			run->figures->doubted += event.utterance->verdict == VERDICT_DOUBTED;
			run->figures->understood +=
				said != NULL && event.utterance->reading_count > 0 &&
				strcmp(event.utterance->readings[0].text, said) == 0;
		}
	}
	run->figures->spoken++;
}

static int
by_size(const void *one, const void *other)
{
	double a = *(const double *)one, b = *(const double *)other;
	return (a > b) - (a < b);
}

static void
print_figures(const char *how, struct figures *alone, struct figures *over)
{
	qsort(over->late_ms, (size_t)over->late_count, sizeof *over->late_ms, by_size);
	printf("  %-9s alone: %2d began, %2d taken, %2d doubted of %d   over it: %2d noticed, "
	       "median %3.0f ms, most %3.0f ms, %2d understood of %d\n",
	       how, alone->began, alone->taken, alone->doubted, alone->spoken, over->late_count,
	       over->late_count > 0 ? over->late_ms[over->late_count / 2] : 0,
	       over->late_count > 0 ? over->late_ms[over->late_count - 1] : 0, over->understood,
	       over->spoken);
	fflush(stdout);
}

static const char *const calls[] = {"chest twenty two", "length thirty", "waist eighteen", "next",
				    "strike that",	"collar sixteen"};
enum { CALLS = sizeof calls / sizeof *calls };

struct sounds {
	struct sound phrases[PHRASES], calls[CALLS];
};

static void
measure(struct ears *ears, const struct sounds *sounds, double below_db, int delay_ms,
	double noise_dbfs)
{
	printf("leak %.0f dB below the wearer, %d ms late, room %.0f dBFS\n", below_db, delay_ms,
	       noise_dbfs);
	for (int with = 0; with < 2; with++) {
		struct figures alone = {0}, over = {0};
		struct room room;
		struct run run = {
			.ears = ears,
			.leak = with ? leak_create() : NULL,
			.room = &room,
			.leak_gain = pow(10, (wearer_dbfs - below_db - LEVEL_SPEECH_DBFS) / 20)};
		make_room(&room, delay_ms, noise_dbfs);
		ears_restart(ears);
		run.figures = &alone;
		for (int i = 0; i < PHRASES; i++)
			play(&run, &sounds->phrases[i], NULL, NULL);
		run.figures = &over;
		for (int i = 0; i < PHRASES; i++)
			play(&run, &sounds->phrases[i], &sounds->calls[i % CALLS],
			     calls[i % CALLS]);
		print_figures(with ? "taken out" : "as it is", &alone, &over);
		leak_destroy(run.leak);
	}
}

static bool
render(struct sounds *sounds, struct problem *problem)
{
	struct speech *station = speech_open("slt", 1, problem);
	struct speech *wearer = speech_open("rms", 1, problem);
	bool done = station != NULL && wearer != NULL;
	for (int i = 0; done && i < PHRASES; i++)
		done = speech_render(station, phrases[i], &sounds->phrases[i], problem);
	for (int i = 0; done && i < CALLS; i++) {
		done = speech_render(wearer, calls[i], &sounds->calls[i], problem);
		level_set(&sounds->calls[i], wearer_dbfs, -3);
	}
	speech_close(station);
	speech_close(wearer);
	return done;
}

int
main(int count, char **argument)
{
	static const double below_db[] = {50, 40, 30, 20, 10};
	static const int delays_ms[] = {20, 80, 200};
	struct problem problem = {""};
	static struct sounds sounds;
	char grammars[2048], own_model[2048];
	if (count < 2)
		return 2;
	snprintf(grammars, sizeof grammars, "%s/grammars", argument[1]);
	snprintf(own_model, sizeof own_model, "%s/audio/model", argument[1]);
	struct ears_setting setting = {
		.grammars = grammars,
		.own_model = own_model,
		.model = "/usr/share/pocketsphinx/model/en-us/en-us",
		.dictionary = "/usr/share/pocketsphinx/model/en-us/cmudict-en-us.dict",
		.vocabulary = station_vocabulary(grammars, NULL, &problem),
		.meaning = {LENGTH_INCH, "USD"}};
	struct ears *ears = setting.vocabulary != NULL ? ears_open(&setting, &problem) : NULL;
	if (ears == NULL || !render(&sounds, &problem)) {
		fprintf(stderr, "leak_bench: %s\n", problem.text);
		return 1;
	}
	for (size_t d = 0; d < sizeof delays_ms / sizeof *delays_ms; d++)
		for (size_t i = 0; i < sizeof below_db / sizeof *below_db; i++)
			if (count < 4 || below_db[i] == atof(argument[3]))
				measure(ears, &sounds, below_db[i], delays_ms[d],
					count > 2 ? atof(argument[2]) : -66);
	for (int i = 0; i < PHRASES; i++)
		sound_finish(&sounds.phrases[i]);
	for (int i = 0; i < CALLS; i++)
		sound_finish(&sounds.calls[i]);
	ears_close(ears);
	vocabulary_destroy((struct vocabulary *)setting.vocabulary);
	return 0;
}
