/* How a person sounds through a headset, kept from one session to the next, so that already the
 * first call of the day is heard with it. Nothing that was said can be made out of it. */
#ifndef LAPEL_COMMAND_WEARER_H
#define LAPEL_COMMAND_WEARER_H

#include "ears.h"

/* Gives the ears what was kept of this person with this headset; nothing where nothing was, or of
 * another headset. "" stands for whoever is not named, and for the usual headset. */
void wearer_recall(struct ears *ears, const char *who, const char *headset);

/* Keeps what the ears have learned, if they have. False when it cannot be written. */
bool wearer_keep(const struct ears *ears, const char *who, const char *headset,
		 struct problem *problem);

#endif
