/* Where the desk listens. Inside desk/. */
#ifndef LAPEL_DESK_DOOR_H
#define LAPEL_DESK_DOOR_H

#include "problem.h"

enum { DOOR_ADDRESS_MAX = 80 };

/* A socket that listens at the address (figures, of IPv4 or IPv6) and the port (0: a free one); -1
 * with a problem that says what is in the way. */
int door_open(const char *address, int port, struct problem *problem);
int door_port(int door);

/* The address as it stands in one of the web: in brackets where it has colons; and for all
 * addresses of this machine one by which others reach it. */
void door_address(const char *address, char text[DOOR_ADDRESS_MAX]);

#endif
