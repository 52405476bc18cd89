/* Whether somebody speaks: the shipped network in rooms made up here, and files that are none. */
#include "presence.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

static struct presence *
shipped(void)
{
	struct problem problem = {""};
	char path[4096];
	snprintf(path, sizeof path, "%s/presence.net", getenv("LAPEL_MODEL"));
	struct presence *presence = presence_read(path, &problem);
	assert_non_null(presence);
	return presence;
}

/* The highest chance over some frames of a room of about that level in all bands. */
static float
highest_chance(struct presence *presence, int frames, float level_db)
{
	float bands[BANDS], highest = 0;
	uint32_t random = 1;
	for (int i = 0; i < frames; i++) {
		for (int band = 0; band < BANDS; band++) {
			random = random * 1664525 + 1013904223;
			bands[band] = level_db + (float)(random >> 24) / 64 - 2;
		}
		highest = fmaxf(highest, presence_frame(presence, bands));
	}
	return highest;
}

static void
nobody_speaks_in_a_quiet_room(void **state)
{
	struct presence *presence = shipped();
	assert_true(highest_chance(presence, 3000, 36) < 0.5f);
	presence_destroy(presence);
}

static void
a_fan_that_is_switched_on_is_soon_the_room(void **state)
{
	struct presence *presence = shipped();
	highest_chance(presence, 500, 36);
	highest_chance(presence, 300, 56);
	assert_true(highest_chance(presence, 2000, 56) < 0.5f);
	presence_destroy(presence);
}

static void
afresh_it_says_the_same_again(void **state)
{
	struct presence *presence = shipped();
	float first = highest_chance(presence, 200, 50);
	presence_restart(presence);
	assert_true(first == highest_chance(presence, 200, 50));
	presence_destroy(presence);
}

static void
what_is_no_such_file_is_refused(void **state)
{
	char path[] = "/tmp/lapel-presence-XXXXXX";
	struct problem problem = {""};
	int fd = mkstemp(path);
	assert_true(fd >= 0);
	assert_int_equal(write(fd, "lapel presence 1\n1234", 21), 21);
	close(fd);
	assert_null(presence_read(path, &problem));
	assert_non_null(strstr(problem.text, "install lapel again"));
	unlink(path);
	assert_null(presence_read(path, &problem));
	assert_non_null(strstr(problem.text, "cannot be opened"));
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(nobody_speaks_in_a_quiet_room),
		cmocka_unit_test(a_fan_that_is_switched_on_is_soon_the_room),
		cmocka_unit_test(afresh_it_says_the_same_again),
		cmocka_unit_test(what_is_no_such_file_is_refused),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
