#include "recogniser.h"

#include <errno.h>
#include <pocketsphinx.h>
#include <sphinxbase/fsg_model.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

enum {
	TREE_MAX = 512, /* words of all sentences in a graph */
	GIVEN_UP = 1000 /* how much worse than the worst told is what is not told, in its steps */
};

struct recogniser {
	ps_decoder_t *decoder;
	float language_weight;
};

/* The search has but a few sentences to go through, and is wanted to tell of each, not only of the
 * best: so nothing is given up early. */
static const char *const decoder_arguments[][2] = {
	{"-samprate", "16000"}, {"-remove_noise", "no"}, {"-remove_silence", "no"},
	{"-beam", "1e-80"},	{"-pbeam", "1e-80"},	 {"-wbeam", "1e-60"},
	{"-bestpath", "no"},	{"-fwdflat", "no"},
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

/* The states of a graph of sentences that share their beginnings, while it is being made. */
struct tree {
	int count;
	struct branch {
		int from;
		char word[64];
	} branches[TREE_MAX]; /* that lead to the states from 1 on */
};

/* The state after one more word; -1 when the tree is full. */
static int
branch_to(struct tree *tree, fsg_model_t *graph, int from, const char *word, size_t length)
{
	struct branch branch = {.from = from};
	if (length >= sizeof branch.word)
		return -1;
	memcpy(branch.word, word, length);
	for (int i = 0; i < tree->count; i++)
		if (tree->branches[i].from == from &&
		    strcmp(tree->branches[i].word, branch.word) == 0)
			return i + 1;
	if (tree->count == TREE_MAX)
		return -1;
	tree->branches[tree->count++] = branch;
	fsg_model_trans_add(graph, from, tree->count, 0, fsg_model_word_add(graph, branch.word));
	return tree->count;
}

/* The sentences as a graph, each ending in its last state. */
static fsg_model_t *
sentence_graph(struct recogniser *recogniser, const struct found *found, struct tree *tree)
{
	fsg_model_t *graph = fsg_model_init("sentences", ps_get_logmath(recogniser->decoder),
					    recogniser->language_weight, TREE_MAX + 2);
	if (graph == NULL)
		return NULL;
	graph->start_state = 0;
	graph->final_state = TREE_MAX + 1;
	tree->count = 0;
	for (int i = 0; i < found->count; i++) {
		int state = 0;
		for (const char *word = found->texts[i].text; *word != '\0' && state >= 0;) {
			size_t length = strcspn(word, " ");
			state = branch_to(tree, graph, state, word, length);
			word += length;
			word += strspn(word, " ");
		}
		if (state > 0)
			fsg_model_null_trans_add(graph, state, TREE_MAX + 1, 0);
	}
	glist_t nulls = fsg_model_null_trans_closure(graph, NULL);
	glist_free(nulls);
	return graph;
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

/* Fills in the scores of the sentences, best first, as far as the decoder tells; how many. */
static int
read_scores(ps_decoder_t *decoder, const struct found *found, bool known[FOUND_MAX],
	    struct weighed *weighed)
{
	/* The lattice holds each sentence many times over, parted otherwise in time. */
	enum { LOOKED_AT_MAX = 600 };
	int looked_at = 0, count = 0;
	ps_nbest_t *list = ps_nbest(decoder);
	for (list = list != NULL ? ps_nbest_next(list) : NULL; list != NULL;
	     list = ps_nbest_next(list)) {
		int32 score = 0;
		char text[FOUND_TEXT_MAX];
		if (count == found->count || looked_at++ == LOOKED_AT_MAX) {
			ps_nbest_free(list);
			break;
		}
		const char *heard = ps_nbest_hyp(list, &score);
		without_marks(heard != NULL ? heard : "", text, sizeof text);
		for (int i = 0; i < found->count; i++)
			if (!known[i] && strcmp(found->texts[i].text, text) == 0) {
				known[i] = true;
				weighed->scores[i] = score;
				count++;
			}
	}
	return count;
}

/* One utterance through the search that is set. */
static bool
search(struct recogniser *recogniser, const float *cepstra, int frames)
{
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
recogniser_weigh(struct recogniser *recogniser, const struct found *found, const float *cepstra,
		 int frames, struct weighed *weighed)
{
	bool known[FOUND_MAX] = {false}, done = false;
	struct tree *tree = malloc(sizeof *tree);
	fsg_model_t *graph = tree != NULL ? sentence_graph(recogniser, found, tree) : NULL;
	if (graph != NULL && ps_set_fsg(recogniser->decoder, "sentences", graph) == 0 &&
	    ps_set_search(recogniser->decoder, "sentences") == 0 &&
	    search(recogniser, cepstra, frames))
		done = read_scores(recogniser->decoder, found, known, weighed) > 0;
	int32_t worst = 0;
	for (int i = 0, first = 1; i < found->count; i++)
		if (known[i] && (first || weighed->scores[i] < worst)) {
			worst = weighed->scores[i];
			first = 0;
		}
	for (int i = 0; i < found->count; i++)
		if (!known[i])
			weighed->scores[i] = worst - GIVEN_UP;
	if (graph != NULL)
		fsg_model_free(graph);
	free(tree);
	return done;
}
