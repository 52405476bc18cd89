#include "desk_inside.h"

#include "door.h"
#include "follow.h"
#include "guard.h"
#include "request.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum {
	CONNECTIONS_MAX = 64,
	CONNECTION_MEMORY = 128 * 1024, /* of one: its headers, and a piece of its answer */
	SECONDS_MAX = 20,		/* without a byte */
	LOOK_MS = 150,			/* how often it is looked whether anybody wrote */
	FIRST_MS = 1500,		/* of following them, before the first answer */
	PAUSE_MS = 6, /* when there is more, for the station to have the records */
	TURN_MS = 8   /* of following the records, between two answers */
};

int64_t
desk_now_ms(void)
{
	struct timespec now;
	clock_gettime(CLOCK_REALTIME, &now);
	return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

int64_t
desk_monotonic_ms(void)
{
	struct timespec now;
	clock_gettime(CLOCK_MONOTONIC, &now);
	return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static bool
open_records(struct desk *desk, struct problem *problem)
{
	desk->store = store_open(desk->setting.db, problem);
	if (desk->store == NULL)
		return false;
	desk->review = review_open(desk->store, problem);
	return desk->review != NULL && follow_begin(desk, problem);
}

static bool
open_door(struct desk *desk, struct problem *problem)
{
	int door = door_open(desk->setting.address, desk->setting.port, problem);
	if (door < 0)
		return false;
	desk->port = door_port(door);
	desk->daemon = MHD_start_daemon(
		MHD_USE_EPOLL | MHD_ALLOW_SUSPEND_RESUME | MHD_USE_TURBO, 0, NULL, NULL,
		request_handle, desk, MHD_OPTION_LISTEN_SOCKET, door, MHD_OPTION_CONNECTION_LIMIT,
		(unsigned)CONNECTIONS_MAX, MHD_OPTION_CONNECTION_MEMORY_LIMIT,
		(size_t)CONNECTION_MEMORY, MHD_OPTION_CONNECTION_TIMEOUT, (unsigned)SECONDS_MAX,
		MHD_OPTION_NOTIFY_COMPLETED, request_finish, NULL, MHD_OPTION_END);
	if (desk->daemon != NULL)
		return true;
	close(door);
	return problem_say(problem, "the server cannot be started");
}

static bool
write_address(struct desk *desk, struct problem *problem)
{
	char address[DOOR_ADDRESS_MAX];
	door_address(desk->setting.address, address);
	if (desk->setting.key != NULL)
		snprintf(desk->key, sizeof desk->key, "%s", desk->setting.key);
	else if (!guard_make_secret(desk->key, sizeof desk->key))
		return problem_say(problem, "the system gives no random numbers for a key");
	snprintf(desk->cookie, sizeof desk->cookie, "lapel-%d", desk->port);
	snprintf(desk->address, sizeof desk->address, "http://%s:%d/?key=%s", address, desk->port,
		 desk->key);
	return true;
}

struct desk *
desk_open(const struct desk_setting *setting, struct problem *problem)
{
	struct desk *desk = calloc(1, sizeof *desk);
	if (desk == NULL) {
		problem_say(problem, "the memory is full");
		return NULL;
	}
	desk->setting = *setting;
	desk->typed = (struct typed_setting){.vocabulary = setting->vocabulary,
					     .unit = setting->rows->unit};
	memcpy(desk->typed.currency, setting->rows->currency, sizeof desk->typed.currency);
	if (open_records(desk, problem) && open_door(desk, problem) &&
	    write_address(desk, problem)) {
		follow(desk, FIRST_MS);
		return desk;
	}
	desk_close(desk);
	return NULL;
}

void
desk_close(struct desk *desk)
{
	if (desk == NULL)
		return;
	events_end(&desk->events);
	if (desk->daemon != NULL) {
		MHD_run(desk->daemon); /* those that wait for events are told the end */
		MHD_stop_daemon(desk->daemon);
	}
	review_close(desk->review);
	store_close(desk->store);
	writeup_finish(&desk->writeup);
	free(desk);
}

const char *
desk_address(const struct desk *desk)
{
	return desk->address;
}

int
desk_fd(const struct desk *desk)
{
	return MHD_get_daemon_info(desk->daemon, MHD_DAEMON_INFO_EPOLL_FD)->epoll_fd;
}

int
desk_wait_ms(const struct desk *desk)
{
	MHD_UNSIGNED_LONG_LONG server_ms;
	int wait_ms = desk->follow_more ? PAUSE_MS : LOOK_MS;
	if (MHD_get_timeout(desk->daemon, &server_ms) == MHD_YES &&
	    server_ms < (MHD_UNSIGNED_LONG_LONG)wait_ms)
		wait_ms = (int)server_ms;
	return wait_ms;
}

void
desk_turn(struct desk *desk)
{
	MHD_run(desk->daemon);
	int64_t now_ms = desk_monotonic_ms();
	if ((desk->follow_more || now_ms - desk->looked_ms >= LOOK_MS) && follow_is_due(desk))
		follow(desk, TURN_MS);
	events_keep_up(&desk->events, now_ms);
}
