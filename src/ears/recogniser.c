#include "recogniser.h"

#include <errno.h>
#include <pocketsphinx.h>
#include <sphinxbase/fsg_model.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

struct recogniser {
	ps_decoder_t *decoder;
	float language_weight;
	char grammar[64]; /* the search that is set */
};

/* Fitted on recorded numbers by tests/bench/model. Words may leave the beam later than usual, since
 * the readings that come second are wanted too. The limit of active models a frame keeps prose and
 * noise cheap, of which nothing fits and so nothing falls out of the beam: without it they cost
 * more than real time. It loses a few calls in noise. */
static const char *const decoder_arguments[][2] = {
	{"-samprate", "16000"},
	{"-remove_noise", "no"},
	{"-remove_silence", "no"},
	{"-wip", "1e-3"},
	{"-lw", "3"},
	{"-wbeam", "1e-32"},
	{"-maxhmmpf", "400"},
	{"-bestpath", "no"},
	{"-fwdflat", "no"},
};

/* The libraries take files, not text: a file that lives in memory only. */
static int
memory_file(const char *name, const char *text, char path[64])
{
	int fd = memfd_create(name, MFD_CLOEXEC);
	size_t left = strlen(text);
	while (fd >= 0 && left > 0) {
		ssize_t wrote = write(fd, text, left);
		if (wrote < 0 && errno == EINTR)
			continue;
		if (wrote <= 0) {
			close(fd);
			return -1;
		}
		text += wrote;
		left -= (size_t)wrote;
	}
	snprintf(path, 64, "/proc/self/fd/%d", fd);
	return fd;
}

/* Our ears remove the mean themselves, with what they know of the speaker; the model's own list
 * would have the decoder do it once more. */
static char *
without_mean_removal(const char *parameters)
{
	char *kept = calloc(1, strlen(parameters) + 64), *text = strdup(parameters), *rest = NULL;
	if (kept == NULL || text == NULL) {
		free(kept);
		free(text);
		return NULL;
	}
	for (char *name = strtok_r(text, " \t\r\n", &rest); name != NULL;
	     name = strtok_r(NULL, " \t\r\n", &rest)) {
		char *value = strtok_r(NULL, " \t\r\n", &rest);
		if (value == NULL)
			break;
		if (strcmp(name, "-cmn") != 0 && strcmp(name, "-cmninit") != 0)
			sprintf(kept + strlen(kept), "%s %s\n", name, value);
	}
	strcat(kept, "-cmn none\n");
	free(text);
	return kept;
}

static ps_decoder_t *
decoder_open(const char *model, const char *parameters_path, const char *dictionary_path)
{
	enum { COUNT = sizeof decoder_arguments / sizeof *decoder_arguments };
	char *argument[2 * COUNT + 7] = {"lapel",
					 "-hmm",
					 (char *)model,
					 "-dict",
					 (char *)dictionary_path,
					 "-featparams",
					 (char *)parameters_path};
	int count = 7;
	for (int i = 0; i < COUNT; i++) {
		argument[count++] = (char *)decoder_arguments[i][0];
		argument[count++] = (char *)decoder_arguments[i][1];
	}
	cmd_ln_t *config = cmd_ln_parse_r(NULL, ps_args(), count, argument, TRUE);
	ps_decoder_t *decoder = config != NULL ? ps_init(config) : NULL;
	cmd_ln_free_r(config);
	return decoder;
}

struct recogniser *
recogniser_open(const char *model, const char *parameters, const char *dictionary,
		struct problem *problem)
{
	struct recogniser *recogniser = calloc(1, sizeof *recogniser);
	char *own_parameters = without_mean_removal(parameters);
	char parameters_path[64], dictionary_path[64];
	int parameters_fd = -1, dictionary_fd = -1;
	bool opened = false;
	if (recogniser == NULL || own_parameters == NULL)
		goto finished;
	parameters_fd = memory_file("parameters", own_parameters, parameters_path);
	dictionary_fd = memory_file("dictionary", dictionary, dictionary_path);
	if (parameters_fd < 0 || dictionary_fd < 0)
		goto finished;
	recogniser->decoder = decoder_open(model, parameters_path, dictionary_path);
	if (recogniser->decoder == NULL)
		goto finished;
	recogniser->language_weight =
		(float)cmd_ln_float32_r(ps_get_config(recogniser->decoder), "-lw");
	opened = true;
finished:
	if (parameters_fd >= 0)
		close(parameters_fd);
	if (dictionary_fd >= 0)
		close(dictionary_fd);
	free(own_parameters);
	if (!opened) {
		problem_say(problem,
			    "the acoustic model in %s cannot be loaded: install the "
			    "package pocketsphinx-en-us, or lapel, again",
			    model);
		recogniser_close(recogniser);
		return NULL;
	}
	return recogniser;
}

void
recogniser_close(struct recogniser *recogniser)
{
	if (recogniser == NULL)
		return;
	if (recogniser->decoder != NULL)
		ps_free(recogniser->decoder);
	free(recogniser);
}

static fsg_model_t *
search_graph(struct recogniser *recogniser, const char *name, const struct automaton *automaton)
{
	logmath_t *logarithms = ps_get_logmath(recogniser->decoder);
	int states = automaton_state_count(automaton);
	fsg_model_t *graph =
		fsg_model_init(name, logarithms, recogniser->language_weight, states + 1);
	if (graph == NULL)
		return NULL;
	const struct arc *arcs = automaton_arcs(automaton);
	for (int i = 0; i < automaton_arc_count(automaton); i++) {
		int32 weight = logmath_log(logarithms, arcs[i].weight);
		if (arcs[i].word < 0) {
			fsg_model_null_trans_add(graph, arcs[i].from, arcs[i].to, weight);
			continue;
		}
		int32 word = fsg_model_word_add(graph, automaton_word(automaton, arcs[i].word));
		fsg_model_trans_add(graph, arcs[i].from, arcs[i].to, weight, word);
	}
	graph->start_state = 0;
	graph->final_state = states;
	for (int state = 0; state < states; state++)
		if (automaton_final(automaton, state))
			fsg_model_null_trans_add(graph, state, states, 0);
	glist_t nulls = fsg_model_null_trans_closure(graph, NULL);
	glist_free(nulls);
	return graph;
}

bool
recogniser_knows(struct recogniser *recogniser, const struct automaton *automaton,
		 struct problem *problem)
{
	for (int i = 0; i < automaton_word_count(automaton); i++) {
		char *phones = ps_lookup_word(recogniser->decoder, automaton_word(automaton, i));
		if (phones == NULL)
			return problem_say(problem, "the word \"%s\" has no pronunciation",
					   automaton_word(automaton, i));
		ckd_free(phones);
	}
	return true;
}

bool
recogniser_add(struct recogniser *recogniser, const char *name, const struct automaton *automaton)
{
	fsg_model_t *graph = search_graph(recogniser, name, automaton);
	bool added = graph != NULL && ps_set_fsg(recogniser->decoder, name, graph) == 0;
	if (graph != NULL)
		fsg_model_free(graph);
	return added;
}

static void
without_marks(const char *heard, char *text, size_t size)
{
	size_t length = 0;
	text[0] = '\0';
	while (*heard != '\0') {
		size_t word = strcspn(heard, " ");
		size_t bare = strcspn(heard, " (");
		bool filler = heard[0] == '<' || heard[0] == '[' || heard[0] == '+';
		if (!filler && bare > 0 && length + bare + 2 < size) {
			if (length > 0)
				text[length++] = ' ';
			memcpy(text + length, heard, bare);
			text[length += bare] = '\0';
		}
		heard += word;
		heard += strspn(heard, " ");
	}
}

static bool
is_known(const struct decoded *decoded, const char *text)
{
	if (text[0] == '\0' || strcmp(text, decoded->text) == 0)
		return true;
	for (int i = 0; i < decoded->other_count; i++)
		if (strcmp(text, decoded->others[i].text) == 0)
			return true;
	return false;
}

static void
read_others(ps_decoder_t *decoder, struct decoded *decoded)
{
	/* The lattice holds each word sequence many times over, parted otherwise in time. */
	enum { LOOKED_AT_MAX = 400 };
	ps_nbest_t *list = ps_nbest(decoder);
	int looked_at = 0;
	bool own_found = false;
	for (list = list != NULL ? ps_nbest_next(list) : NULL; list != NULL;
	     list = ps_nbest_next(list)) {
		int32 score = 0;
		char text[DECODED_TEXT_MAX];
		if (decoded->other_count == DECODED_OTHERS_MAX || looked_at++ == LOOKED_AT_MAX) {
			ps_nbest_free(list);
			break;
		}
		const char *heard = ps_nbest_hyp(list, &score);
		without_marks(heard != NULL ? heard : "", text, sizeof text);
		if (!own_found && strcmp(text, decoded->text) == 0) {
			decoded->lattice_score = score;
			own_found = true;
		}
		if (is_known(decoded, text))
			continue;
		strcpy(decoded->others[decoded->other_count].text, text);
		decoded->others[decoded->other_count++].score = score;
	}
	/* What was found best is then at least as good as the best of the list. */
	if (!own_found && decoded->other_count > 0)
		decoded->lattice_score = decoded->others[0].score;
}

/* One utterance through the search that is set. */
static bool
search(struct recogniser *recogniser, const char *name, const float *cepstra, int frames)
{
	if (strcmp(recogniser->grammar, name) != 0) {
		if (ps_set_search(recogniser->decoder, name) != 0)
			return false;
		snprintf(recogniser->grammar, sizeof recogniser->grammar, "%s", name);
	}
	float **row = calloc((size_t)frames, sizeof *row);
	bool done = false;
	if (row == NULL)
		return false;
	for (int i = 0; i < frames; i++)
		row[i] = (float *)cepstra + (size_t)i * CEPSTRA;
	if (ps_start_utt(recogniser->decoder) == 0) {
		done = ps_process_cep(recogniser->decoder, row, frames, FALSE, TRUE) >= 0;
		done = ps_end_utt(recogniser->decoder) == 0 && done;
	}
	free(row);
	return done;
}

bool
recogniser_decode(struct recogniser *recogniser, const char *name, const float *cepstra, int frames,
		  struct decoded *decoded)
{
	int32 score = 0;
	decoded->text[0] = '\0';
	decoded->score = decoded->lattice_score = 0;
	decoded->other_count = 0;
	if (!search(recogniser, name, cepstra, frames))
		return false;
	const char *heard = ps_get_hyp(recogniser->decoder, &score);
	if (heard == NULL)
		return true;
	without_marks(heard, decoded->text, sizeof decoded->text);
	decoded->score = score;
	if (decoded->text[0] == '\0')
		return true;
	read_others(recogniser->decoder, decoded);
	return true;
}
