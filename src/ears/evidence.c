#include "evidence.h"

#include <math.h>

/* Where no reading with another meaning is left within the beam, it is at least so far behind. */
#define MARGIN_MAX 120.0

/* What a word that cannot be laid at all is given, nats a frame. */
#define HOPELESS -10.0

#define OUTSIDE_MAX 200.0

static const char *const names[EVIDENCE_FEATURES] = {
	[EVIDENCE_RATIO] = "ratio",
	[EVIDENCE_WORST_RATIO] = "worst_ratio",
	[EVIDENCE_MARGIN] = "margin",
	[EVIDENCE_SHORTEST] = "shortest",
	[EVIDENCE_PACE] = "pace",
	[EVIDENCE_LEVEL] = "level_db",
	[EVIDENCE_COVER] = "cover",
	[EVIDENCE_WORDS] = "words",
	[EVIDENCE_WORST_STRETCH] = "worst_stretch",
	[EVIDENCE_OUTSIDE] = "outside",
};

const char *
evidence_name(enum evidence_feature feature)
{
	return names[feature];
}

static double
within(double value, double least, double most)
{
	return fmin(fmax(value, least), most);
}

/* How well the frames of a word fit where they fit worst: a word that is nearly what was said fails
 * in one phone. */
static double
worst_stretch(const struct evidence_ground *ground, const struct laid_word *word)
{
	double sum = 0, worst = 0;
	int count = 0;
	for (int frame = word->first_frame; frame <= word->last_frame; frame++) {
		sum += ground->laid_scores[frame] - ground->anything[frame];
		if (++count > STRETCH_FRAMES) {
			int past = frame - STRETCH_FRAMES;
			sum -= ground->laid_scores[past] - ground->anything[past];
			count--;
		}
		if (count == STRETCH_FRAMES || frame == word->last_frame)
			worst = fmin(worst, sum / count);
	}
	return worst;
}

/* What was said besides the words. */
static double
outside(const struct evidence_ground *ground)
{
	const struct laid *laid = ground->laid;
	double sum = 0;
	for (int frame = 0, word = 0; laid->possible && frame < ground->frames; frame++) {
		while (word < laid->word_count && laid->words[word].last_frame < frame)
			word++;
		if (word == laid->word_count || frame < laid->words[word].first_frame)
			sum += ground->anything[frame] - ground->laid_scores[frame];
	}
	return sum;
}

void
evidence_gather(const struct evidence_ground *ground, int first, int count,
		struct evidence *evidence)
{
	enum { PARTS_A_PHONE = 3 };
	double fit = 0, frames = 0, phones = 0, all_frames = 0;
	double worst = ground->laid->word_count > 0 ? 0 : HOPELESS, shortest = 12, stretch = worst;
	for (int i = 0; i < ground->laid->word_count; i++) {
		const struct laid_word *word = &ground->laid->words[i];
		double length = word->last_frame - word->first_frame + 1, other = 0;
		if (length < 1)
			continue;
		all_frames += length;
		if (i < first || i >= first + count)
			continue;
		for (int frame = word->first_frame; frame <= word->last_frame; frame++)
			other += ground->anything[frame];
		fit += word->score - other;
		frames += length;
		phones += (double)word->parts / PARTS_A_PHONE;
		worst = fmin(worst, (word->score - other) / length);
		stretch = fmin(stretch, worst_stretch(ground, word));
		shortest = fmin(shortest, length * PARTS_A_PHONE / fmax(word->parts, 1));
	}
	double loud = ground->loud_last - ground->loud_first + 1;
	double *value = evidence->value;
	value[EVIDENCE_RATIO] = frames > 0 ? within(fit / frames, HOPELESS, 10) : HOPELESS;
	value[EVIDENCE_WORST_RATIO] = within(worst, HOPELESS, 10);
	value[EVIDENCE_WORST_STRETCH] = within(stretch, HOPELESS, 0);
	value[EVIDENCE_OUTSIDE] = within(outside(ground), 0, OUTSIDE_MAX);
	value[EVIDENCE_MARGIN] =
		ground->has_other ? within(ground->margin, 0, MARGIN_MAX) : MARGIN_MAX;
	value[EVIDENCE_SHORTEST] = shortest;
	value[EVIDENCE_PACE] = phones > 0 ? fmin(frames / phones, 20) : 0;
	value[EVIDENCE_LEVEL] = ground->level_db;
	value[EVIDENCE_COVER] = loud > 0 ? fmin(all_frames / loud, 2) : 0;
	value[EVIDENCE_WORDS] = fmin(count, 8);
}
