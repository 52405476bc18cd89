/* What the voice says for a call or a value. The same meaning gives the same words. */
#ifndef LAPEL_TRADE_PHRASE_H
#define LAPEL_TRADE_PHRASE_H

#include "call.h"

#include <stddef.h>

enum phrase_detail {
	PHRASE_VALUE, /* the value only: "twenty one and a half" */
	PHRASE_NAMED, /* with its name: "chest twenty one and a half", "flaw small hole left cuff"
		       */
	PHRASE_FULL   /* with its unit too: "chest twenty one and a half inches" */
};

/* In words that meaning_read reads back to the same call (PHRASE_NAMED and PHRASE_FULL; with
 * PHRASE_NAMED a length has its unit when that was said). What is not said again: that the call was
 * a correction, and the second reading of an amount that must be asked. Cut where `size` ends. */
void phrase_call(const struct call *call, enum phrase_detail detail, char *text, size_t size);

/* Two meanings as a question that says only what differs: "thirteen or thirty?", "left or right?",
 * or both whole when their names or more than one field differ, or when one has a field that the
 * other lacks: "chest thirteen, or waist thirteen?" */
void phrase_question(const struct call *first, const struct call *second, char *text, size_t size);

/* As text for a transcript: "chest 21 1/2 in", "flaw: small hole, left cuff", "bin 482", "cloth
 * 60 % cotton, 40 % linen", "price 18.50 USD"; makers' names get their capitals. */
void phrase_written(const struct call *call, char *text, size_t size);

#endif
