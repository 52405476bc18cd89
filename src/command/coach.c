#include "coach.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { STEPS_MAX = 16, STEP_TEXT_MAX = 96, TRIES_MAX = 3, MEASURES_MAX = 4 };

struct step {
	const char *why; /* said before the call */
	char call[STEP_TEXT_MAX];
	struct call meant;
	int tries;
	bool understood;
};

struct coach {
	struct step steps[STEPS_MAX];
	int count, at;
};

static void
add_step(struct coach *coach, const struct vocabulary *vocabulary,
	 const struct meaning_setting *setting, const char *why, const char *call)
{
	struct words words;
	struct meaning *meaning = malloc(sizeof *meaning);
	struct step *step = &coach->steps[coach->count];
	/* A list of the user's may lack what the call wants: then it is not practised. */
	if (meaning != NULL && coach->count < STEPS_MAX && words_split(&words, call) &&
	    meaning_read(vocabulary, setting, &words, meaning) && meaning->count == 1) {
		step->why = why;
		snprintf(step->call, sizeof step->call, "%s", call);
		step->meant = meaning->calls[0];
		coach->count++;
	}
	free(meaning);
}

/* By its name, or else the first of the list; "" when that is empty. */
static const char *
some_term(const struct vocabulary *vocabulary, enum list list, const char *name)
{
	int index = vocabulary_find(vocabulary, list, name);
	if (index < 0 && vocabulary_count(vocabulary, list) == 0)
		return "";
	return vocabulary_term(vocabulary, list, index < 0 ? 0 : index)->name;
}

static void
make_up_garment(struct coach *coach, const struct vocabulary *vocabulary,
		const struct meaning_setting *setting)
{
	static const char *const lengths[MEASURES_MAX] = {"twenty one and a half", "twenty nine",
							  "twenty four and a quarter",
							  "fifteen and three quarters"};
	static const char *const measures_why[MEASURES_MAX] = {
		"Measure it, and say what and how much", "The next measure",
		"A quarter is said after an and", "And once more"};
	char call[STEP_TEXT_MAX];
	const char *kind = some_term(vocabulary, LIST_KIND, "shirt");
	snprintf(call, sizeof call, "kind %s", kind);
	add_step(coach, vocabulary, setting, "First, what it is", call);
	int index = vocabulary_find(vocabulary, LIST_KIND, kind);
	const struct term *term = index < 0 ? NULL : vocabulary_term(vocabulary, LIST_KIND, index);
	for (int i = 0; term != NULL && i < term->wanted_count && i < MEASURES_MAX; i++) {
		snprintf(call, sizeof call, "%s %s",
			 vocabulary_term(vocabulary, LIST_MEASURE, term->wanted[i])->name,
			 lengths[i]);
		add_step(coach, vocabulary, setting, measures_why[i], call);
	}
	add_step(coach, vocabulary, setting,
		 "Say that you misspoke; the pedal, held, does the same", "strike that");
	add_step(coach, vocabulary, setting, "What was struck can be had back", "restore");
	snprintf(call, sizeof call, "flaw small %s left %s",
		 some_term(vocabulary, LIST_FLAW, "stain"),
		 some_term(vocabulary, LIST_PART, "cuff"));
	add_step(coach, vocabulary, setting, "A flaw, how large, and where", call);
	snprintf(call, sizeof call, "colour %s", some_term(vocabulary, LIST_COLOUR, "blue"));
	add_step(coach, vocabulary, setting, "Its colour", call);
	add_step(coach, vocabulary, setting, "The bin that it goes to", "bin twelve");
	add_step(coach, vocabulary, setting, "What was said last can be heard again", "repeat");
	add_step(coach, vocabulary, setting, "And it is done; a tap on the pedal does the same",
		 "next");
}

struct coach *
coach_create(const struct vocabulary *vocabulary, const struct meaning_setting *meaning)
{
	struct coach *coach = calloc(1, sizeof *coach);
	if (coach != NULL)
		make_up_garment(coach, vocabulary, meaning);
	return coach;
}

void
coach_destroy(struct coach *coach)
{
	free(coach);
}

void
coach_prompt(const struct coach *coach, bool welcome, struct coach_answer *answer)
{
	const struct step *step = &coach->steps[coach->at];
	*answer = (struct coach_answer){.over = coach->at == coach->count};
	if (!answer->over)
		snprintf(answer->text, sizeof answer->text, "%s%s. Say: %s",
			 welcome ? "This garment is made up, and nothing is written down. " : "",
			 step->why, step->call);
}

/* What comes after this call, behind what is said of it. */
static void
go_on(struct coach *coach, const char *cue, const char *first, struct coach_answer *answer)
{
	struct coach_answer next;
	coach->at++;
	coach_prompt(coach, false, &next);
	*answer = (struct coach_answer){.cue = cue, .over = next.over};
	snprintf(answer->text, sizeof answer->text, "%s%s%s", first, next.over ? "" : ". ",
		 next.text);
}

bool
coach_heard(struct coach *coach, const struct ears_utterance *utterance,
	    struct coach_answer *answer)
{
	char text[COACH_TEXT_MAX];
	if (coach->at == coach->count ||
	    (utterance->verdict == VERDICT_REFUSED && !utterance->near))
		return false;
	struct step *step = &coach->steps[coach->at];
	const struct ears_reading *best = &utterance->readings[0];
	bool read = utterance->reading_count > 0 && utterance->verdict != VERDICT_REFUSED;
	step->tries++;
	step->understood = read && best->meaning.count == 1 &&
			   call_same(&best->meaning.calls[0], &step->meant);
	if (step->understood) {
		go_on(coach, "taken", step->tries == 1 ? "Good" : "There it is", answer);
		return true;
	}
	if (step->tries == TRIES_MAX) {
		go_on(coach, "refused", "That one is hard, and we go on", answer);
		return true;
	}
	if (read)
		snprintf(text, sizeof text, "I heard: %s. Once more: %s", best->text, step->call);
	else
		snprintf(text, sizeof text, "That was not clear. Once more: %s", step->call);
	*answer = (struct coach_answer){.cue = "refused"};
	memcpy(answer->text, text, sizeof text);
	return true;
}

void
coach_tell_hard(const struct coach *coach, char *text, size_t size)
{
	int understood = 0, hard = 0;
	for (int i = 0; i < coach->count; i++)
		understood += coach->steps[i].understood;
	snprintf(text, size, "%d of %d calls were understood", understood, coach->count);
	for (int i = 0; i < coach->count; i++) {
		const struct step *step = &coach->steps[i];
		size_t length = strlen(text);
		if (step->tries > 1 || (step->tries == 1 && !step->understood))
			snprintf(text + length, size - length, "%s%s",
				 hard++ == 0 ? "; hard for you: " : ", ", step->call);
	}
	if (hard == 0 && understood == coach->count)
		snprintf(text + strlen(text), size - strlen(text), ", each at the first try");
}
