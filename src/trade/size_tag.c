#include "size_tag.h"

#include <stddef.h>
#include <string.h>

enum { UM_IN_CM = 10000, UM_IN_INCH = 25400 };

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

enum wearer
wearer_parse(const char *group)
{
	static const struct {
		const char *word;
		enum wearer wearer;
	} WORDS[] = {
		{"men", WEARER_MEN},
		{"mens", WEARER_MEN},
		{"men's", WEARER_MEN},
		{"women", WEARER_WOMEN},
		{"womens", WEARER_WOMEN},
		{"women's", WEARER_WOMEN},
		{"ladies", WEARER_WOMEN},
		{"children", WEARER_CHILDREN},
		{"childrens", WEARER_CHILDREN},
		{"children's", WEARER_CHILDREN},
		{"boys", WEARER_CHILDREN},
		{"girls", WEARER_CHILDREN},
		{"infants", WEARER_CHILDREN},
		{"baby", WEARER_CHILDREN},
		{"kids", WEARER_CHILDREN},
	};
	for (size_t i = 0; group != NULL && i < COUNT(WORDS); i++)
		if (strcmp(WORDS[i].word, group) == 0)
			return WORDS[i].wearer;
	return WEARER_UNSAID;
}

bool
size_is_childs(const char *size)
{
	static const char *const UNITS[] = {" years", " months", " cm"};
	size_t length = strlen(size);
	for (size_t i = 0; i < COUNT(UNITS); i++) {
		size_t unit = strlen(UNITS[i]);
		if (size[0] >= '0' && size[0] <= '9' && length > unit &&
		    strcmp(size + length - unit, UNITS[i]) == 0)
			return true;
	}
	return false;
}

/* EN 13402-3, body girths in cm: women's bust, men's chest. The standard itself was not seen: the
 * edges are as two public summaries have them. The women's L ends at 107, as in the documentation
 * of the CRAN package Anthropometry (bustSizesStandard: 74, 78 ... 102, 107, 113 ... 131); one
 * summary prints 106. XXS is from memory. */
static const struct letter {
	const char *size;
	int women_low, women_high, men_low, men_high;
} LETTERS[] = {
	{"extra extra small", 66, 74, 70, 78},
	{"extra small", 74, 82, 78, 86},
	{"small", 82, 90, 86, 94},
	{"medium", 90, 98, 94, 102},
	{"large", 98, 107, 102, 110},
	{"extra large", 107, 119, 110, 118},
	{"double extra large", 119, 131, 118, 129},
	{"triple extra large", 131, 143, 129, 141},
	{"four extra large", 143, 155, 141, 154},
	{"five extra large", 155, 167, 154, 166},
};

static bool
letter_body(const struct letter *letter, enum wearer wearer, struct span *girth)
{
	struct span women = {letter->women_low * UM_IN_CM, letter->women_high * UM_IN_CM};
	struct span men = {letter->men_low * UM_IN_CM, letter->men_high * UM_IN_CM};
	switch (wearer) {
	case WEARER_MEN:
		*girth = men;
		return true;
	case WEARER_WOMEN:
		*girth = women;
		return true;
	case WEARER_UNSAID:
		*girth = men;
		if (women.low_um < men.low_um)
			girth->low_um = women.low_um;
		if (women.high_um > men.high_um)
			girth->high_um = women.high_um;
		return true;
	case WEARER_CHILDREN: /* Their tags say an age or a height. */
		return false;
	}
	return false;
}

bool
size_body(const char *size, enum wearer wearer, struct span *girth)
{
	for (size_t i = 0; i < COUNT(LETTERS); i++)
		if (strcmp(LETTERS[i].size, size) == 0)
			return letter_body(&LETTERS[i], wearer, girth);
	return false;
}

const char *
size_of_body(int32_t girth_um, enum wearer wearer)
{
	struct span girth;
	if (wearer == WEARER_UNSAID)
		return NULL;
	for (size_t i = 0; i < COUNT(LETTERS); i++)
		if (letter_body(&LETTERS[i], wearer, &girth) && girth_um >= girth.low_um &&
		    girth_um < girth.high_um)
			return LETTERS[i].size;
	return NULL;
}

/* Ease is what a garment's girth has over the body's. No standard fixes it (EN 13402-2 leaves it to
 * the maker). Men 4 to 20 cm, women -5 (knits that stretch) to 15: from the handbooks (McCunn 5 to
 * 10; Craft Yarn Council, from none or negative for "very close" to 15 and more for "oversized").
 * What is worn over other things has up to 40 (from memory). */
enum { EASE_MEN_LOW = 4, EASE_MEN_HIGH = 20, EASE_WOMEN_LOW = -5, EASE_WOMEN_HIGH = 15 };
enum { EASE_OVER_HIGH = 40 };

static bool
worn_over(const char *kind)
{
	static const char *const KINDS[] = {"coat", "jacket", "blazer", "cardigan"};
	for (size_t i = 0; kind != NULL && i < COUNT(KINDS); i++)
		if (strcmp(KINDS[i], kind) == 0)
			return true;
	return false;
}

bool
size_chest(const char *size, enum wearer wearer, const char *kind, struct span *flat)
{
	struct span men, women;
	int men_high = worn_over(kind) ? EASE_OVER_HIGH : EASE_MEN_HIGH;
	int women_high = worn_over(kind) ? EASE_OVER_HIGH : EASE_WOMEN_HIGH;

	if (wearer == WEARER_CHILDREN || !size_body(size, WEARER_MEN, &men) ||
	    !size_body(size, WEARER_WOMEN, &women))
		return false;
	men.low_um = (men.low_um + EASE_MEN_LOW * UM_IN_CM) / 2;
	men.high_um = (men.high_um + men_high * UM_IN_CM) / 2;
	women.low_um = (women.low_um + EASE_WOMEN_LOW * UM_IN_CM) / 2;
	women.high_um = (women.high_um + women_high * UM_IN_CM) / 2;
	*flat = wearer == WEARER_WOMEN ? women : men;
	if (wearer == WEARER_UNSAID && women.low_um < men.low_um)
		flat->low_um = women.low_um;
	if (wearer == WEARER_UNSAID && women.high_um > men.high_um)
		flat->high_um = women.high_um;
	return true;
}

/* One or two digits at *text, which moves past them; 0 when there are none, or more. */
static int
inches(const char **text)
{
	int value = 0;
	size_t digits = strspn(*text, "0123456789");
	if (digits == 0 || digits > 2)
		return 0;
	while (digits-- > 0)
		value = 10 * value + *(*text)++ - '0';
	return value;
}

bool
size_pair(const char *size, int *waist_in, int *inseam_in)
{
	*waist_in = inches(&size);
	if (*size++ != 'x')
		return false;
	*inseam_in = inches(&size);
	return *size == '\0' && *waist_in > 0 && *inseam_in > 0;
}

/* Press tests of 2010 measured trousers tagged 36 in at 37 to 41, so 1 to 5 in over the tag;
 * exactly the tag is plausible too, and an inch of girth below it is the tape's own tolerance of
 * half an inch on the flat (trade habit, from memory). */
struct span
size_waist(int waist_in)
{
	return (struct span){(waist_in - 1) * UM_IN_INCH / 2, (waist_in + 5) * UM_IN_INCH / 2};
}

/* The second number is the product's own inner leg (background text to EN 13402, as summarised);
 * that two inches either way are past tape and washing is common practice, no source. */
struct span
size_inseam(int inseam_in)
{
	return (struct span){(inseam_in - 2) * UM_IN_INCH, (inseam_in + 2) * UM_IN_INCH};
}
