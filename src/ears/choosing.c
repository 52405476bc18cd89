#include "choosing.h"

#include <stdlib.h>
#include <string.h>

/* The weights are those of tests/bench/model/rescoring.py, which fitted them. A step of the
 * recogniser's scores is 1024 ln 1.0001 nats. Its scores of the others lack the grammar's weights
 * and the price of a word, so a word costs, and its own best gets something back. */
#define NATS_A_STEP 0.102395
#define NETWORK_SHARE 1.0
#define WORD_COST 30.0
#define BEST_BONUS 5.0

static int
count_words(const char *text)
{
	int count = text[0] != '\0';
	for (; *text != '\0'; text++)
		count += *text == ' ';
	return count;
}

static int
by_total(const void *one, const void *other)
{
	double a = ((const struct choice *)one)->total, b = ((const struct choice *)other)->total;
	return a > b ? -1 : a < b;
}

int
choosing_order(const struct decoded *decoded, const struct automaton *grammar,
	       const struct laying *laying, const float *scores, int frames,
	       struct choice choices[CHOICES_MAX])
{
	int count = 0;
	struct laid *laid = malloc(sizeof *laid);
	if (decoded->text[0] == '\0' || laid == NULL) {
		free(laid);
		return 0;
	}
	for (int i = -1; i < decoded->other_count; i++) {
		const char *text = i < 0 ? decoded->text : decoded->others[i].text;
		int32_t score = i < 0 ? decoded->lattice_score : decoded->others[i].score;
		/* The lattice also holds paths that end where no sentence does. */
		if (i >= 0 && !automaton_standing(grammar, text).complete)
			continue;
		struct choice *choice = &choices[count++];
		strcpy(choice->text, text);
		choice->own = NATS_A_STEP * score - WORD_COST * count_words(text) +
			      (i < 0 ? BEST_BONUS : 0);
		choice->total = choice->own;
		if (scores == NULL)
			continue;
		laying_lay(laying, scores, frames, text, laid);
		choice->total += NETWORK_SHARE * laid->score;
	}
	free(laid);
	qsort(choices, (size_t)count, sizeof *choices, by_total);
	return count;
}
