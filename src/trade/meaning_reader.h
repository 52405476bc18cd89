/* The readers of single calls, from which meaning.c puts an utterance together. Inside trade/.
 *
 * A reader looks at the words from `at` on, and gives the `nth` way of reading them as what it
 * reads, ways that use more words first (0, 1, 2 ...). It fills in `call` and returns how many
 * words that way uses; 0 when there is no such way. `call` comes zeroed but for the type. */
#ifndef LAPEL_TRADE_MEANING_READER_H
#define LAPEL_TRADE_MEANING_READER_H

#include "meaning.h"

struct reader {
	const struct vocabulary *vocabulary;
	const struct meaning_setting *setting;
	const struct words *words;
};

typedef int argument_reader(const struct reader *reader, int at, int nth, struct call *call);

/* What is said after the word that opens a call of the type: "kind", then KIND. */
argument_reader read_listed; /* kind, parcel, route, group, part, by the call's type */
argument_reader read_maker;
argument_reader read_label; /* item */
argument_reader read_bin;
argument_reader read_size;
argument_reader read_colour;
argument_reader read_cloth;
argument_reader read_grade;
argument_reader read_weight;
argument_reader read_money;
argument_reader read_care;
argument_reader read_mending;
argument_reader read_flaw;

/* [left or right] [front, back, inside or outside] [PART]. An empty place is no way of its own. */
argument_reader read_place;

/* `used` words from `at` on, which are read already, and then a place; no place is the last way of
 * all, unless `used` is 0. Returns how many words in all. */
int read_then_place(const struct reader *reader, int at, int used, int nth, struct call *call);

/* A length, or "none". With `call` already holding a length whose unit was said, one said without
 * is in that unit too: "twenty inches no twenty two". */
argument_reader read_length_or_none;

/* The name of a measure, also of one side ("left sleeve") and of a piece of a set ("jacket chest");
 * how many words it took. */
int read_measure_name(const struct reader *reader, int at, char name[CALL_NAME_MAX]);

/* Any order with its argument; and "first", "second", "yes" ("no" is meaning.c's). */
argument_reader read_order;
argument_reader read_answer;

/* One whole call, of any type, with the words that open it; sets the type. */
argument_reader read_call;

/* A new value for `call` after "no", without the opening words; `call` is the withdrawn call, and
 * what is not said again stays. */
argument_reader read_again;
argument_reader read_flaw_again;

#endif
