#include "evidence.h"

#include <math.h>

/* Where no reading with another meaning is left within the beam, it is at least so far behind. */
#define MARGIN_MAX 120.0
#define OWN_MARGIN_MIN -20.0

/* What a word that cannot be laid at all is given, nats a frame. */
#define HOPELESS -10.0

static const char *const names[EVIDENCE_FEATURES] = {
	[EVIDENCE_RATIO] = "ratio",	  [EVIDENCE_WORST_RATIO] = "worst_ratio",
	[EVIDENCE_MARGIN] = "margin",	  [EVIDENCE_OWN_MARGIN] = "own_margin",
	[EVIDENCE_SHORTEST] = "shortest", [EVIDENCE_PACE] = "pace",
	[EVIDENCE_LEVEL] = "level_db",	  [EVIDENCE_COVER] = "cover",
	[EVIDENCE_WORDS] = "words",
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

void
evidence_gather(const struct evidence_ground *ground, int first, int count,
		struct evidence *evidence)
{
	enum { PARTS_A_PHONE = 3 };
	double fit = 0, frames = 0, phones = 0, all_frames = 0;
	double worst = ground->laid->word_count > 0 ? 0 : HOPELESS, shortest = 12;
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
		shortest = fmin(shortest, length * PARTS_A_PHONE / fmax(word->parts, 1));
	}
	double loud = ground->loud_last - ground->loud_first + 1;
	double *value = evidence->value;
	value[EVIDENCE_RATIO] = frames > 0 ? within(fit / frames, HOPELESS, 10) : HOPELESS;
	value[EVIDENCE_WORST_RATIO] = within(worst, HOPELESS, 10);
	value[EVIDENCE_MARGIN] =
		ground->has_other ? within(ground->margin, 0, MARGIN_MAX) : MARGIN_MAX;
	value[EVIDENCE_OWN_MARGIN] =
		ground->has_other ? within(ground->own_margin, OWN_MARGIN_MIN, MARGIN_MAX)
				  : MARGIN_MAX;
	value[EVIDENCE_SHORTEST] = shortest;
	value[EVIDENCE_PACE] = phones > 0 ? fmin(frames / phones, 20) : 0;
	value[EVIDENCE_LEVEL] = ground->level_db;
	value[EVIDENCE_COVER] = loud > 0 ? fmin(all_frames / loud, 2) : 0;
	value[EVIDENCE_WORDS] = fmin(count, 8);
}
