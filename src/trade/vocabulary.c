#include "vocabulary.h"

#include "call.h"

#include <stdlib.h>
#include <string.h>

struct term_list {
	struct term **terms; /* each on its own, so that a borrowed term stays where it is */
	int count, room;
};

struct vocabulary {
	struct term_list lists[LIST_COUNT];
	char **texts; /* the tables' texts, cut up: the terms point into them */
	int text_count;
};

/* How a list's lines are written: how many columns, how much of a name a call has room for, and
 * whether digits may be in it. */
static const struct form {
	int columns;
	size_t name_room;
	bool digits;
} forms[LIST_COUNT] = {
	[LIST_KIND] = {4, CALL_NAME_MAX, false},
	[LIST_MEASURE] = {3, CALL_NAME_MAX, false},
	[LIST_FLAW] = {3, CALL_NAME_MAX, false},
	[LIST_PART] = {2, sizeof(((struct call *)0)->part), false},
	[LIST_ROUTE] = {2, CALL_NAME_MAX, false},
	[LIST_MAKER] = {2, CALL_NAME_MAX, false},
	[LIST_COLOUR] = {3, CALL_NAME_MAX, false},
	[LIST_TAG] = {2, CALL_NAME_MAX, false},
	[LIST_FIBRE] = {2, sizeof(((struct fibre *)0)->name), false},
	[LIST_PARCEL] = {2, CALL_NAME_MAX, false},
	[LIST_PERSON] = {2, CALL_NAME_MAX, false},
	[LIST_GROUP] = {2, CALL_NAME_MAX, false},
	[LIST_CARE] = {3, sizeof(((struct listed *)0)->name), false},
	[LIST_MEND] = {2, sizeof(((struct listed *)0)->name), false},
	[LIST_BIN] = {2, LABEL_MAX, true},
};

/* These say something of their own where a name could stand. */
static const char *const reserved[] = {"other", "none", "no", "nothing", "spell"};

enum { COLUMNS_MAX = 4 };

struct line {
	const char *file;
	int number;
	char *columns[COLUMNS_MAX]; /* "" where the line has fewer */
	struct problem *problem;
};

struct vocabulary *
vocabulary_create(void)
{
	return calloc(1, sizeof(struct vocabulary));
}

static void
list_cut(struct term_list *list, int count)
{
	while (list->count > count)
		free(list->terms[--list->count]);
}

void
vocabulary_destroy(struct vocabulary *vocabulary)
{
	if (vocabulary == NULL)
		return;
	for (int i = 0; i < LIST_COUNT; i++) {
		list_cut(&vocabulary->lists[i], 0);
		free(vocabulary->lists[i].terms);
	}
	for (int i = 0; i < vocabulary->text_count; i++)
		free(vocabulary->texts[i]);
	free(vocabulary->texts);
	free(vocabulary);
}

static bool
blank(char c)
{
	return c == ' ' || c == '\t' || c == '\r';
}

/* Takes blanks off both ends and leaves one space where there were several; in place. */
static void
tidy(char *text)
{
	char *to = text;
	for (const char *from = text; *from != '\0'; from++) {
		if (!blank(*from))
			*to++ = *from;
		else if (to > text && to[-1] != ' ')
			*to++ = ' ';
	}
	if (to > text && to[-1] == ' ')
		to--;
	*to = '\0';
}

/* The next piece of *rest up to `mark`, cut off and tidied; NULL when nothing is left. */
static char *
next_piece(char **rest, char mark)
{
	char *piece = *rest;
	if (piece == NULL)
		return NULL;
	char *end = strchr(piece, mark);
	*rest = end == NULL ? NULL : end + 1;
	if (end != NULL)
		*end = '\0';
	tidy(piece);
	return piece;
}

static bool
said_in(const struct term *term, const char *name)
{
	for (int i = 0; i < term->also_count; i++)
		if (strcmp(term->also[i], name) == 0)
			return true;
	return strcmp(term->name, name) == 0;
}

/* Whether `name` may stand in the list: spelled in letters that can be said, short enough, free. */
static bool
name_check(const struct term_list *list, enum list which, const char *name, const struct line *line)
{
	if (name[0] == '\0')
		return problem_say(line->problem, "%s, line %d: a name is empty", line->file,
				   line->number);
	for (const char *c = name; *c != '\0'; c++)
		if (!((*c >= 'a' && *c <= 'z') || *c == '\'' || *c == ' ' ||
		      (forms[which].digits && *c >= '0' && *c <= '9')))
			return problem_say(line->problem,
					   "%s, line %d: \"%s\" has to be written as it is said, "
					   "in the letters a to z, ' and space%s",
					   line->file, line->number, name,
					   forms[which].digits ? ", or in digits" : "");
	if (strlen(name) >= forms[which].name_room)
		return problem_say(line->problem, "%s, line %d: \"%s\" is longer than %d letters",
				   line->file, line->number, name, (int)forms[which].name_room - 1);
	for (size_t i = 0; i < sizeof reserved / sizeof reserved[0]; i++)
		if (strcmp(name, reserved[i]) == 0)
			return problem_say(line->problem,
					   "%s, line %d: \"%s\" means something of its own and "
					   "cannot be a name",
					   line->file, line->number, name);
	for (int i = 0; i < list->count; i++)
		if (said_in(list->terms[i], name))
			return problem_say(line->problem, "%s, line %d: \"%s\" is given twice",
					   line->file, line->number, name);
	return true;
}

static bool
measures_read(const struct vocabulary *vocabulary, char *column, int *measures, int *count,
	      const struct line *line)
{
	if (column[0] == '\0')
		return true;
	for (char *rest = column, *name; (name = next_piece(&rest, ',')) != NULL;) {
		int index = vocabulary_find(vocabulary, LIST_MEASURE, name);
		if (index < 0)
			return problem_say(line->problem,
					   "%s, line %d: there is no measure \"%s\" in the list of "
					   "measures",
					   line->file, line->number, name);
		if (*count == TERM_MEASURES_MAX)
			return problem_say(line->problem, "%s, line %d: more than %d measures",
					   line->file, line->number, TERM_MEASURES_MAX);
		measures[(*count)++] = index;
	}
	return true;
}

static bool
measure_way_read(struct term *term, const char *way, const struct line *line)
{
	term->flat = strcmp(way, "flat") == 0;
	if (term->flat || strcmp(way, "straight") == 0 || strcmp(way, "round") == 0)
		return true;
	return problem_say(line->problem,
			   "%s, line %d: how \"%s\" is measured has to be flat, straight or round",
			   line->file, line->number, term->name);
}

static bool
colour_word_read(struct term *term, const char *word, const struct line *line)
{
	if (word[0] == '\0')
		term->colour = COLOUR_BASIC;
	else if (strcmp(word, "shade") == 0)
		term->colour = COLOUR_SHADE;
	else if (strcmp(word, "pattern") == 0)
		term->colour = COLOUR_PATTERN;
	else
		return problem_say(line->problem,
				   "%s, line %d: \"%s\" has to be a shade, a pattern, or nothing",
				   line->file, line->number, word);
	return true;
}

/* "/0.2/ insole": the weight is cut off and the name left. */
static bool
weight_read(struct term *term, const struct line *line)
{
	char *name = line->columns[0];
	term->weight = "1";
	term->name = name;
	if (name[0] != '/')
		return true;
	char *weight = name + 1;
	char *end = strchr(weight, '/');
	size_t digits = strspn(weight, "0123456789.");
	if (end == NULL || weight + digits != end || digits > 8 || !(strtod(weight, NULL) > 0))
		return problem_say(line->problem,
				   "%s, line %d: \"%s\" has to begin with a number above 0 between "
				   "slashes, such as /0.2/",
				   line->file, line->number, name);
	*end = '\0';
	term->weight = weight;
	term->name = end + 1 + strspn(end + 1, " ");
	return true;
}

/* Fills the term from the line's columns; it is already the last of its list's terms but not yet
 * counted, so that the name is compared with those before. */
static bool
term_read(const struct vocabulary *vocabulary, enum list which, struct term *term,
	  const struct line *line)
{
	const struct term_list *list = &vocabulary->lists[which];

	if (!weight_read(term, line) || !name_check(list, which, term->name, line))
		return false;
	char *rest = line->columns[1][0] == '\0' ? NULL : line->columns[1];
	for (char *also; (also = next_piece(&rest, ',')) != NULL;) {
		if (!name_check(list, which, also, line))
			return false;
		if (said_in(term, also))
			return problem_say(line->problem, "%s, line %d: \"%s\" is given twice",
					   line->file, line->number, also);
		if (term->also_count == TERM_ALSO_MAX)
			return problem_say(line->problem,
					   "%s, line %d: more than %d other ways of saying \"%s\"",
					   line->file, line->number, TERM_ALSO_MAX, term->name);
		term->also[term->also_count++] = also;
	}
	term->text = which == LIST_FLAW || which == LIST_CARE ? line->columns[2] : "";
	if (which == LIST_MEASURE)
		return measure_way_read(term, line->columns[2], line);
	if (which == LIST_COLOUR)
		return colour_word_read(term, line->columns[2], line);
	term->set = which == LIST_KIND && strcmp(line->columns[2], "parts") == 0;
	if (term->set)
		return true;
	if (which == LIST_KIND)
		return measures_read(vocabulary, line->columns[2], term->wanted,
				     &term->wanted_count, line) &&
		       measures_read(vocabulary, line->columns[3], term->helpful,
				     &term->helpful_count, line);
	return true;
}

static bool
line_read(struct vocabulary *vocabulary, enum list which, char *text, struct line *line)
{
	struct term_list *list = &vocabulary->lists[which];
	static char nothing[] = "";
	int columns = 0;

	text[strcspn(text, "#")] = '\0';
	tidy(text);
	if (text[0] == '\0')
		return true;
	for (int i = 0; i < COLUMNS_MAX; i++)
		line->columns[i] = nothing;
	for (char *rest = text, *column; (column = next_piece(&rest, '|')) != NULL;) {
		if (columns == forms[which].columns)
			return problem_say(line->problem,
					   "%s, line %d: more than %d columns parted by |",
					   line->file, line->number, forms[which].columns);
		line->columns[columns++] = column;
	}
	if (list->count == list->room) {
		int room = list->room == 0 ? 32 : 2 * list->room;
		struct term **terms = realloc(list->terms, (size_t)room * sizeof *terms);
		if (terms == NULL)
			return problem_say(line->problem, "%s: there is no memory left for it",
					   line->file);
		list->terms = terms;
		list->room = room;
	}
	struct term *term = calloc(1, sizeof *term);
	if (term == NULL)
		return problem_say(line->problem, "%s: there is no memory left for it", line->file);
	if (!term_read(vocabulary, which, term, line)) {
		free(term);
		return false;
	}
	list->terms[list->count++] = term;
	return true;
}

bool
vocabulary_read(struct vocabulary *vocabulary, enum list list, const char *file, const char *text,
		struct problem *problem)
{
	int count_before = vocabulary->lists[list].count;
	char **texts =
		realloc(vocabulary->texts, ((size_t)vocabulary->text_count + 1) * sizeof *texts);
	if (texts == NULL)
		return problem_say(problem, "%s: there is no memory left for it", file);
	vocabulary->texts = texts;
	char *copy = strdup(text);
	if (copy == NULL)
		return problem_say(problem, "%s: there is no memory left for it", file);

	struct line line = {.file = file, .problem = problem};
	char *rest = copy;
	while (rest != NULL) {
		char *start = rest;
		char *end = strchr(start, '\n');
		rest = end == NULL ? NULL : end + 1;
		if (end != NULL)
			*end = '\0';
		line.number++;
		if (!line_read(vocabulary, list, start, &line)) {
			list_cut(&vocabulary->lists[list], count_before);
			free(copy);
			return false;
		}
	}
	vocabulary->texts[vocabulary->text_count++] = copy;
	return true;
}

int
vocabulary_count(const struct vocabulary *vocabulary, enum list list)
{
	return vocabulary->lists[list].count;
}

const struct term *
vocabulary_term(const struct vocabulary *vocabulary, enum list list, int index)
{
	return vocabulary->lists[list].terms[index];
}

int
vocabulary_find(const struct vocabulary *vocabulary, enum list list, const char *name)
{
	for (int i = 0; i < vocabulary->lists[list].count; i++)
		if (strcmp(vocabulary->lists[list].terms[i]->name, name) == 0)
			return i;
	return -1;
}

int
vocabulary_match(const struct vocabulary *vocabulary, enum list list, const struct words *words,
		 int at, int *used)
{
	int best = -1;

	*used = 0;
	for (int i = 0; i < vocabulary->lists[list].count; i++) {
		const struct term *term = vocabulary->lists[list].terms[i];
		for (int way = -1; way < term->also_count; way++) {
			int length = words_match(words, at, way < 0 ? term->name : term->also[way]);
			if (length > *used) {
				*used = length;
				best = i;
			}
		}
	}
	return best;
}
