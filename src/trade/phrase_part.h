/* The pieces that phrases are made of, each added to a line. Inside trade/. */
#ifndef LAPEL_TRADE_PHRASE_PART_H
#define LAPEL_TRADE_PHRASE_PART_H

#include "call.h"
#include "line.h"

void phrase_length(const struct call *call, bool unit_too, struct line *line); /* or "none" */
/* "wash thirty do not bleach", "new zip thirty minutes"; a mend's materials are added after. */
void phrase_listed(const struct call *call, struct line *line);
void phrase_count(int count, struct line *line); /* "times four"; nothing for 0 */
void phrase_size(const char *size, struct line *line);
void phrase_label(const char *label, struct line *line);
void phrase_percent(const struct fibre *fibre, struct line *line);
void phrase_grade(int grade_halves, struct line *line);
void phrase_weight(int32_t grams, struct line *line);
void phrase_money(struct money money, struct line *line);
void phrase_place(const struct call *call, struct line *line); /* "left front hem" */
const char *phrase_answer(int choice);

#endif
