/* The pedal through libevdev and udev, on a device that umockdev plays. */
#include "device_files.h"
#include "pedal.h"

#include <errno.h>
#include <libevdev/libevdev.h>
#include <poll.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

/* umockdev answers a device that went with EAGAIN; the kernel's ENODEV is put in its place. */
static bool pulled_out;
int __real_libevdev_next_event(struct libevdev *device, unsigned flags, struct input_event *event);
int __wrap_libevdev_next_event(struct libevdev *device, unsigned flags, struct input_event *event);

int
__wrap_libevdev_next_event(struct libevdev *device, unsigned flags, struct input_event *event)
{
	return pulled_out ? -ENODEV : __real_libevdev_next_event(device, flags, event);
}

struct room {
	UMockdevTestbed *testbed;
	char scratch_path[64];
};

/* Plugs the pedal in as event `number`; `events` is what it will have to tell. */
static void
plug_in(struct room *room, int number, const char *events)
{
	assert_true(device_plug_in(room->testbed, number, false, events, room->scratch_path));
}

static void
pull_out(struct room *room, int number)
{
	device_pull_out(room->testbed, number);
}

static int
enter(void **state)
{
	struct room *room = calloc(1, sizeof *room);
	pulled_out = false;
	strcpy(room->scratch_path, "/tmp/lapel-events-XXXXXX");
	int descriptor = mkstemp(room->scratch_path);
	if (descriptor < 0)
		return -1;
	close(descriptor);
	room->testbed = umockdev_testbed_new();
	*state = room;
	return 0;
}

static int
leave(void **state)
{
	struct room *room = *state;
	g_object_unref(room->testbed);
	unlink(room->scratch_path);
	free(room);
	return 0;
}

/* The next thing that the pedal has to tell, waited for by its descriptor. */
static enum pedal_news
await(struct pedal *pedal, struct press *press)
{
	enum { PATIENCE_MS = 5000, STEP_MS = 100 };
	for (int waited = 0; waited <= PATIENCE_MS; waited += STEP_MS) {
		enum pedal_news news = pedal_next(pedal, press);
		struct pollfd descriptor = {.fd = pedal_fd(pedal), .events = POLLIN};
		if (news != PEDAL_NONE)
			return news;
		poll(&descriptor, 1, STEP_MS);
	}
	return PEDAL_NONE;
}

static void
assert_press(struct pedal *pedal, bool down)
{
	struct press press = {0};
	assert_int_equal(await(pedal, &press), PEDAL_PRESS);
	assert_int_equal(press.key, KEY_B);
	assert_int_equal(press.down, down);
}

static struct pedal *
open_pedal(const char *device)
{
	struct problem problem = {""};
	struct pedal_choice choice = {PEDAL_SORT_SWITCH, device, true};
	struct pedal *pedal = pedal_evdev_open(&choice, &problem);
	if (pedal == NULL)
		fail_msg("%s", problem.text);
	return pedal;
}

static const char tap[] = "E: 0.000000 0004 0004 458757\nE: 0.000000 0001 0030 1\n"
			  "E: 0.000000 0000 0000 0\nE: 0.120000 0001 0030 0\n"
			  "E: 0.120000 0000 0000 0\n";

static void
a_pedal_is_found_and_its_presses_are_told(void **state)
{
	struct press press;
	plug_in(*state, 5, tap);
	struct pedal *pedal = open_pedal(NULL);
	assert_int_equal(await(pedal, &press), PEDAL_THERE);
	assert_string_equal(pedal_evdev_device(pedal), "Foot Pedal");
	assert_string_equal(pedal_evdev_trouble(pedal), "");
	assert_press(pedal, true);
	assert_press(pedal, false);
	pedal_close(pedal);
}

static void
keys_that_repeat_themselves_are_one_press(void **state)
{
	struct press press;
	plug_in(*state, 5,
		"E: 0.000000 0001 0030 1\nE: 0.000000 0000 0000 0\n"
		"E: 0.030000 0001 0030 2\nE: 0.030000 0000 0000 0\n"
		"E: 0.060000 0001 0030 2\nE: 0.060000 0000 0000 0\n"
		"E: 0.090000 0001 0030 0\nE: 0.090000 0000 0000 0\n");
	struct pedal *pedal = open_pedal("1209:0001");
	assert_int_equal(await(pedal, &press), PEDAL_THERE);
	assert_press(pedal, true);
	assert_press(pedal, false);
	pedal_close(pedal);
}

static void
a_release_that_the_kernel_dropped_is_told_as_a_release(void **state)
{
	struct press press;
	plug_in(*state, 5,
		"E: 0.000000 0001 0030 1\nE: 0.000000 0000 0000 0\n"
		"E: 0.050000 0000 0003 0\nE: 0.050000 0000 0000 0\n"
		"E: 0.200000 0001 0030 1\nE: 0.200000 0000 0000 0\n");
	struct pedal *pedal = open_pedal("pedal");
	assert_int_equal(await(pedal, &press), PEDAL_THERE);
	assert_press(pedal, true);
	assert_press(pedal, false); /* the device's own state, when asked, was up */
	assert_press(pedal, true);
	pedal_close(pedal);
}

static void
a_pedal_that_is_plugged_in_later_is_found(void **state)
{
	struct press press;
	struct pedal *pedal = open_pedal(NULL);
	assert_int_equal(pedal_next(pedal, &press), PEDAL_NONE);
	assert_string_equal(pedal_evdev_device(pedal), "");
	plug_in(*state, 5, tap);
	assert_int_equal(await(pedal, &press), PEDAL_THERE);
	assert_press(pedal, true);
	assert_press(pedal, false);
	pedal_close(pedal);
}

static void
a_pedal_that_is_chosen_by_another_name_is_not_taken(void **state)
{
	struct press press;
	plug_in(*state, 5, tap);
	struct pedal *pedal = open_pedal("other");
	assert_int_equal(pedal_next(pedal, &press), PEDAL_NONE);
	assert_string_equal(pedal_evdev_device(pedal), "");
	pedal_close(pedal);
}

static void
a_pedal_that_udev_removes_is_gone_and_returns_under_another_number(void **state)
{
	struct press press;
	plug_in(*state, 5, "E: 0.000000 0001 0030 1\nE: 0.000000 0000 0000 0\n");
	struct pedal *pedal = open_pedal(NULL);
	assert_int_equal(await(pedal, &press), PEDAL_THERE);
	assert_press(pedal, true);
	pull_out(*state, 5);
	assert_press(pedal, false); /* nobody's foot is on a pedal that is not there */
	assert_int_equal(await(pedal, &press), PEDAL_GONE);
	assert_string_equal(pedal_evdev_device(pedal), "");
	plug_in(*state, 6, tap);
	assert_int_equal(await(pedal, &press), PEDAL_THERE);
	assert_press(pedal, true);
	assert_press(pedal, false);
	pedal_close(pedal);
}

static void
a_pedal_whose_reading_fails_is_gone(void **state)
{
	struct press press;
	plug_in(*state, 5, "E: 0.000000 0001 0030 1\nE: 0.000000 0000 0000 0\n");
	struct pedal *pedal = open_pedal(NULL);
	assert_int_equal(await(pedal, &press), PEDAL_THERE);
	assert_press(pedal, true);
	pull_out(*state, 5);
	pulled_out = true;
	assert_press(pedal, false);
	assert_int_equal(await(pedal, &press), PEDAL_GONE);
	pulled_out = false;
	plug_in(*state, 6, tap);
	assert_int_equal(await(pedal, &press), PEDAL_THERE);
	assert_press(pedal, true);
	pedal_close(pedal);
}

static void
what_could_have_been_meant_is_told(void **state)
{
	struct pedal_choice choice = {PEDAL_SORT_SWITCH, "no such", true};
	char others[PEDAL_OTHERS_MAX];
	plug_in(*state, 5, NULL);
	struct pedal *pedal = pedal_evdev_open(&choice, NULL);
	assert_string_equal(pedal_evdev_device(pedal), "");
	pedal_evdev_others(pedal, others);
	assert_string_equal(others, "\"Foot Pedal\" (/dev/input/event5)");
	pull_out(*state, 5);
	pedal_evdev_others(pedal, others);
	assert_string_equal(others, "");
	pedal_close(pedal);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(what_could_have_been_meant_is_told, enter, leave),
		cmocka_unit_test_setup_teardown(a_pedal_is_found_and_its_presses_are_told, enter,
						leave),
		cmocka_unit_test_setup_teardown(keys_that_repeat_themselves_are_one_press, enter,
						leave),
		cmocka_unit_test_setup_teardown(
			a_release_that_the_kernel_dropped_is_told_as_a_release, enter, leave),
		cmocka_unit_test_setup_teardown(a_pedal_that_is_plugged_in_later_is_found, enter,
						leave),
		cmocka_unit_test_setup_teardown(a_pedal_that_is_chosen_by_another_name_is_not_taken,
						enter, leave),
		cmocka_unit_test_setup_teardown(
			a_pedal_that_udev_removes_is_gone_and_returns_under_another_number, enter,
			leave),
		cmocka_unit_test_setup_teardown(a_pedal_whose_reading_fails_is_gone, enter, leave),
	};
	const char *preloaded = getenv("LD_PRELOAD");
	if (preloaded == NULL || strstr(preloaded, "umockdev") == NULL) {
		fputs("run it by umockdev-wrapper\n", stderr);
		return 77;
	}
	return cmocka_run_group_tests(tests, NULL, NULL);
}
