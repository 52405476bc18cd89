/* The station's grammars from the folder that the tests are given, for tests of what they say. */
#ifndef LAPEL_TESTS_STATION_FIXTURE_H
#define LAPEL_TESTS_STATION_FIXTURE_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "automaton.h"
#include "meaning.h"
#include "station.h"

#include <stdio.h>
#include <stdlib.h>

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

static const char *const place_names[STATION_PLACES] = {"item", "asked", "question", "paused"};

struct station {
	const char *grammars;
	struct vocabulary *vocabulary;
	struct automaton *places[STATION_PLACES];
};

static struct automaton *
compile(const struct vocabulary *vocabulary, const char *grammars, enum station_place place)
{
	struct problem problem = {""};
	struct automaton *automaton = NULL;
	char *text = station_grammar(grammars, vocabulary, place, &problem);
	struct jsgf *jsgf = text == NULL ? NULL : jsgf_parse("station.gram", text, &problem);
	if (jsgf != NULL)
		automaton = automaton_compile(jsgf, 0, &problem);
	if (automaton == NULL)
		fail_msg("%s", problem.text);
	jsgf_destroy(jsgf);
	free(text);
	return automaton;
}

static int
open_station(void **state)
{
	static struct station station;
	struct problem problem = {""};

	station.grammars = getenv("LAPEL_GRAMMARS");
	assert_non_null(station.grammars);
	station.vocabulary = station_vocabulary(station.grammars, NULL, &problem);
	if (station.vocabulary == NULL)
		fail_msg("%s", problem.text);
	for (int place = 0; place < STATION_PLACES; place++)
		station.places[place] =
			compile(station.vocabulary, station.grammars, (enum station_place)place);
	*state = &station;
	return 0;
}

static int
close_station(void **state)
{
	struct station *station = *state;
	vocabulary_destroy(station->vocabulary);
	for (int place = 0; place < STATION_PLACES; place++)
		automaton_destroy(station->places[place]);
	return 0;
}

static bool
understood(const struct station *station, const char *text, const char *currency,
	   struct meaning *meaning)
{
	struct meaning_setting setting = {.unit = LENGTH_INCH};
	struct words words;
	snprintf(setting.currency, sizeof setting.currency, "%s", currency);
	return words_split(&words, text) &&
	       meaning_read(station->vocabulary, &setting, &words, meaning);
}

#endif
