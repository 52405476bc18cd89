#include "call.h"

#include <string.h>

static const char *const type_names[CALL_TYPES] = {
	[CALL_KIND] = "kind",
	[CALL_MEASURE] = "measure",
	[CALL_FLAW] = "flaw",
	[CALL_ITEM] = "item",
	[CALL_BIN] = "bin",
	[CALL_MAKER] = "maker",
	[CALL_SIZE] = "size",
	[CALL_COLOUR] = "colour",
	[CALL_CLOTH] = "cloth",
	[CALL_PILLING] = "pilling",
	[CALL_COLOUR_CHANGE] = "colour change",
	[CALL_WEIGHT] = "weight",
	[CALL_COST] = "cost",
	[CALL_PRICE] = "price",
	[CALL_PARCEL] = "parcel",
	[CALL_ROUTE] = "route",
	[CALL_GROUP] = "group",
	[CALL_CARE] = "care",
	[CALL_MENDING] = "mending",
	[CALL_PART] = "part",
	[CALL_NOTE] = "note",
	[CALL_KEEP] = "keep",
	[CALL_ORDER] = "order",
	[CALL_ANSWER] = "answer",
};

static const char *const order_names[ORDERS] = {
	[ORDER_NEXT] = "next",
	[ORDER_PREVIOUS] = "previous",
	[ORDER_REPEAT] = "repeat",
	[ORDER_STRIKE_THAT] = "strike that",
	[ORDER_STRIKE] = "strike",
	[ORDER_RESTORE] = "restore",
	[ORDER_READ_IT_ALL] = "read it all",
	[ORDER_WHAT_IS_MISSING] = "what is missing",
	[ORDER_WHERE_AM_I] = "where am i",
	[ORDER_OPEN_ITEM] = "open item",
	[ORDER_SET_ASIDE] = "set aside",
	[ORDER_BELONG_TO] = "these belong to item",
	[ORDER_ASK_ME] = "ask me",
	[ORDER_STOP_ASKING] = "stop asking",
	[ORDER_PAUSE] = "pause",
	[ORDER_RESUME] = "resume",
	[ORDER_HELP] = "help",
	[ORDER_HAND_OVER] = "hand over to",
};

/* The first name of each of these is "unsaid". */
static const char *const side_names[] = {NULL, "left", "right"};
static const char *const face_names[] = {NULL, "front", "back", "inside", "outside"};
static const char *const size_names[] = {NULL, "small", "large"};

#define COUNT(array) ((int)(sizeof(array) / sizeof((array)[0])))

static int
name_index(const char *const *names, int count, const char *name, int unless_found)
{
	for (int i = 0; name != NULL && i < count; i++)
		if (names[i] != NULL && strcmp(names[i], name) == 0)
			return i;
	return unless_found;
}

const char *
call_type_name(enum call_type type)
{
	return type_names[type];
}

enum call_type
call_type_parse(const char *name)
{
	return (enum call_type)name_index(type_names, CALL_TYPES, name, CALL_TYPES);
}

const char *
order_name(enum order order)
{
	return order_names[order];
}

enum order
order_parse(const char *name)
{
	return (enum order)name_index(order_names, ORDERS, name, ORDERS);
}

const char *
side_name(enum side side)
{
	return side_names[side];
}

const char *
face_name(enum face face)
{
	return face_names[face];
}

const char *
flaw_size_name(enum flaw_size size)
{
	return size_names[size];
}

enum side
side_parse(const char *name)
{
	return (enum side)name_index(side_names, COUNT(side_names), name, SIDE_UNSAID);
}

enum face
face_parse(const char *name)
{
	return (enum face)name_index(face_names, COUNT(face_names), name, FACE_UNSAID);
}

enum flaw_size
flaw_size_parse(const char *name)
{
	return (enum flaw_size)name_index(size_names, COUNT(size_names), name, SIZE_UNSAID);
}

static bool
length_same(const struct call *one, const struct call *other)
{
	if (!one->has_length || !other->has_length)
		return one->has_length == other->has_length;
	return one->length.unit == other->length.unit &&
	       (int64_t)one->length.numerator * other->length.denominator ==
		       (int64_t)other->length.numerator * one->length.denominator;
}

static bool
money_same(const struct money *one, const struct money *other)
{
	return one->minor == other->minor && strcmp(one->currency, other->currency) == 0;
}

static bool
fibres_same(const struct call *one, const struct call *other)
{
	if (one->fibre_count != other->fibre_count)
		return false;
	for (int i = 0; i < one->fibre_count; i++) {
		const struct fibre *here = &one->fibres[i];
		const struct fibre *there = &other->fibres[i];
		if (here->percent != there->percent || strcmp(here->name, there->name) != 0 ||
		    strcmp(here->section, there->section) != 0)
			return false;
	}
	return true;
}

static bool
listed_same(const struct call *one, const struct call *other)
{
	if (one->type == CALL_PART)
		return true;
	if (one->listed_count != other->listed_count)
		return false;
	for (int i = 0; i < one->listed_count; i++)
		if (strcmp(one->listed[i].name, other->listed[i].name) != 0 ||
		    one->listed[i].minutes != other->listed[i].minutes)
			return false;
	return true;
}

/* Fields that a type does not use are zero in both, so one comparison serves all types. */
bool
call_same(const struct call *one, const struct call *other)
{
	return one->type == other->type && one->kept == other->kept && one->order == other->order &&
	       strcmp(one->name, other->name) == 0 && one->none == other->none &&
	       one->other == other->other && one->correction == other->correction &&
	       length_same(one, other) && one->size == other->size && one->side == other->side &&
	       one->face == other->face && one->count == other->count &&
	       strcmp(one->part, other->part) == 0 && strcmp(one->label, other->label) == 0 &&
	       strcmp(one->flaw, other->flaw) == 0 && strcmp(one->topic, other->topic) == 0 &&
	       money_same(&one->money, &other->money) && one->has_second == other->has_second &&
	       money_same(&one->money_second, &other->money_second) && fibres_same(one, other) &&
	       listed_same(one, other) && one->grade_halves == other->grade_halves &&
	       one->grams == other->grams && one->choice == other->choice;
}
