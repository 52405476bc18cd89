#include "speech.h"

#include "level.h"
#include "plain_text.h"

#include <flite/flite.h>
#include <math.h>
#include <samplerate.h>
#include <stdlib.h>
#include <string.h>

/* flite's headers do not name its voices. */
extern cst_voice *register_cmu_us_slt(const char *folder);
extern cst_voice *register_cmu_us_rms(const char *folder);
extern cst_voice *register_cmu_us_awb(const char *folder);
extern cst_voice *register_cmu_us_kal16(const char *folder);
extern cst_voice *register_cmu_us_kal(const char *folder);

static const struct {
	const char *name;
	cst_voice *(*get)(const char *folder);
	double stretch; /* of its usual speed, as the voice itself sets it */
} voices[] = {{"slt", register_cmu_us_slt, 1.0},
	      {"rms", register_cmu_us_rms, 1.0},
	      {"awb", register_cmu_us_awb, 1.0},
	      {"kal16", register_cmu_us_kal16, 1.1},
	      {"kal", register_cmu_us_kal, 1.1}};
enum { VOICES = sizeof voices / sizeof *voices };

enum {
	CACHE_PHRASES = 64,
	CACHE_BYTES_MAX = 4 << 20,	  /* two minutes of speech */
	CACHE_PHRASE_BYTES_MAX = 1 << 20, /* what is longer is hardly said twice */
	LEAD_MS = 15,  /* kept before the first phone: its soft onset may be early */
	TRAIL_MS = 40, /* kept after the last phone, for it rings on */
	BETWEEN_PIECES_MS = 150,
	EDGE_SAMPLES = SOUND_RATE_HZ / 200 /* 5 ms: the cuts are faded */
};

struct phrase {
	char *text; /* plain */
	struct sound sound;
};

struct speech {
	cst_voice *voice; /* flite's: one of each name, kept as long as the program runs */
	float stretch;
	struct phrase cache[CACHE_PHRASES]; /* the last used first */
	int cached;
	size_t cached_bytes;
};

struct speech *
speech_open(const char *name, double rate, struct problem *problem)
{
	int which = 0;
	while (which < VOICES && strcmp(voices[which].name, name) != 0)
		which++;
	if (which == VOICES) {
		problem_say(problem,
			    "there is no voice \"%.40s\"; choose one of slt, rms, awb, kal16, kal",
			    name);
		return NULL;
	}
	if (!(rate >= 0.5 && rate <= 2.0)) {
		problem_say(problem, "speech can be 0.5 to 2.0 times its usual speed, not %g",
			    rate);
		return NULL;
	}
	struct speech *speech = calloc(1, sizeof *speech);
	if (speech == NULL) {
		problem_say(problem, "cannot speak: out of memory");
		return NULL;
	}
	flite_init();
	speech->voice = voices[which].get(NULL);
	speech->stretch = (float)(voices[which].stretch / rate);
	if (speech->voice == NULL) {
		problem_say(problem, "flite cannot load its voice \"%s\"", name);
		speech_close(speech);
		return NULL;
	}
	return speech;
}

static void
drop_oldest(struct speech *speech)
{
	struct phrase *oldest = &speech->cache[--speech->cached];
	speech->cached_bytes -= (size_t)oldest->sound.count * sizeof(int16_t);
	free(oldest->text);
	sound_finish(&oldest->sound);
}

void
speech_close(struct speech *speech)
{
	if (speech == NULL)
		return;
	while (speech->cached > 0)
		drop_oldest(speech);
	free(speech);
}

/* Finds a phrase and makes it the last used. */
static const struct phrase *
cache_find(struct speech *speech, const char *text)
{
	for (int i = 0; i < speech->cached; i++) {
		if (strcmp(speech->cache[i].text, text) != 0)
			continue;
		struct phrase found = speech->cache[i];
		memmove(&speech->cache[1], &speech->cache[0], (size_t)i * sizeof found);
		speech->cache[0] = found;
		return &speech->cache[0];
	}
	return NULL;
}

/* Keeps a copy of the sound, and the text itself. When there is no memory to keep it, it is not. */
static void
cache_add(struct speech *speech, char *text, const struct sound *sound)
{
	size_t bytes = (size_t)sound->count * sizeof(int16_t);
	struct phrase phrase = {.text = text};
	if (bytes > CACHE_PHRASE_BYTES_MAX || !sound_mix(&phrase.sound, sound, 0)) {
		free(text);
		return;
	}
	while (speech->cached == CACHE_PHRASES ||
	       (speech->cached > 0 && speech->cached_bytes + bytes > CACHE_BYTES_MAX))
		drop_oldest(speech);
	memmove(&speech->cache[1], &speech->cache[0], (size_t)speech->cached * sizeof phrase);
	speech->cache[0] = phrase;
	speech->cached++;
	speech->cached_bytes += bytes;
}

/* Between which seconds flite speaks, by its own phones; false when it says nothing. */
static bool
spoken_between(cst_utterance *utterance, double *from_s, double *to_s)
{
	bool speaks = false;
	double end_s = 0;
	cst_relation *phones = utt_relation(utterance, "Segment");
	for (cst_item *phone = relation_head(phones); phone != NULL; phone = item_next(phone)) {
		double start_s = end_s;
		end_s = item_feat_float(phone, "end");
		if (strcmp(item_name(phone), "pau") == 0)
			continue;
		if (!speaks)
			*from_s = start_s;
		*to_s = end_s;
		speaks = true;
	}
	return speaks;
}

static void
fade_edges(struct sound *sound)
{
	for (int64_t i = 0; i < EDGE_SAMPLES && i < sound->count / 2; i++) {
		int16_t *first = &sound->samples[i], *last = &sound->samples[sound->count - 1 - i];
		*first = (int16_t)(*first * i / EDGE_SAMPLES);
		*last = (int16_t)(*last * i / EDGE_SAMPLES);
	}
}

/* Samples [from, to) of the wave at 16 kHz. */
static bool
brought_to_rate(const cst_wave *wave, int64_t from, int64_t to, struct sound *sound)
{
	int64_t count = to - from;
	if (wave->sample_rate == SOUND_RATE_HZ) {
		struct sound spoken = {wave->samples + from, count};
		return sound_mix(sound, &spoken, 0);
	}
	double ratio = (double)SOUND_RATE_HZ / wave->sample_rate;
	int64_t most = (int64_t)((double)count * ratio) + 1;
	float *in = malloc((size_t)count * sizeof *in), *out = malloc((size_t)most * sizeof *out);
	int16_t *samples = malloc((size_t)most * sizeof *samples);
	bool done = in != NULL && out != NULL && samples != NULL;
	if (done) {
		src_short_to_float_array(wave->samples + from, in, (int)count);
		SRC_DATA data = {.data_in = in,
				 .data_out = out,
				 .input_frames = count,
				 .output_frames = most,
				 .src_ratio = ratio};
		done = src_simple(&data, SRC_SINC_MEDIUM_QUALITY, 1) == 0;
		src_float_to_short_array(out, samples, (int)data.output_frames_gen);
		sound->count = data.output_frames_gen;
	}
	free(in);
	free(out);
	if (done) {
		sound->samples = samples;
	} else {
		free(samples);
		sound->count = 0;
	}
	return done;
}

/* The utterance without the silence around it, at 16 kHz. */
static bool
cut_out(cst_utterance *utterance, struct sound *sound)
{
	const cst_wave *wave = utt_wave(utterance);
	double from_s = 0, to_s = 0;
	if (!spoken_between(utterance, &from_s, &to_s))
		return true;
	int64_t from = (int64_t)(fmax(0, from_s - LEAD_MS / 1000.0) * wave->sample_rate);
	int64_t to = (int64_t)((to_s + TRAIL_MS / 1000.0) * wave->sample_rate);
	if (to > wave->num_samples)
		to = wave->num_samples;
	if (from >= to)
		return true;
	if (!brought_to_rate(wave, from, to, sound))
		return false;
	fade_edges(sound);
	return true;
}

/* flite colours breathy phones with the C library's random numbers. It is given a row of its own
 * that starts alike for each utterance, and the program's own row is left where it was. */
static cst_utterance *
synthesise(const struct speech *speech, const char *text)
{
	char row[128];
	char *programs_own = initstate(1, row, sizeof row);
	flite_feat_set_float(speech->voice->features, "duration_stretch", speech->stretch);
	cst_utterance *utterance = flite_synth_text(text, speech->voice);
	setstate(programs_own);
	return utterance;
}

/* Adds the piece to the end of the sound. `piece` ends in a zero. */
static bool
add_piece(const struct speech *speech, const char *piece, struct sound *sound)
{
	struct sound words = {NULL, 0};
	cst_utterance *utterance = synthesise(speech, piece);
	bool done = utterance != NULL && cut_out(utterance, &words);
	int64_t pause = sound->count == 0 ? 0 : BETWEEN_PIECES_MS * SOUND_RATE_HZ / 1000;
	done = done && sound_mix(sound, &words, sound->count + pause);
	sound_finish(&words);
	if (utterance != NULL)
		delete_utterance(utterance);
	return done;
}

bool
speech_render(struct speech *speech, const char *text, struct sound *sound, struct problem *problem)
{
	*sound = (struct sound){NULL, 0};
	char *plain = plain_text(text);
	bool done = plain != NULL;
	if (done) {
		const struct phrase *said = cache_find(speech, plain);
		if (said != NULL) {
			free(plain);
			return sound_mix(sound, &said->sound, 0) ||
			       problem_say(problem, "cannot say \"%.60s\": out of memory", text);
		}
	}
	size_t length;
	for (const char *rest = plain; done && (length = plain_text_piece(rest)) > 0;
	     rest += length) {
		char piece[PLAIN_TEXT_PIECE_MAX + 2];
		memcpy(piece, rest, length);
		piece[length] = '\0';
		done = add_piece(speech, piece, sound);
	}
	if (!done) {
		free(plain);
		sound_finish(sound);
		return problem_say(problem,
				   "cannot say \"%.60s\": flite could not speak it or memory ran "
				   "out",
				   text);
	}
	level_set(sound, LEVEL_SPEECH_DBFS, LEVEL_SPEECH_PEAK_DBFS);
	cache_add(speech, plain, sound);
	return true;
}
