#include "random_call.h"

#include <stdio.h>
#include <string.h>

/* xorshift64*, Vigna 2016, "An experimental exploration of Marsaglia's xorshift generators"; the
 * constants are from memory. Any generator will do that gives the same for the same seed. */
uint64_t
chance_draw(struct chance *chance)
{
	chance->state ^= chance->state >> 12;
	chance->state ^= chance->state << 25;
	chance->state ^= chance->state >> 27;
	return chance->state * 2685821657736338717u;
}

int
chance_below(struct chance *chance, int limit)
{
	return (int)(chance_draw(chance) >> 33) % limit;
}

bool
chance_in(struct chance *chance, int parts)
{
	return chance_below(chance, parts) == 0;
}

static void
pick(struct chance *chance, char *name, size_t size, const char *const *names, int count)
{
	snprintf(name, size, "%s", names[chance_below(chance, count)]);
}

#define PICK(chance, field, ...)                                                             \
	do {                                                                                 \
		static const char *const names[] = {__VA_ARGS__};                            \
		pick(chance, field, sizeof(field), names, sizeof(names) / sizeof(names[0])); \
	} while (0)

static void
random_measure(struct chance *chance, struct call *call)
{
	PICK(chance, call->name, "chest", "length", "sleeve", "waist", "inseam", "");
	call->none = chance_in(chance, 12);
	call->has_length = !call->none;
	call->length = (struct length){10 + chance_below(chance, 5), 1, LENGTH_INCH};
	if (chance_in(chance, 10))
		call->length.numerator += chance_in(chance, 2) ? 25 : 50;
	call->correction = chance_in(chance, 6);
}

static void
random_flaw(struct chance *chance, struct call *call)
{
	call->none = chance_in(chance, 4);
	call->correction = chance_in(chance, 6);
	if (call->none)
		return;
	call->other = chance_in(chance, 12);
	if (!call->other)
		PICK(chance, call->name, "hole", "stain");
	PICK(chance, call->part, "cuff", "collar", "hem", "");
}

static void
random_fact(struct chance *chance, struct call *call)
{
	switch (chance_below(chance, 8)) {
	case 0:
		call->type = CALL_BIN;
		PICK(chance, call->label, "11", "12", "13", "14");
		break;
	case 1:
		call->type = CALL_MAKER;
		call->other = chance_in(chance, 8);
		if (!call->other)
			PICK(chance, call->name, "marlock", "hallowick", "quernby mill");
		break;
	case 2:
		call->type = CALL_ROUTE;
		PICK(chance, call->name, "sale", "mending", "charity");
		break;
	case 3:
		call->type = CALL_PRICE;
		call->money = (struct money){240, "USD"};
		call->has_second = chance_in(chance, 3);
		call->money_second = (struct money){24000, "USD"};
		break;
	case 4:
		call->type = CALL_GROUP;
		PICK(chance, call->name, "women", "children");
		break;
	case 5:
		call->type = CALL_PART;
		PICK(chance, call->name, "shirt", "trousers");
		break;
	case 6:
		call->type = CALL_CARE;
		call->listed_count = 1;
		PICK(chance, call->listed[0].name, "wash thirty", "dry flat");
		break;
	default:
		call->type = CALL_COLOUR;
		PICK(chance, call->name, "navy", "red");
	}
}

static void
random_label(struct chance *chance, char label[LABEL_MAX])
{
	snprintf(label, LABEL_MAX, "%d",
		 1 + chance_below(chance, chance_in(chance, 2) ? 20 : 4000));
}

static void
random_order(struct chance *chance, struct call *call)
{
	static const enum order common[] = {ORDER_NEXT,	       ORDER_NEXT,    ORDER_PREVIOUS,
					    ORDER_STRIKE_THAT, ORDER_RESTORE, ORDER_STRIKE};
	call->type = CALL_ORDER;
	call->order = chance_in(chance, 2) ? common[chance_below(chance, 6)]
					   : (enum order)chance_below(chance, ORDERS);
	if (call->order == ORDER_PAUSE && !chance_in(chance, 4))
		call->order = ORDER_RESUME;
	if (call->order == ORDER_STRIKE) {
		PICK(chance, call->name, "chest", "length", "flaw");
		PICK(chance, call->part, "", "cuff");
	}
	if (call->order == ORDER_OPEN_ITEM || call->order == ORDER_BELONG_TO)
		random_label(chance, call->label);
	if (call->order == ORDER_HELP)
		PICK(chance, call->topic, "", "measures", "flaws", "kinds");
	if (call->order == ORDER_HAND_OVER)
		PICK(chance, call->name, "ada", "bo");
}

struct call
random_call(struct chance *chance)
{
	struct call call = {.type = CALL_MEASURE};
	switch (chance_below(chance, 16)) {
	case 0:
	case 1:
		call.type = CALL_KIND;
		PICK(chance, call.name, "shirt", "trousers", "scarf", "set");
		break;
	case 2:
	case 3:
		call.type = CALL_FLAW;
		random_flaw(chance, &call);
		break;
	case 4:
		call.type = CALL_ITEM;
		random_label(chance, call.label);
		break;
	case 5:
	case 6:
		random_fact(chance, &call);
		break;
	case 7:
		random_fact(chance, &call);
		call.kept = chance_in(chance, 5) ? CALL_KEEP : call.type;
		call.type = CALL_KEEP;
		break;
	case 8:
		call.type = CALL_ANSWER;
		call.choice = chance_below(chance, 3);
		call.correction = chance_in(chance, 8);
		break;
	case 9:
		if (chance_in(chance, 6))
			call.type = CALL_NOTE;
		else
			random_measure(chance, &call);
		break;
	case 10:
	case 11:
	case 12:
		random_order(chance, &call);
		break;
	default:
		random_measure(chance, &call);
	}
	return call;
}
