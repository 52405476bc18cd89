/* The pieces of a write-up, each added to a text. Inside trade/. */
#ifndef LAPEL_TRADE_WRITEUP_PART_H
#define LAPEL_TRADE_WRITEUP_PART_H

#include "money.h"
#include "record.h"
#include "text.h"

/* What the slots of the user's table are filled from. */
struct slots {
	const struct writeup_form *form;
	const struct vocabulary *vocabulary;
	const struct record *record;
	const struct money *asking;	 /* or NULL */
	const char *title, *description; /* in the rows of the text only; else NULL */
};

/* The number of the slot so named (name is `length` long), or -1. `in_text`: in a row of the text,
 * where the title and the description may stand. */
int slot_find(const struct vocabulary *vocabulary, const char *name, size_t length, bool in_text);
/* Adds the slot's words: nothing when it has none. */
void slot_write(const struct slots *slots, int slot, struct text *to);

/* Whether the row's brackets and slots are right; otherwise *wrong says what is not, for a table's
 * reader to say where. */
bool pattern_check(const struct vocabulary *vocabulary, const char *pattern, bool in_text,
		   struct problem *wrong);
/* Adds the row with its slots filled. Adds nothing, and returns false, when a slot outside square
 * brackets is empty, or all slots of the row are. */
bool pattern_write(const char *pattern, const struct slots *slots, struct text *to);

/* "21 1/2 in (54.6 cm)": as it was said, and in the other unit. */
void write_both_units(struct length length, struct text *to);

/* A flaw in plain words: "small hole at the left cuff, on the inside". */
void write_flaw_words(const struct call *flaw, struct text *to);
/* Sentences: the flaws, or that none were found, if that was said. Nothing otherwise. */
void write_flaws(const struct record *record, struct text *to);

/* The table of measures: lines, the last one without a line feed. */
void write_measures(const struct record *record, const struct vocabulary *vocabulary,
		    struct text *to);

/* What phrase_written gives for the call, without the name of its type before it. */
void write_value(const struct call *call, struct text *to);

/* "wash at 30 °C at most; do not bleach". */
void write_care(const struct vocabulary *vocabulary, const struct call *call, struct text *to);

/* "none" at 5, "severe" at 1, between them the grade with what its ends mean. */
void write_grade_words(const struct call *call, struct text *to);

#endif
