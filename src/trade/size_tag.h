/* What the size on a tag lets one expect of the tape. */
#ifndef LAPEL_TRADE_SIZE_TAG_H
#define LAPEL_TRADE_SIZE_TAG_H

#include <stdbool.h>
#include <stdint.h>

/* Whom a garment is made for. */
enum wearer { WEARER_UNSAID, WEARER_MEN, WEARER_WOMEN, WEARER_CHILDREN };

/* "men", "womens", "girls", "baby" ...; WEARER_UNSAID for NULL and for words that tell nothing. */
enum wearer wearer_parse(const char *group);

/* Whether the size is a child's age or height: "6 to 7 years", "12 months", "116 cm". */
bool size_is_childs(const char *size);

/* From low on and below high: a body girth of 102 cm is no M any more, but an L. */
struct span {
	int32_t low_um, high_um;
};

/* The body girth that a lettered size is meant for (men's chest, women's bust), after EN 13402-3;
 * `size` is a name of LIST_TAG ("medium", "extra large"). Of a wearer who is not said, from the
 * lower to the higher of both. False for children, and when the size is no letter code. */
bool size_body(const char *size, enum wearer wearer, struct span *girth);

/* The letter code of a body girth, "medium"; NULL when none, and for a wearer that is not said. */
const char *size_of_body(int32_t girth_um, enum wearer wearer);

/* The flat chest that goes with a lettered size: half the body girth with the ease that garments of
 * this kind (NULL or empty: not known) have. False as above. */
bool size_chest(const char *size, enum wearer wearer, const char *kind, struct span *flat);

/* "32x30": inches of waist and of inside leg. False when it is no such pair, or no trousers'. */
bool size_pair(const char *size, int *waist_in, int *inseam_in);

/* The flat waist that goes with a tag of so many inches, from low to high with both: waist tags are
 * nominal. And the inside leg that goes with its second number. */
struct span size_waist(int waist_in);
struct span size_inseam(int inseam_in);

#endif
