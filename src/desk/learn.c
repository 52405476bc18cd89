#include "learn.h"

#include "learnt.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

static enum list
list_of(enum call_type type)
{
	static const struct {
		enum call_type type;
		enum list list;
	} lists[] = {
		{CALL_KIND, LIST_KIND},	    {CALL_MAKER, LIST_MAKER}, {CALL_SIZE, LIST_TAG},
		{CALL_COLOUR, LIST_COLOUR}, {CALL_FLAW, LIST_FLAW},   {CALL_PARCEL, LIST_PARCEL},
		{CALL_CLOTH, LIST_FIBRE},
	};
	for (size_t i = 0; i < sizeof lists / sizeof *lists; i++)
		if (lists[i].type == type)
			return lists[i].list;
	return LIST_COUNT;
}

/* As a list has names: lower case, single spaces. */
static bool
plain_name(const char *word, char name[CALL_NAME_MAX], struct problem *problem)
{
	struct words words;
	name[0] = '\0';
	if (strlen(word) >= CALL_NAME_MAX)
		return problem_say(problem, "a name has %d letters at the most", CALL_NAME_MAX - 1);
	if (!words_split(&words, word) || words.count == 0)
		return problem_say(problem, "nothing was typed");
	for (int i = 0; i < words.count; i++)
		words_append(name, CALL_NAME_MAX, words.word[i]);
	return true;
}

static bool
learn_name(struct desk *desk, enum list list, const char *name, struct problem *problem)
{
	return vocabulary_find(desk->setting.vocabulary, list, name) >= 0 ||
	       learnt_add(desk->setting.vocabulary, desk->setting.learnt, list, name, problem);
}

/* "60 % alpaca, 40 % wool": each fibre that is new; or one name, which is then all of it. */
static bool
learn_cloth(struct desk *desk, const char *word, struct call *learnt, struct problem *problem)
{
	char name[CALL_NAME_MAX], whole[CALL_NAME_MAX + 16], rest[512];
	if (strpbrk(word, "0123456789") == NULL) {
		if (!plain_name(word, name, problem) ||
		    !learn_name(desk, LIST_FIBRE, name, problem))
			return false;
		snprintf(whole, sizeof whole, "100 %% %s", name);
		return typed_read(&desk->typed, CALL_CLOTH, "", whole, learnt, problem);
	}
	if (strlen(word) >= sizeof rest)
		return problem_say(problem, "cloth: what was typed is too long");
	strcpy(rest, word);
	for (char *next = rest, *part; (part = strsep(&next, ",")) != NULL;) {
		part += strcspn(part, "0123456789");
		part += strspn(part, "0123456789 %");
		if (strncmp(part, "percent ", 8) == 0)
			part += 8;
		if (part[0] != '\0' && (!plain_name(part, name, problem) ||
					!learn_name(desk, LIST_FIBRE, name, problem)))
			return false;
	}
	return typed_read(&desk->typed, CALL_CLOTH, "", word, learnt, problem);
}

bool
learn(struct desk *desk, const struct call *said, const char *word, struct call *learnt,
      struct problem *problem)
{
	enum list list = list_of(said->type);
	char name[CALL_NAME_MAX];
	if (list == LIST_COUNT)
		return problem_say(problem, "there is no list for this");
	if (said->type == CALL_CLOTH)
		return learn_cloth(desk, word, learnt, problem);
	if (!plain_name(word, name, problem))
		return false;
	/* A size in figures is no word of a list, and needs none. */
	bool figures = said->type == CALL_SIZE && strpbrk(name, "0123456789") != NULL;
	if (!figures && !learn_name(desk, list, name, problem))
		return false;
	*learnt = *said;
	learnt->other = false;
	memcpy(learnt->name, name, sizeof learnt->name);
	return true;
}
