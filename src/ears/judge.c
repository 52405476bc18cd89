#include "judge.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct place_of_number {
	const char *name;
	double *number;
	bool seen;
};

static bool
read_line(char *line, struct place_of_number *places, int count, const char *file, int number,
	  struct problem *problem)
{
	char *rest = NULL, *end;
	line[strcspn(line, "#\r\n")] = '\0';
	const char *name = strtok_r(line, " \t", &rest);
	if (name == NULL)
		return true;
	const char *value = strtok_r(NULL, " \t", &rest);
	for (int i = 0; i < count; i++) {
		if (strcmp(places[i].name, name) != 0 || places[i].seen || value == NULL)
			continue;
		*places[i].number = strtod(value, &end);
		places[i].seen = true;
		if (*end == '\0' && isfinite(*places[i].number))
			return true;
		return problem_say(problem, "%s, line %d: \"%s\" is no number", file, number,
				   value);
	}
	return problem_say(problem, "%s, line %d: \"%s\" is unknown, given twice or has no number",
			   file, number, name);
}

bool
judge_read(struct judge *judge, const char *file, const char *text, struct problem *problem)
{
	enum { NAMED = 5, COUNT = EVIDENCE_FEATURES + NAMED };
	struct place_of_number places[COUNT] = {{"intercept", &judge->intercept, false},
						{"take_from", &judge->take_from, false},
						{"doubt_from", &judge->doubt_from, false},
						{"near_from", &judge->near_from, false},
						{"other_voice_db", &judge->other_voice_db, false}};
	for (int i = 0; i < EVIDENCE_FEATURES; i++)
		places[i + NAMED] =
			(struct place_of_number){evidence_name(i), &judge->weight[i], false};
	char line[256];
	for (int number = 1; *text != '\0'; number++) {
		size_t length = strcspn(text, "\n");
		snprintf(line, sizeof line, "%.*s", (int)length, text);
		if (!read_line(line, places, COUNT, file, number, problem))
			return false;
		text += length + (text[length] == '\n');
	}
	for (int i = 0; i < COUNT; i++)
		if (!places[i].seen)
			return problem_say(problem, "%s: no line for \"%s\"", file, places[i].name);
	return true;
}

double
judge_confidence(const struct judge *judge, const struct evidence *evidence)
{
	double odds = judge->intercept;
	for (int i = 0; i < EVIDENCE_FEATURES; i++)
		odds += judge->weight[i] * evidence->value[i];
	return 1 / (1 + exp(-odds));
}

enum verdict
judge_verdict(const struct judge *judge, double confidence)
{
	if (confidence >= judge->take_from)
		return VERDICT_TAKEN;
	return confidence >= judge->doubt_from ? VERDICT_DOUBTED : VERDICT_REFUSED;
}
