#include "words_calls.h"

static const struct call_words calls[] = {
	{"begin", "kind KIND; item NUMBER; bin BIN"},
	{"sets", "kind set; part KIND, before what is said of each of its pieces"},
	{"measures", "[left or right] MEASURE LENGTH [inches or centimetres]; MEASURE none"},
	{"lengths", "twenty one and a half; nine and three eighths; half an inch; ten point five"},
	{"flaws",
	 "flaw [small or large] FLAW [LENGTH, or times NUMBER] [left or right] [front, back, "
	 "inside or outside] [PART]; flaw none"},
	{"facts", "maker MAKER; maker spell hotel alfa lima; size TAG; size six to seven years; "
		  "size one sixteen centimetres; group GROUP; colour COLOUR; cloth [shell or "
		  "lining] PERCENT FIBRE, and more; pilling GRADE, five is best; colour change "
		  "GRADE; care CARE, and more; weight WEIGHT; cost MONEY; price MONEY; parcel "
		  "PARCEL; route ROUTE"},
	{"mending", "mending MEND [NUMBER minutes], and more, [materials MONEY]"},
	{"for every item", "keep bin BIN, keep maker MAKER and so on; keep nothing"},
	{"on no list", "maker other, flaw other and so on, then the word"},
	{"note", "note, then anything, until the pedal"},
	{"to and fro", "next; previous; open item NUMBER; these belong to item NUMBER; set aside"},
	{"take back", "twenty one, no, twenty two; no, twenty two; strike that; strike MEASURE; "
		      "strike flaw [FLAW] [PART]; restore"},
	{"ask", "repeat; read it all; what is missing; where am I; help [measures, flaws, parts, "
		"kinds or orders]"},
	{"be asked", "ask me; stop asking"},
	{"answer", "first or second; yes or no; or say it again"},
	{"rest", "pause; resume; hand over to PERSON"},
	{"pedal", "tap: next; two taps: repeat; hold until the cue: strike that; hold two seconds: "
		  "pause or resume"},
};

static const struct list_words lists[] = {
	{"KIND", LIST_KIND},	 {"MEASURE", LIST_MEASURE}, {"FLAW", LIST_FLAW},
	{"PART", LIST_PART},	 {"COLOUR", LIST_COLOUR},   {"FIBRE", LIST_FIBRE},
	{"TAG", LIST_TAG},	 {"GROUP", LIST_GROUP},	    {"CARE", LIST_CARE},
	{"MEND", LIST_MEND},	 {"MAKER", LIST_MAKER},	    {"ROUTE", LIST_ROUTE},
	{"PARCEL", LIST_PARCEL}, {"PERSON", LIST_PERSON},   {"BIN", LIST_BIN},
};

const struct call_words *
words_calls(int *count)
{
	*count = sizeof calls / sizeof *calls;
	return calls;
}

const struct list_words *
words_lists(int *count)
{
	*count = sizeof lists / sizeof *lists;
	return lists;
}
