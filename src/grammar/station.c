#include "station.h"

#include "call.h"
#include "file_text.h"
#include "label.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The lists that come with lapel; measures first, since kinds refer to them. */
static const struct {
	enum list list;
	const char *file;
} tables[] = {
	{LIST_MEASURE, "measures.txt"}, {LIST_KIND, "kinds.txt"},    {LIST_FLAW, "flaws.txt"},
	{LIST_PART, "parts.txt"},	{LIST_ROUTE, "routes.txt"},  {LIST_MAKER, "makers.txt"},
	{LIST_COLOUR, "colours.txt"},	{LIST_TAG, "tags.txt"},	     {LIST_FIBRE, "fibres.txt"},
	{LIST_PARCEL, "parcels.txt"},	{LIST_PERSON, "people.txt"}, {LIST_GROUP, "groups.txt"},
	{LIST_CARE, "care.txt"},	{LIST_MEND, "mends.txt"},
};

static bool
is_any(const struct term *term)
{
	return true;
}

static bool
is_basic(const struct term *term)
{
	return term->colour == COLOUR_BASIC;
}

static bool
is_shade(const struct term *term)
{
	return term->colour == COLOUR_SHADE;
}

static bool
is_pattern(const struct term *term)
{
	return term->colour == COLOUR_PATTERN;
}

/* "front" and "back" alone are parts, but before a part they are faces, and <face> says them. */
static bool
is_no_face(const struct term *term)
{
	return face_parse(term->name) == FACE_UNSAID;
}

/* A kind that may be a piece of a set. */
static bool
is_piece(const struct term *term)
{
	return !term->set;
}

/* The rules that are made from the lists, for station.gram to refer to. */
static const struct {
	const char *rule;
	enum list list;
	bool (*in)(const struct term *);
} list_rules[] = {
	{"kind", LIST_KIND, is_any},
	{"measure", LIST_MEASURE, is_any},
	{"flaw", LIST_FLAW, is_any},
	{"part", LIST_PART, is_no_face},
	{"route", LIST_ROUTE, is_any},
	{"maker", LIST_MAKER, is_any},
	{"basic_colour", LIST_COLOUR, is_basic},
	{"shade", LIST_COLOUR, is_shade},
	{"pattern", LIST_COLOUR, is_pattern},
	{"tag", LIST_TAG, is_any},
	{"fibre", LIST_FIBRE, is_any},
	{"parcel", LIST_PARCEL, is_any},
	{"person", LIST_PERSON, is_any},
	{"group", LIST_GROUP, is_any},
	{"care", LIST_CARE, is_any},
	{"mend", LIST_MEND, is_any},
	{"piece", LIST_KIND, is_piece},
	{"bin_name", LIST_BIN, is_any},
};

/* The rule of station.gram that is public in each place. */
static const char *const place_rules[STATION_PLACES] = {
	[STATION_ITEM] = "item",
	[STATION_ASKED] = "asked",
	[STATION_QUESTION] = "question",
	[STATION_PAUSED] = "paused",
};

static bool
has_digit(const char *name)
{
	return strpbrk(name, "0123456789") != NULL;
}

static bool
is_digits(const char *name)
{
	return name[0] != '\0' && name[strspn(name, "0123456789")] == '\0';
}

/* A bin's digits are said as those of any label; "a12" would be a word that nobody can say. */
static bool
check_bins(const struct vocabulary *vocabulary, const char *file, struct problem *problem)
{
	for (int i = 0; i < vocabulary_count(vocabulary, LIST_BIN); i++) {
		const struct term *bin = vocabulary_term(vocabulary, LIST_BIN, i);
		bool sayable = is_digits(bin->name) || !has_digit(bin->name);
		for (int k = 0; k < bin->also_count; k++)
			sayable = sayable || !has_digit(bin->also[k]);
		if (!sayable)
			return problem_say(problem,
					   "%s: how the bin \"%s\" is said is not known: write it "
					   "after a |, in words, as in \"%s | rail twelve\"",
					   file, bin->name, bin->name);
	}
	return true;
}

static bool
read_table(struct vocabulary *vocabulary, enum list list, const char *file, char *text,
	   struct problem *problem)
{
	bool good = text != NULL && vocabulary_read(vocabulary, list, file, text, problem);
	free(text);
	return good;
}

struct vocabulary *
station_vocabulary(const char *grammars, const char *bins, struct problem *problem)
{
	struct vocabulary *vocabulary = vocabulary_create();
	bool good = vocabulary != NULL;

	if (!good)
		problem_say(problem, "there is no memory left for the lists");
	for (size_t i = 0; good && i < sizeof tables / sizeof tables[0]; i++)
		good = read_table(vocabulary, tables[i].list, tables[i].file,
				  file_text_in(grammars, tables[i].file, problem), problem);
	if (good && bins != NULL)
		good = read_table(vocabulary, LIST_BIN, bins, file_text(bins, problem), problem) &&
		       check_bins(vocabulary, bins, problem);
	if (good)
		return vocabulary;
	vocabulary_destroy(vocabulary);
	return NULL;
}

/* One more alternative, if it can be said. */
static void
write_way(FILE *to, const char *weight, const char *way, int *count)
{
	char said[256];

	if (is_digits(way))
		label_say(way, said, sizeof said);
	else if (has_digit(way))
		return;
	else
		snprintf(said, sizeof said, "%s", way);
	fprintf(to, "%s/%s/ %s", *count == 0 ? "" : "\n\t| ", weight, said);
	++*count;
}

static void
write_list_rules(FILE *to, const struct vocabulary *vocabulary)
{
	for (size_t i = 0; i < sizeof list_rules / sizeof list_rules[0]; i++) {
		int ways = 0;
		fprintf(to, "<%s> = ", list_rules[i].rule);
		for (int k = 0; k < vocabulary_count(vocabulary, list_rules[i].list); k++) {
			const struct term *term =
				vocabulary_term(vocabulary, list_rules[i].list, k);
			if (!list_rules[i].in(term))
				continue;
			write_way(to, term->weight, term->name, &ways);
			for (int also = 0; also < term->also_count; also++)
				write_way(to, term->weight, term->also[also], &ways);
		}
		fprintf(to, "%s;\n", ways == 0 ? "<VOID>" : "");
	}
}

char *
station_grammar(const char *grammars, const struct vocabulary *vocabulary, enum station_place place,
		struct problem *problem)
{
	char *written = file_text_in(grammars, "station.gram", problem);
	char *text = NULL;
	size_t size = 0;

	if (written == NULL)
		return NULL;
	FILE *to = open_memstream(&text, &size);
	bool good = to != NULL;
	if (good) {
		/* The rules of the file come first, so that its lines keep their numbers. */
		fprintf(to, "%s\n", written);
		write_list_rules(to, vocabulary);
		fprintf(to, "public <station> = <%s>;\n", place_rules[place]);
		good = ferror(to) == 0;
		good = fclose(to) == 0 && good;
	}
	free(written);
	if (good)
		return text;
	problem_say(problem, "there is no memory left for the grammar");
	free(text);
	return NULL;
}
