#include "ears.h"

#include "endpointer.h"
#include "hearing.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

/* Times in frames of 10 ms. The hang-overs are counted from the last voiced frame on. */
enum {
	PRE_ROLL_FRAMES = 30,	   /* of what was before the first voiced frame */
	LOOK_BACK_FRAMES = 60,	   /* and in noise a first sound may lie further back */
	SOFT_END_FRAMES = 3,	   /* of a last sound, after the last voiced frame */
	ENDING_FRAMES = 4,	   /* after the last word; with fewer, it may not be over */
	COMPLETE_HANG_OVER = 8,	   /* nothing can lengthen it */
	VALUE_HANG_OVER = 17,	   /* "chest twenty one", which "and a half" may follow */
	LENGTHENS_HANG_OVER = 30,  /* "twenty", which "one" may follow */
	INCOMPLETE_HANG_OVER = 90, /* "chest", "point" */
	CLICK_FRAMES = 7,	   /* shorter than any word */
	TALK_FRAMES = 30,	   /* refused speech so long is talk */
	APART_FRAMES = 40,	   /* and a call that is one of its own comes so long after it */
	GIVE_UP_FRAMES = 250,	   /* when it is no call by then, it never will be */
	LONGEST_FRAMES = 1500,
	QUIET_FRAMES = 50, /* kept while nobody speaks */
	NOTE_SILENCE_FRAMES = 150
};

/* What is added to what the endpointer hears, root mean square, in steps of 16 bits: presence has
 * never met digital silence. Less than any microphone's own noise. */
#define DITHER 3.0

/* How many frames of its own an utterance's mean is outweighed by, once the speaker is known. */
#define KNOWN_MEAN_FRAMES 60.0

enum {
	PAD_SAMPLES = PRE_ROLL_FRAMES * FRAME_SAMPLES,
	LOOK_BACK_SAMPLES = LOOK_BACK_FRAMES * FRAME_SAMPLES,
	KEPT_MAX = (LONGEST_FRAMES + 2 * LOOK_BACK_FRAMES + QUIET_FRAMES + 64) * FRAME_SAMPLES
};

struct ears {
	struct hearing hearing;
	struct endpointer endpointer;
	struct ears_utterance utterance;
	enum ears_place place;
	char measure[CALL_NAME_MAX];
	uint64_t number;
	int64_t taken_in; /* samples fed so far */
	int16_t block[FRAME_SAMPLES];
	int block_count;
	int16_t *kept; /* the newest sound, from kept_from on */
	int64_t kept_from, kept_count, kept_room;
	int64_t heard_to; /* the sample up to which the utterance before was looked at */
	int64_t talk_to;  /* the frame at which talk that is no call ended */
	bool note_speech; /* of a note: something was said since it last fell silent */
	int16_t *piece;	  /* what is looked at: padded */
	int64_t piece_room;
	bool looked;   /* at all that was said up to the last voiced frame */
	bool skipping; /* it was given up: wait for silence */
	int64_t skipped_from;
	float mean[CEPSTRA]; /* of the speaker, from what was taken */
	double mean_frames;
	double wearer_db; /* how loud the wearer speaks, from what was taken; 0: not known */
	double last_db;
	float last_mean[CEPSTRA];
	int last_frames;
	uint32_t noise, dither;
	struct {
		enum looked_at stands;
		bool over;
	} last;
};

static const char *const decided_names[] = {"silence", "limit", "end"};

const char *
decided_by_name(enum decided_by decided_by)
{
	return decided_names[decided_by];
}

static double
now_ms(void)
{
	struct timespec now;
	clock_gettime(CLOCK_MONOTONIC, &now);
	return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

/* A little noise of our own, since the model has never met digital silence. The same for the same
 * sound: the generator starts afresh with every utterance. */
static int16_t
noise_sample(uint32_t *state, double level)
{
	double sum = 0;
	for (int i = 0; i < 3; i++) {
		*state = *state * 1664525u + 1013904223u;
		sum += (double)(*state >> 8) / (1 << 23) - 1;
	}
	return (int16_t)lround(sum * level);
}

static int16_t
with_noise(int16_t sample, uint32_t *state, double level)
{
	int value = sample + noise_sample(state, level);
	return (int16_t)(value > 32767 ? 32767 : value < -32768 ? -32768 : value);
}

struct ears *
ears_open(const struct ears_setting *setting, struct problem *problem)
{
	struct ears *ears = calloc(1, sizeof *ears);
	if (ears == NULL || !hearing_init(&ears->hearing, setting, problem)) {
		free(ears);
		return NULL;
	}
	ears_restart(ears);
	return ears;
}

void
ears_close(struct ears *ears)
{
	if (ears == NULL)
		return;
	hearing_finish(&ears->hearing);
	free(ears->kept);
	free(ears->piece);
	free(ears);
}

/* A note is no utterance: what was said before it, or in it, is not looked at later. */
static void
forget_speech(struct ears *ears)
{
	ears->kept_from += ears->kept_count;
	ears->kept_count = 0;
	ears->endpointer.speaking = false;
	ears->looked = ears->skipping = ears->note_speech = false;
}

void
ears_expect(struct ears *ears, enum ears_place place, const char *measure)
{
	if ((place == EARS_NOTE) != (ears->place == EARS_NOTE))
		forget_speech(ears);
	ears->place = place;
	memset(ears->measure, 0, sizeof ears->measure);
	if (measure != NULL)
		strncpy(ears->measure, measure, sizeof ears->measure - 1);
}

const int16_t *
ears_note(const struct ears *ears, int64_t *count)
{
	*count = ears->place == EARS_NOTE ? ears->kept_count : 0;
	return ears->kept;
}

void
ears_restart(struct ears *ears)
{
	endpointer_init(&ears->endpointer);
	spectrum_restart(ears->hearing.spectrum);
	presence_restart(ears->hearing.presence);
	ears->heard_to = 0;
	ears->talk_to = -APART_FRAMES;
	ears->dither = 20261127;
	ears->taken_in = 0;
	ears->block_count = 0;
	ears->kept_from = ears->kept_count = 0;
	ears->looked = ears->skipping = false;
	ears->mean_frames = ears->wearer_db = 0;
	memset(ears->mean, 0, sizeof ears->mean);
}

_Static_assert((int)EARS_MEAN_SIZE == (int)CEPSTRA, "the wearer's mean is one of cepstra");

void
ears_wearer(const struct ears *ears, struct ears_wearer *wearer)
{
	wearer->known = ears->mean_frames > 0;
	memcpy(wearer->mean, ears->mean, sizeof wearer->mean);
}

void
ears_know_wearer(struct ears *ears, const struct ears_wearer *wearer)
{
	if (!wearer->known)
		return;
	memcpy(ears->mean, wearer->mean, sizeof ears->mean);
	ears->mean_frames = KNOWN_MEAN_FRAMES;
}

static bool
keep(struct ears *ears, const int16_t *samples, int64_t count)
{
	if (ears->kept_count + count > ears->kept_room) {
		int64_t room = ears->kept_room > 0 ? 2 * ears->kept_room : 1 << 16;
		while (room < ears->kept_count + count)
			room *= 2;
		int16_t *grown = realloc(ears->kept, sizeof *grown * (size_t)room);
		if (grown == NULL)
			return false;
		ears->kept = grown;
		ears->kept_room = room;
	}
	memcpy(ears->kept + ears->kept_count, samples, sizeof *samples * (size_t)count);
	ears->kept_count += count;
	return true;
}

static void
forget_before(struct ears *ears, int64_t sample)
{
	int64_t drop = sample - ears->kept_from;
	if (drop <= 0)
		return;
	if (drop > ears->kept_count)
		drop = ears->kept_count;
	ears->kept_count -= drop;
	ears->kept_from += drop;
	memmove(ears->kept, ears->kept + drop, sizeof *ears->kept * (size_t)ears->kept_count);
}

/* The level of the quietest twentieth of 25 ms pieces: what a room sounds like behind the words. */
static double
room_level(const int16_t *samples, int64_t count)
{
	enum { PIECE = 400, BINS = 96 };
	int histogram[BINS] = {0}, pieces = 0, seen = 0;
	for (int64_t at = 0; at + PIECE <= count; at += PIECE, pieces++) {
		double sum = 0;
		for (int i = 0; i < PIECE; i++)
			sum += (double)samples[at + i] * samples[at + i];
		int bin = (int)(10 * log10(sum / PIECE + 1));
		histogram[bin < BINS ? bin : BINS - 1]++;
	}
	for (int bin = 0; bin < BINS; bin++) {
		seen += histogram[bin];
		if (seen * 20 > pieces)
			return fmin(fmax(pow(10, bin / 20.0), 3), 30);
	}
	return 3;
}

/* The piece of sound from sample `from` to `to`, with noise where it reaches beyond what there is
 * (before the first sample, or past the last), and a trace of noise everywhere. */
static const int16_t *
cut_piece(struct ears *ears, int64_t from, int64_t to)
{
	int64_t count = to - from;
	if (count > ears->piece_room) {
		int16_t *grown = realloc(ears->piece, sizeof *grown * (size_t)count);
		if (grown == NULL)
			return NULL;
		ears->piece = grown;
		ears->piece_room = count;
	}
	double level = room_level(ears->kept, ears->kept_count);
	ears->noise = 20260317;
	for (int64_t i = 0; i < count; i++) {
		int64_t at = from + i - ears->kept_from;
		if (at < 0 || at >= ears->kept_count) {
			ears->piece[i] = noise_sample(&ears->noise, level);
			continue;
		}
		ears->piece[i] = with_noise(ears->kept[at], &ears->noise, 1);
	}
	return ears->piece;
}

/* Looks at what was said between two samples; the utterance is ready but for when it was decided.
 */
static void
look(struct ears *ears, int64_t from, int64_t to, int64_t voiced_from, int64_t voiced_to)
{
	const int16_t *piece = cut_piece(ears, from, to);
	struct hearing_look looked = {.place = ears->place,
				      .measure = ears->measure,
				      .samples = piece,
				      .count = piece != NULL ? to - from : 0,
				      .wearer_db = ears->wearer_db,
				      .mean = ears->mean,
				      .mean_frames = ears->mean_frames};
	hearing_look(&ears->hearing, &looked, &ears->utterance);
	ears->utterance.start_ms = voiced_from * 1000 / EARS_SAMPLE_RATE_HZ;
	ears->utterance.end_ms = voiced_to * 1000 / EARS_SAMPLE_RATE_HZ;
	ears->last_db = looked.loud_db;
	ears->last.stands = looked.stands;
	ears->last.over =
		ears->utterance.reading_count == 0 || looked.after_frames >= ENDING_FRAMES;
	memcpy(ears->last_mean, looked.found_mean, sizeof ears->last_mean);
	ears->last_frames = looked.found_frames;
	ears->looked = true;
}

static void
look_at_speech(struct ears *ears)
{
	int64_t first = ears->endpointer.first_voiced * FRAME_SAMPLES;
	int64_t last = (ears->endpointer.last_voiced + 1) * FRAME_SAMPLES;
	int64_t end = ears->kept_from + ears->kept_count;
	int64_t from = first - LOOK_BACK_SAMPLES, to = last + LENGTHENS_HANG_OVER * FRAME_SAMPLES;
	if (from < ears->heard_to) /* not what was said before */
		from = ears->heard_to < first ? ears->heard_to : first;
	look(ears, from, to < end ? to : end, first, last < end ? last : end);
}

/* What was taken tells how the wearer sounds: the next utterance is heard with that. */
static void
learn_wearer(struct ears *ears)
{
	if (ears->utterance.verdict != VERDICT_TAKEN || ears->last_frames == 0)
		return;
	double share = ears->mean_frames > 0 ? 0.2 : 1;
	for (int k = 0; k < CEPSTRA; k++)
		ears->mean[k] += (float)share * (ears->last_mean[k] - ears->mean[k]);
	ears->mean_frames = KNOWN_MEAN_FRAMES;
	ears->wearer_db += (ears->wearer_db > 0 ? 0.3 : 1) * (ears->last_db - ears->wearer_db);
}

/* People who talk stop for breath, and some of what they say then sounds like a call. */
static void
mind_talk(struct ears *ears)
{
	const struct endpointer *endpointer = &ears->endpointer;
	if (endpointer->first_voiced - ears->talk_to < APART_FRAMES)
		hearing_doubt(&ears->utterance);
	if (ears->utterance.verdict == VERDICT_REFUSED &&
	    endpointer->last_voiced - endpointer->first_voiced >= TALK_FRAMES)
		ears->talk_to = endpointer->last_voiced;
}

static void
decide(struct ears *ears, enum decided_by by, struct ears_event *event)
{
	double began = now_ms();
	if (!ears->looked)
		look_at_speech(ears);
	struct ears_utterance *utterance = &ears->utterance;
	utterance->number = ++ears->number;
	utterance->decided_by = by;
	utterance->decided_ms = ears->taken_in * 1000 / EARS_SAMPLE_RATE_HZ;
	if (by == DECIDED_BY_LIMIT)
		hearing_doubt(utterance);
	mind_talk(ears);
	int64_t first = ears->endpointer.first_voiced * FRAME_SAMPLES - PAD_SAMPLES;
	int64_t offset = first > ears->kept_from ? first - ears->kept_from : 0;
	utterance->sound = ears->kept + offset;
	utterance->sound_count = ears->kept_count - offset;
	utterance->compute_ms = now_ms() - began;
	learn_wearer(ears);
	event->decided = true;
	event->at_ms = utterance->decided_ms;
	event->utterance = utterance;
}

static int
hang_over(const struct ears *ears)
{
	static const int frames[] = {[STANDS_NOT_YET] = INCOMPLETE_HANG_OVER,
				     [STANDS_NUMBER] = LENGTHENS_HANG_OVER,
				     [STANDS_VALUE] = VALUE_HANG_OVER,
				     [STANDS_WHOLE] = COMPLETE_HANG_OVER};
	enum looked_at stands = ears->last.stands;
	/* In doubt it may be no more than the beginning of a word: "eight", of "eighty". */
	bool unsure = stands == STANDS_VALUE && ears->utterance.verdict == VERDICT_REFUSED;
	if (unsure || (!ears->last.over && stands != STANDS_NOT_YET))
		return LENGTHENS_HANG_OVER;
	return frames[stands];
}

static bool
is_click(const struct ears *ears)
{
	return ears->endpointer.last_voiced - ears->endpointer.first_voiced + 1 < CLICK_FRAMES;
}

static void
on_frame(struct ears *ears, const float bands[BANDS], struct ears_event *event)
{
	struct endpointer *endpointer = &ears->endpointer;
	enum endpoint told =
		endpointer_frame(endpointer, presence_frame(ears->hearing.presence, bands));
	if (told == ENDPOINT_BEGAN) {
		ears->looked = ears->skipping = false;
		event->speech_began = true;
		event->at_ms = ears->taken_in * 1000 / EARS_SAMPLE_RATE_HZ;
		return;
	}
	if (endpointer->speaking && endpointer->voiced)
		ears->looked = false;
	int64_t lasted = endpointer->frame - endpointer->first_voiced;
	if (told == ENDPOINT_PAUSE && !ears->skipping && !is_click(ears)) {
		/* A soft last sound goes on after the last loud one: then once more, later. */
		if (!ears->looked || !ears->last.over)
			look_at_speech(ears);
		endpointer_hang_over(endpointer, hang_over(ears));
	} else if (told == ENDPOINT_ENDED && !is_click(ears)) {
		if (!ears->skipping)
			decide(ears, DECIDED_BY_SILENCE, event);
		else
			ears->talk_to = endpointer->last_voiced;
		ears->heard_to = (endpointer->last_voiced + 1 + SOFT_END_FRAMES) * FRAME_SAMPLES;
	}
	if (!endpointer->speaking || ears->skipping || event->decided)
		return;
	bool hopeless = ears->looked && ears->utterance.verdict == VERDICT_REFUSED &&
			!ears->utterance.near && lasted >= GIVE_UP_FRAMES;
	if (hopeless || lasted >= LONGEST_FRAMES) {
		decide(ears, DECIDED_BY_LIMIT, event);
		ears->skipping = true;
	}
}

static void
on_note_frame(struct ears *ears, const float bands[BANDS], struct ears_event *event)
{
	struct endpointer *endpointer = &ears->endpointer;
	event->at_ms = ears->taken_in * 1000 / EARS_SAMPLE_RATE_HZ;
	if (endpointer_frame(endpointer, presence_frame(ears->hearing.presence, bands)) ==
	    ENDPOINT_BEGAN)
		event->speech_began = ears->note_speech = true;
	event->fell_silent = ears->note_speech &&
			     endpointer->frame - endpointer->last_voiced > NOTE_SILENCE_FRAMES;
	if (event->fell_silent)
		ears->note_speech = false;
}

/* The bands of the newest frame, for whether somebody speaks; false while there is none. */
static bool
next_bands(struct ears *ears, float bands[BANDS])
{
	int16_t heard[FRAME_SAMPLES];
	for (int i = 0; i < FRAME_SAMPLES; i++)
		heard[i] = with_noise(ears->block[i], &ears->dither, DITHER);
	return spectrum_bands(ears->hearing.spectrum, heard, bands);
}

static void
on_note_block(struct ears *ears, struct ears_event *event)
{
	float bands[BANDS];
	if (ears->kept_count < EARS_NOTE_MAX_S * EARS_SAMPLE_RATE_HZ)
		keep(ears, ears->block, FRAME_SAMPLES);
	ears->block_count = 0;
	if (next_bands(ears, bands))
		on_note_frame(ears, bands, event);
}

static void
on_block(struct ears *ears, struct ears_event *event)
{
	float bands[BANDS];
	if (ears->place == EARS_NOTE) {
		on_note_block(ears, event);
		return;
	}
	if (ears->endpointer.speaking && ears->skipping)
		forget_before(ears, ears->taken_in - QUIET_FRAMES * FRAME_SAMPLES);
	else if (!ears->endpointer.speaking && ears->kept_count > 4 * LOOK_BACK_SAMPLES)
		forget_before(ears, ears->taken_in - 2 * LOOK_BACK_SAMPLES);
	keep(ears, ears->block, FRAME_SAMPLES);
	ears->block_count = 0;
	if (next_bands(ears, bands))
		on_frame(ears, bands, event);
}

int64_t
ears_feed(struct ears *ears, const int16_t *samples, int64_t count, struct ears_event *event)
{
	memset(event, 0, sizeof *event);
	int64_t used = 0;
	while (used < count && !event->decided && !event->speech_began && !event->fell_silent) {
		int64_t want = FRAME_SAMPLES - ears->block_count;
		int64_t some = count - used < want ? count - used : want;
		if (ears->hearing.setting.whole) {
			keep(ears, samples + used, count - used);
			ears->taken_in += count - used;
			return count;
		}
		memcpy(ears->block + ears->block_count, samples + used,
		       sizeof *samples * (size_t)some);
		ears->block_count += (int)some;
		ears->taken_in += some;
		used += some;
		if (ears->block_count == FRAME_SAMPLES)
			on_block(ears, event);
	}
	return used;
}

static void
end_whole(struct ears *ears, struct ears_event *event)
{
	int64_t pad = FRAME_SAMPLES * 25;
	double began = now_ms();
	look(ears, -pad, ears->kept_count + pad, 0, ears->kept_count);
	ears->utterance.compute_ms = now_ms() - began;
	ears->utterance.number = ++ears->number;
	ears->utterance.decided_by = DECIDED_BY_END;
	ears->utterance.decided_ms = ears->taken_in * 1000 / EARS_SAMPLE_RATE_HZ;
	ears->utterance.sound = ears->kept;
	ears->utterance.sound_count = ears->kept_count;
	event->decided = true;
	event->at_ms = ears->utterance.decided_ms;
	event->utterance = &ears->utterance;
}

void
ears_end(struct ears *ears, struct ears_event *event)
{
	memset(event, 0, sizeof *event);
	if (ears->hearing.setting.whole) {
		end_whole(ears, event);
		return;
	}
	/* A last sound cut off in the middle of a frame still counts. */
	keep(ears, ears->block, ears->block_count);
	ears->block_count = 0;
	if (ears->place != EARS_NOTE && ears->endpointer.speaking && !ears->skipping &&
	    !is_click(ears))
		decide(ears, DECIDED_BY_END, event);
	ears->endpointer.speaking = false;
}
