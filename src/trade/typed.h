/* What is typed at a desk, as calls, and calls as what one would type: the cell of one field, held
 * against the same lists as what is said. */
#ifndef LAPEL_TRADE_TYPED_H
#define LAPEL_TRADE_TYPED_H

#include "call.h"
#include "problem.h"
#include "text.h"
#include "vocabulary.h"

struct typed_setting {
	const struct vocabulary *vocabulary; /* borrowed */
	enum length_unit unit;		     /* of a length that does not say its own */
	char currency[4];
};

/* Reads what was typed into a field of this type; of a CALL_MEASURE, `measure` is its name. "21
 * 1/2", "21.5 cm", "none"; "60 % wool, 40 % silk"; "small hole, left cuff"; "18.50", "18.50 EUR";
 * "3-4"; "320 g"; "wash thirty, do not bleach"; "new zip 30 minutes, materials 4.50"; the pieces of
 * a set, "jacket, trousers"; names of the lists. A maker and a size need not be on a list. False,
 * with what is wrong and what it takes, for anything else, and for a type that no field has (a
 * note, an order).
 */
bool typed_read(const struct typed_setting *setting, enum call_type type, const char *measure,
		const char *typed, struct call *call, struct problem *problem);

/* What typed_read would take for the call: the text that an edit starts with. Cut where `size`
 * ends. */
void typed_write(const struct typed_setting *setting, const struct call *call, char *text,
		 size_t size);

/* What is shown of the value, without its field's name: a length in both units, money with its
 * currency, names as they are. */
void typed_show(const struct call *call, struct text *to);

#endif
