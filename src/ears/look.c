#include "hearing.h"

#include "choosing.h"
#include "loudness.h"

#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* What a look works with, and makes on its way. */
struct looking {
	float *bands;		       /* of the piece */
	float *cepstra;		       /* of the piece, mean removed */
	float *scores;		       /* of the network */
	float *laid_scores, *anything; /* of each frame: by the best choice, and by any phones */
	int frames;
	struct found found;
	struct weighed weighed;
	int choice_count;
	struct choice choices[FOUND_MAX];
	struct laid laid; /* the best choice */
};

static void
remove_mean(float *cepstra, int frames, struct hearing_look *look)
{
	look->found_frames = frames;
	for (int k = 0; k < CEPSTRA; k++) {
		double sum = 0;
		for (int i = 0; i < frames; i++)
			sum += cepstra[i * CEPSTRA + k];
		look->found_mean[k] = (float)(sum / frames);
		double mean =
			(sum + look->mean_frames * look->mean[k]) / (frames + look->mean_frames);
		for (int i = 0; i < frames; i++)
			cepstra[i * CEPSTRA + k] -= (float)mean;
	}
}

static const struct automaton *
grammar_of(const struct hearing *hearing, const struct hearing_look *look)
{
	return hearing->grammars[hearing->own_grammar ? 0 : look->place];
}

/* A bare value answers what was asked. */
static void
name_bare_values(struct meaning *meaning, const struct hearing_look *look)
{
	if (look->place != EARS_ASKED || look->measure == NULL)
		return;
	for (int i = 0; i < meaning->count; i++)
		if (meaning->calls[i].type == CALL_MEASURE && meaning->calls[i].name[0] == '\0')
			snprintf(meaning->calls[i].name, sizeof meaning->calls[i].name, "%s",
				 look->measure);
}

static void
understand(const struct hearing *hearing, const struct hearing_look *look, const char *text,
	   struct ears_reading *reading)
{
	struct words words;
	snprintf(reading->text, sizeof reading->text, "%s", text);
	reading->confidence = 0;
	reading->meaning.count = 0;
	if (hearing->own_grammar || !words_split(&words, text))
		return;
	if (meaning_read(hearing->setting.vocabulary, &hearing->setting.meaning, &words,
			 &reading->meaning))
		name_bare_values(&reading->meaning, look);
}

static bool
means_the_same(const struct hearing *hearing, const struct ears_reading *one,
	       const struct ears_reading *other)
{
	if (hearing->own_grammar || one->meaning.count == 0 || other->meaning.count == 0)
		return strcmp(one->text, other->text) == 0;
	return meaning_same(&one->meaning, &other->meaning);
}

/* The choices that differ in meaning, best first; which choice each reading is in `chosen`. */
static void
collect_readings(const struct hearing *hearing, const struct hearing_look *look,
		 const struct looking *looking, struct ears_utterance *utterance,
		 const struct choice *chosen[EARS_READINGS_MAX])
{
	utterance->reading_count = 0;
	for (int i = 0; i < looking->choice_count; i++) {
		struct ears_reading *next = &utterance->readings[utterance->reading_count];
		bool known = false;
		if (utterance->reading_count == EARS_READINGS_MAX)
			break;
		understand(hearing, look, looking->choices[i].text, next);
		for (int k = 0; k < utterance->reading_count && !known; k++)
			known = means_the_same(hearing, &utterance->readings[k], next);
		if (!known)
			chosen[utterance->reading_count++] = &looking->choices[i];
	}
}

/* What is left of the chance goes to the other readings by their distance; a fifth of it is kept
 * for what is not among them. */
static void
share_out(struct ears_utterance *utterance, const struct choice *chosen[EARS_READINGS_MAX])
{
	const double softness_nats = 5;
	double sum = 0;
	for (int i = 1; i < utterance->reading_count; i++)
		sum += exp((chosen[i]->score - chosen[1]->score) / softness_nats);
	for (int i = 1; i < utterance->reading_count; i++)
		utterance->readings[i].confidence =
			0.8 * (1 - utterance->confidence) *
			exp((chosen[i]->score - chosen[1]->score) / softness_nats) / sum;
}

static void
write_evidence(const struct evidence *evidence, double score, double loud_db, char *text,
	       size_t size)
{
	json_t *object = json_object();
	for (int i = 0; i < EVIDENCE_FEATURES; i++)
		json_object_set_new(object, evidence_name(i),
				    json_real(round(evidence->value[i] * 1000) / 1000));
	json_object_set_new(object, "score", json_real(round(score * 1000) / 1000));
	json_object_set_new(object, "loud_db", json_real(loud_db));
	char *dump = json_dumps(object, JSON_COMPACT | JSON_REAL_PRECISION(8));
	snprintf(text, size, "%s", dump != NULL ? dump : "{}");
	free(dump);
	json_decref(object);
}

void
hearing_doubt(struct ears_utterance *utterance)
{
	if (utterance->verdict == VERDICT_TAKEN)
		utterance->verdict = VERDICT_DOUBTED;
	for (int i = 0; i < utterance->readings[0].meaning.count; i++)
		if (utterance->call_verdicts[i] == VERDICT_TAKEN)
			utterance->call_verdicts[i] = VERDICT_DOUBTED;
}

/* Each call by its own words; the whole is as sure as all of them. In the midst of words that are
 * rather no calls at all (`as_a_whole`), or beside one that is none, what sounds like a call is
 * asked about. */
static void
judge_calls(const struct hearing *hearing, const struct evidence_ground *ground, double as_a_whole,
	    struct ears_utterance *utterance)
{
	const struct meaning *meaning = &utterance->readings[0].meaning;
	bool all_taken = true, all_refused = true, any_refused = false;
	utterance->confidence = 1;
	for (int i = 0; i < meaning->count; i++) {
		struct evidence evidence;
		evidence_gather(ground, meaning->calls[i].first_word, meaning->calls[i].word_count,
				&evidence);
		double confidence = judge_confidence(&hearing->judge, &evidence);
		enum verdict verdict = judge_verdict(&hearing->judge, confidence);
		utterance->call_confidences[i] = confidence;
		utterance->call_verdicts[i] = verdict;
		utterance->confidence *= confidence;
		all_taken = all_taken && verdict == VERDICT_TAKEN;
		all_refused = all_refused && verdict == VERDICT_REFUSED;
		any_refused = any_refused || verdict == VERDICT_REFUSED;
	}
	utterance->verdict = all_taken	   ? VERDICT_TAKEN
			     : all_refused ? VERDICT_REFUSED
					   : VERDICT_DOUBTED;
	if (any_refused || as_a_whole < 0.5)
		hearing_doubt(utterance);
}

/* Words as good as any, but from further away than the wearer's mouth. */
static void
refuse_other_voice(struct ears_utterance *utterance)
{
	utterance->other_voice = true;
	utterance->verdict = VERDICT_REFUSED;
	for (int i = 0; i < utterance->readings[0].meaning.count; i++)
		utterance->call_verdicts[i] = VERDICT_REFUSED;
}

static void
judge_reading(const struct hearing *hearing, struct hearing_look *look,
	      const struct looking *looking, struct ears_utterance *utterance,
	      const struct choice *chosen[EARS_READINGS_MAX])
{
	struct evidence evidence;
	struct loudness loudness = loudness_of(look->samples, look->count);
	struct evidence_ground ground = {.laid = &looking->laid,
					 .laid_scores = looking->laid_scores,
					 .anything = looking->anything,
					 .frames = looking->frames,
					 .has_other = utterance->reading_count > 1,
					 .level_db = loudness.over_room_db,
					 .loud_first = loudness.first,
					 .loud_last = loudness.last};
	if (ground.has_other)
		ground.margin = chosen[0]->score - chosen[1]->score;
	look->loud_db = loudness.loud_db;
	evidence_gather(&ground, 0, looking->laid.word_count, &evidence);
	double confidence = judge_confidence(&hearing->judge, &evidence);
	utterance->score = log(fmax(confidence, 1e-9) / fmax(1 - confidence, 1e-9));
	utterance->confidence = confidence;
	utterance->verdict = judge_verdict(&hearing->judge, confidence);
	write_evidence(&evidence, utterance->score, look->loud_db, utterance->evidence,
		       sizeof utterance->evidence);
	if (utterance->readings[0].meaning.count > 1) {
		judge_calls(hearing, &ground, confidence, utterance);
	} else if (utterance->readings[0].meaning.count == 1) {
		utterance->call_confidences[0] = confidence;
		utterance->call_verdicts[0] = utterance->verdict;
	} else if (!hearing->own_grammar) {
		utterance->verdict = VERDICT_REFUSED; /* words without a meaning */
	}
	if (look->wearer_db > 0 && look->loud_db < look->wearer_db - hearing->judge.other_voice_db)
		refuse_other_voice(utterance);
	utterance->near = !utterance->other_voice && utterance->verdict == VERDICT_REFUSED &&
			  confidence >= hearing->judge.near_from;
	utterance->readings[0].confidence = utterance->confidence;
	share_out(utterance, chosen);
}

/* How far the best reading is a call. A measured value with which no digit may go on has its
 * number: then the hand that holds the tape waits for nothing but a fraction or a unit. */
static enum looked_at
stands(const struct hearing *hearing, const struct hearing_look *look,
       const struct ears_utterance *utterance)
{
	const struct ears_reading *best = &utterance->readings[0];
	const struct automaton *grammar = grammar_of(hearing, look);
	struct standing standing = automaton_standing(grammar, best->text);
	char longer[sizeof best->text + sizeof " one"];
	if (!standing.complete)
		return STANDS_NOT_YET;
	/* A caller's grammar may be nothing but a loop: then whatever may follow lengthens. */
	if (!(hearing->own_grammar ? standing.longer : standing.lengthens))
		return STANDS_WHOLE;
	if (best->meaning.count == 0 ||
	    best->meaning.calls[best->meaning.count - 1].type != CALL_MEASURE)
		return STANDS_NUMBER;
	snprintf(longer, sizeof longer, "%s one", best->text);
	return automaton_standing(grammar, longer).complete ? STANDS_NUMBER : STANDS_VALUE;
}

static struct search *
search_of(const struct hearing *hearing, const struct hearing_look *look)
{
	return hearing->searches[hearing->own_grammar ? 0 : look->place];
}

/* Cepstra of the piece, and their mean, by which the wearer is known. */
static bool
take_cepstra(struct hearing *hearing, struct hearing_look *look, struct looking *looking)
{
	int frames;
	looking->cepstra = spectrum_cepstra(hearing->spectrum, look->samples, look->count, &frames);
	if (looking->cepstra == NULL || frames == 0)
		return false;
	remove_mean(looking->cepstra, frames, look);
	return true;
}

/* A second pass over the whole, by another kind of model: where the network is in doubt, and where
 * it is asked for words of a caller's that it may never have met. False when there is none. */
static bool
weigh(struct hearing *hearing, struct hearing_look *look, struct looking *looking)
{
	if (!hearing->own_grammar && !choosing_doubts(&looking->found))
		return false;
	return recogniser_weigh(hearing->recogniser, &looking->found, looking->cepstra,
				look->found_frames, &looking->weighed);
}

/* Searches, orders the readings and lays the best; false when nothing was understood. */
static bool
decode(struct hearing *hearing, struct hearing_look *look, struct looking *looking)
{
	looking->bands =
		spectrum_log_bands(hearing->spectrum, look->samples, look->count, &looking->frames);
	if (looking->bands == NULL || looking->frames == 0)
		return false;
	looking->scores = network_scores(hearing->network, looking->bands, looking->frames);
	looking->laid_scores = calloc((size_t)looking->frames, sizeof *looking->laid_scores);
	looking->anything = calloc((size_t)looking->frames, sizeof *looking->anything);
	if (looking->scores == NULL || looking->laid_scores == NULL || looking->anything == NULL)
		return false;
	if (!search_find(search_of(hearing, look), looking->scores, looking->frames,
			 &looking->found) ||
	    looking->found.count == 0)
		return false;
	bool weighed = take_cepstra(hearing, look, looking) && weigh(hearing, look, looking);
	looking->choice_count = choosing_order(&looking->found, weighed ? &looking->weighed : NULL,
					       looking->choices);
	laying_lay(hearing->laying, looking->scores, looking->frames, looking->choices[0].text,
		   &looking->laid, looking->laid_scores);
	return laying_anything(hearing->laying, looking->scores, looking->frames,
			       looking->anything);
}

void
hearing_look(struct hearing *hearing, struct hearing_look *look, struct ears_utterance *utterance)
{
	const struct choice *chosen[EARS_READINGS_MAX];
	struct looking *looking = calloc(1, sizeof *looking);
	utterance->verdict = VERDICT_REFUSED;
	utterance->confidence = 0;
	utterance->near = utterance->other_voice = false;
	utterance->score = -20;
	utterance->reading_count = 0;
	snprintf(utterance->evidence, sizeof utterance->evidence, "{}");
	look->found_frames = 0;
	look->loud_db = 0;
	look->stands = STANDS_NOT_YET;
	look->after_frames = 0;
	if (looking != NULL && decode(hearing, look, looking)) {
		collect_readings(hearing, look, looking, utterance, chosen);
		judge_reading(hearing, look, looking, utterance, chosen);
		look->stands = stands(hearing, look, utterance);
		if (looking->laid.possible)
			look->after_frames =
				looking->frames - 1 -
				looking->laid.words[looking->laid.word_count - 1].last_frame;
	}
	if (looking != NULL) {
		free(looking->bands);
		free(looking->cepstra);
		free(looking->scores);
		free(looking->laid_scores);
		free(looking->anything);
	}
	free(looking);
}
