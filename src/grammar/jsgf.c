#include "jsgf_read.h"

#include <stdlib.h>
#include <string.h>

struct jsgf *
jsgf_parse(const char *file, const char *text, struct problem *problem)
{
	struct jsgf *jsgf = calloc(1, sizeof *jsgf);
	bool good = false;

	if (jsgf != NULL) {
		jsgf->public_rule = -1;
		jsgf->file = strdup(file);
		jsgf->words = names_create();
		jsgf->rule_names = names_create();
		good = jsgf->file != NULL && jsgf->words != NULL && jsgf->rule_names != NULL;
	}
	if (!good)
		problem_say(problem, "%s: there is no memory left for it", file);
	if (good && jsgf_read(jsgf, text, problem) && jsgf_check(jsgf, problem))
		return jsgf;
	jsgf_destroy(jsgf);
	return NULL;
}

void
jsgf_destroy(struct jsgf *jsgf)
{
	if (jsgf == NULL)
		return;
	free(jsgf->file);
	free(jsgf->name);
	names_destroy(jsgf->words);
	names_destroy(jsgf->rule_names);
	free(jsgf->rules);
	free(jsgf->expressions);
	free(jsgf);
}

int
jsgf_word_count(const struct jsgf *jsgf)
{
	return names_count(jsgf->words);
}

const char *
jsgf_word(const struct jsgf *jsgf, int index)
{
	return names_text(jsgf->words, index);
}
