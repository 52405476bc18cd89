/* A call: one thing that the measurer said (or pressed), as meaning. The alphabet of lapel. */
#ifndef LAPEL_TRADE_CALL_H
#define LAPEL_TRADE_CALL_H

#include "label.h"
#include "length.h"
#include "money.h"

enum call_type {
	CALL_KIND,    /* name */
	CALL_MEASURE, /* name (the measure; empty: a bare value), length or none */
	CALL_FLAW,   /* name (the flaw; none: "flaw none"), size, length, count, side, face, part */
	CALL_ITEM,   /* label */
	CALL_BIN,    /* label */
	CALL_MAKER,  /* name, spelled */
	CALL_SIZE,   /* name */
	CALL_COLOUR, /* name */
	CALL_CLOTH,  /* fibres */
	CALL_PILLING,	    /* grade */
	CALL_COLOUR_CHANGE, /* grade */
	CALL_WEIGHT,	    /* grams */
	CALL_COST,	    /* money */
	CALL_PRICE,	    /* money */
	CALL_PARCEL,	    /* name */
	CALL_ROUTE,	    /* name */
	CALL_GROUP,	    /* name: whom it is made for */
	CALL_CARE,	    /* listed: what the care label says */
	CALL_MENDING,	    /* listed, with minutes; money: the materials */
	CALL_PART, /* name: the piece of a set that is in hand; listed: all that were, it last */
	CALL_NOTE,
	CALL_KEEP,  /* kept: the type of the call whose fields are here too; CALL_KEEP: "nothing" */
	CALL_ORDER, /* order, and label, name (a measure, a flaw's name) or topic as it wants */
	CALL_ANSWER, /* choice: 1 is "first" or "yes", 2 "second", 0 "no" */
	CALL_TYPES
};

enum order {
	ORDER_NEXT,
	ORDER_PREVIOUS,
	ORDER_REPEAT,
	ORDER_STRIKE_THAT,
	ORDER_STRIKE, /* a measure: name; or a flaw: name "flaw" and what was said of it: flaw (its
			 name), side, face, part; none of them: the last flaw */
	ORDER_RESTORE,
	ORDER_READ_IT_ALL,
	ORDER_WHAT_IS_MISSING,
	ORDER_WHERE_AM_I,
	ORDER_OPEN_ITEM, /* label */
	ORDER_SET_ASIDE,
	ORDER_BELONG_TO, /* "these belong to item": label */
	ORDER_ASK_ME,
	ORDER_STOP_ASKING,
	ORDER_PAUSE,
	ORDER_RESUME,
	ORDER_HELP,	 /* topic: measures, flaws, parts, kinds, orders, or none */
	ORDER_HAND_OVER, /* name */
	ORDERS
};

enum flaw_size { SIZE_UNSAID, SIZE_SMALL, SIZE_LARGE };
enum side { SIDE_UNSAID, SIDE_LEFT, SIDE_RIGHT }; /* the wearer's */
enum face { FACE_UNSAID, FACE_FRONT, FACE_BACK, FACE_INSIDE, FACE_OUTSIDE };

enum { CALL_NAME_MAX = 64, CALL_FIBRES_MAX = 8, CALL_LISTED_MAX = 8, CALL_MINUTES_MAX = 999 };

struct fibre {
	int percent;
	char name[24];
	char section[12]; /* "shell", "lining", or empty */
};

/* One of several names of a list. */
struct listed {
	char name[32];
	int minutes; /* of a mend; 0: not said */
};

struct call {
	enum call_type type;
	enum call_type kept; /* of a CALL_KEEP */
	enum order order;    /* of a CALL_ORDER */
	char name[CALL_NAME_MAX];
	bool none;	 /* "MEASURE none", "flaw none" */
	bool other;	 /* off the list: "maker other", "flaw other" */
	bool spelled;	 /* "maker spell hotel alfa lima": the name is letters and digits */
	bool correction; /* said with a "no" before it: the call it follows was withdrawn, in this
			    utterance or (when it opens one) the last of the one before */
	bool has_length;
	bool unit_said;
	struct length length;
	enum flaw_size size;
	int count; /* "snag times four"; 0: unsaid */
	enum side side;
	enum face face;
	char part[32];
	char label[LABEL_MAX];
	char flaw[CALL_NAME_MAX]; /* of "strike flaw ...": the flaw's name */
	char topic[16];
	struct money money;
	bool has_second; /* "two forty": 2.40, and the second reading 240.00, so it must be asked */
	struct money money_second;
	struct fibre fibres[CALL_FIBRES_MAX];
	int fibre_count;
	struct listed listed[CALL_LISTED_MAX];
	int listed_count;
	int grade_halves; /* twice the grade: 5 is 10, "3-4" is 7; 0 unsaid */
	int32_t grams;
	int choice;
	/* Where in the utterance's words it was said. A correction's begin with the "no", or with
	 * the withdrawn call when it takes that one's name ("chest twenty one no twenty two"). */
	int first_word, word_count;
};

/* "measure", "flaw", "colour change" ...: the contract's names. And back; CALL_TYPES when none. */
const char *call_type_name(enum call_type type);
enum call_type call_type_parse(const char *name);

/* "strike that", "open item" ...: the order's words without the argument. */
const char *order_name(enum order order);

/* "left", "front", "small" ...; NULL when unsaid. The parsers take NULL or nonsense as unsaid. */
const char *side_name(enum side side);
const char *face_name(enum face face);
const char *flaw_size_name(enum flaw_size size);
enum side side_parse(const char *name);
enum face face_parse(const char *name);
enum flaw_size flaw_size_parse(const char *name);

/* The order of these words, as order_name gives them; ORDERS when none. */
enum order order_parse(const char *name);

/* Whether both calls mean the same: everything but the words they were said in (spelled or not, and
 * of a part also what went before it), and but how a same length was said ("twenty one point five"
 * and "twenty one and a half" are one meaning, and so are 21 inches whether "inches" was said or
 * not). */
bool call_same(const struct call *one, const struct call *other);

#endif
