#include "door.h"

#include <arpa/inet.h>
#include <errno.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <stdio.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>

/* The length, 0 when the text is no address. */
static socklen_t
read_address(const char *text, int port, struct sockaddr_storage *address)
{
	struct sockaddr_in *in = (struct sockaddr_in *)address;
	struct sockaddr_in6 *in6 = (struct sockaddr_in6 *)address;
	memset(address, 0, sizeof *address);
	if (inet_pton(AF_INET, text, &in->sin_addr) == 1) {
		in->sin_family = AF_INET;
		in->sin_port = htons((uint16_t)port);
		return sizeof *in;
	}
	if (inet_pton(AF_INET6, text, &in6->sin6_addr) != 1)
		return 0;
	in6->sin6_family = AF_INET6;
	in6->sin6_port = htons((uint16_t)port);
	return sizeof *in6;
}

int
door_open(const char *address, int port, struct problem *problem)
{
	struct sockaddr_storage where;
	socklen_t length = read_address(address, port, &where);
	int on = 1;
	if (length == 0) {
		problem_say(problem, "\"%s\" is no address in figures, such as 127.0.0.1 or ::1",
			    address);
		return -1;
	}
	int door = socket(where.ss_family, SOCK_STREAM | SOCK_CLOEXEC | SOCK_NONBLOCK, 0);
	if (door >= 0 && setsockopt(door, SOL_SOCKET, SO_REUSEADDR, &on, sizeof on) == 0 &&
	    bind(door, (struct sockaddr *)&where, length) == 0 && listen(door, 32) == 0)
		return door;
	problem_say(problem, "%s, port %d cannot be listened on: %s", address, port,
		    strerror(errno));
	if (door >= 0)
		close(door);
	return -1;
}

int
door_port(int door)
{
	struct sockaddr_storage where;
	socklen_t length = sizeof where;
	if (getsockname(door, (struct sockaddr *)&where, &length) != 0)
		return 0;
	return ntohs(where.ss_family == AF_INET ? ((struct sockaddr_in *)&where)->sin_port
						: ((struct sockaddr_in6 *)&where)->sin6_port);
}

/* Of the first interface that others can reach; "127.0.0.1" when there is none. */
static void
find_outward(char text[DOOR_ADDRESS_MAX])
{
	struct ifaddrs *all = NULL;
	snprintf(text, DOOR_ADDRESS_MAX, "127.0.0.1");
	if (getifaddrs(&all) != 0)
		return;
	for (const struct ifaddrs *one = all; one != NULL; one = one->ifa_next) {
		if (one->ifa_addr == NULL || one->ifa_addr->sa_family != AF_INET ||
		    (one->ifa_flags & IFF_LOOPBACK) != 0 || (one->ifa_flags & IFF_UP) == 0)
			continue;
		inet_ntop(AF_INET, &((const struct sockaddr_in *)one->ifa_addr)->sin_addr, text,
			  DOOR_ADDRESS_MAX);
		break;
	}
	freeifaddrs(all);
}

void
door_address(const char *address, char text[DOOR_ADDRESS_MAX])
{
	if (strcmp(address, "0.0.0.0") == 0)
		find_outward(text);
	else if (strchr(address, ':') != NULL)
		snprintf(text, DOOR_ADDRESS_MAX, "[%s]", address);
	else
		snprintf(text, DOOR_ADDRESS_MAX, "%s", address);
}
