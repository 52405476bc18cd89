#include "pedal.h"

#include "input_device.h"

#include <errno.h>
#include <fcntl.h>
#include <libevdev/libevdev.h>
#include <libudev.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/epoll.h>
#include <time.h>
#include <unistd.h>

enum { NAME_MAX_BYTES = 128, FILE_MAX_BYTES = 64, CLOCK_TOLERANCE_MS = 10000 };

/* One descriptor stands for all: an epoll that holds udev's announcements and the device, which
 * comes and goes. */
struct evdev_pedal {
	struct pedal pedal;
	struct pedal_choice choice;
	char wanted[NAME_MAX_BYTES]; /* of the choice */
	int epoll;
	struct udev *udev;
	struct udev_monitor *monitor;
	struct libevdev *device; /* NULL: it is not there */
	int descriptor;
	char file[FILE_MAX_BYTES], name[NAME_MAX_BYTES];
	bool kernel_time; /* events carry the time of CLOCK_MONOTONIC */
	bool dropped;	  /* the kernel lost events: the device is being asked for its state */
	bool going;	  /* it went: keys that are down are told as up */
	bool told_there;
	struct problem trouble;
};

static int64_t
now_ms(void)
{
	struct timespec now;
	clock_gettime(CLOCK_MONOTONIC, &now);
	return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static int
evdev_fd(struct pedal *pedal)
{
	return ((struct evdev_pedal *)pedal)->epoll;
}

static void
let_go(struct evdev_pedal *pedal)
{
	if (pedal->device != NULL) {
		epoll_ctl(pedal->epoll, EPOLL_CTL_DEL, pedal->descriptor, NULL);
		libevdev_free(pedal->device);
		close(pedal->descriptor);
	}
	pedal->device = NULL;
	pedal->name[0] = pedal->file[0] = '\0';
	pedal->dropped = pedal->going = pedal->told_there = false;
}

static bool
watch(struct evdev_pedal *pedal, int descriptor)
{
	struct epoll_event event = {.events = EPOLLIN};
	return epoll_ctl(pedal->epoll, EPOLL_CTL_ADD, descriptor, &event) == 0;
}

static const char *
sort_name(const struct evdev_pedal *pedal)
{
	return pedal->choice.sort == PEDAL_SORT_READER ? "bar-code reader" : "pedal";
}

static bool
open_file(struct evdev_pedal *pedal, const char *file)
{
	int descriptor = open(file, O_RDONLY | O_NONBLOCK | O_CLOEXEC);
	if (descriptor < 0)
		return errno == EACCES
			       ? problem_say(&pedal->trouble,
					     "the %s %s may not be read by this user: install "
					     "lapel's udev rule (70-lapel.rules) and plug it in "
					     "again, or join the group input",
					     sort_name(pedal), file)
			       : problem_say(&pedal->trouble, "the %s %s cannot be opened: %s",
					     sort_name(pedal), file, strerror(errno));
	int error = libevdev_new_from_fd(descriptor, &pedal->device);
	if (error < 0) {
		close(descriptor);
		pedal->device = NULL;
		return problem_say(&pedal->trouble, "the %s %s cannot be asked what it is: %s",
				   sort_name(pedal), file, strerror(-error));
	}
	pedal->descriptor = descriptor;
	pedal->kernel_time = libevdev_set_clock_id(pedal->device, CLOCK_MONOTONIC) == 0;
	snprintf(pedal->file, sizeof pedal->file, "%s", file);
	snprintf(pedal->name, sizeof pedal->name, "%s", libevdev_get_name(pedal->device));
	error = pedal->choice.grab ? libevdev_grab(pedal->device, LIBEVDEV_GRAB) : 0;
	if (error < 0)
		problem_say(&pedal->trouble, "the %s \"%.60s\" is held by another program: %s",
			    sort_name(pedal), pedal->name, strerror(-error));
	if (error < 0 || !watch(pedal, descriptor)) {
		let_go(pedal);
		return false;
	}
	pedal->trouble.text[0] = '\0';
	return true;
}

/* What udev knows of a device; its texts are the device's. */
static struct input_device
known_of(const struct evdev_pedal *pedal, struct udev_device *device)
{
	const char *mark = pedal->choice.sort == PEDAL_SORT_SWITCH ? "LAPEL_PEDAL" : "LAPEL_READER";
	struct udev_device *parent =
		udev_device_get_parent_with_subsystem_devtype(device, "input", NULL);
	struct input_device known = {
		.file = udev_device_get_devnode(device),
		.has_keys = udev_device_get_property_value(device, "ID_INPUT_KEY") != NULL ||
			    udev_device_get_property_value(device, "ID_INPUT_KEYBOARD") != NULL,
		.marked = udev_device_get_property_value(device, mark) != NULL};
	if (parent != NULL) {
		known.name = udev_device_get_sysattr_value(parent, "name");
		known.vendor = udev_device_get_sysattr_value(parent, "id/vendor");
		known.product = udev_device_get_sysattr_value(parent, "id/product");
	}
	return known;
}

static void
for_each_device(const struct evdev_pedal *pedal,
		void (*do_this)(const struct evdev_pedal *pedal, const struct input_device *known,
				void *user),
		void *user)
{
	struct udev_enumerate *all = udev_enumerate_new(pedal->udev);
	if (all == NULL)
		return;
	udev_enumerate_add_match_subsystem(all, "input");
	udev_enumerate_scan_devices(all);
	struct udev_list_entry *entry;
	udev_list_entry_foreach(entry, udev_enumerate_get_list_entry(all))
	{
		struct udev_device *device =
			udev_device_new_from_syspath(pedal->udev, udev_list_entry_get_name(entry));
		if (device == NULL)
			continue;
		struct input_device known = known_of(pedal, device);
		do_this(pedal, &known, user);
		udev_device_unref(device);
	}
	udev_enumerate_unref(all);
}

struct best {
	char file[FILE_MAX_BYTES];
	int fits; /* how well; 0: not at all */
};

static void
keep_best(const struct evdev_pedal *pedal, const struct input_device *known, void *user)
{
	struct best *best = user;
	int fits = input_device_fit(known, &pedal->choice);
	if (fits <= best->fits)
		return;
	best->fits = fits;
	snprintf(best->file, sizeof best->file, "%s", known->file);
}

/* Of all devices that are there, the one that fits best. */
static void
look_for_device(struct evdev_pedal *pedal)
{
	struct best best = {.fits = 0};
	for_each_device(pedal, keep_best, &best);
	if (best.fits > 0)
		open_file(pedal, best.file);
}

static void
add_other(const struct evdev_pedal *pedal, const struct input_device *known, void *user)
{
	char *text = user;
	size_t length = strlen(text);
	if (known->has_keys && known->name != NULL && known->file != NULL)
		snprintf(text + length, PEDAL_OTHERS_MAX - length, "%s\"%.40s\" (%s)",
			 length > 0 ? ", " : "", known->name, known->file);
}

void
pedal_evdev_others(const struct pedal *pedal, char text[PEDAL_OTHERS_MAX])
{
	text[0] = '\0';
	for_each_device((const struct evdev_pedal *)pedal, add_other, text);
}

/* What udev has to say: a device that fits came, or ours went. */
static void
hear_udev(struct evdev_pedal *pedal)
{
	struct udev_device *device;
	while ((device = udev_monitor_receive_device(pedal->monitor)) != NULL) {
		const char *action = udev_device_get_action(device);
		const char *file = udev_device_get_devnode(device);
		bool removed = action != NULL && strcmp(action, "remove") == 0;
		if (pedal->device != NULL && removed && file != NULL &&
		    strcmp(file, pedal->file) == 0)
			pedal->going = true;
		else if (pedal->device == NULL && !removed) {
			struct input_device known = known_of(pedal, device);
			if (input_device_fit(&known, &pedal->choice) > 0)
				open_file(pedal, file);
		}
		udev_device_unref(device);
	}
}

/* The first key that is down is told as up; false when there is none. */
static bool
lift_a_key(struct evdev_pedal *pedal, struct press *press)
{
	for (unsigned key = 0; key <= KEY_MAX; key++) {
		if (libevdev_get_event_value(pedal->device, EV_KEY, key) == 0)
			continue;
		libevdev_set_event_value(pedal->device, EV_KEY, key, 0);
		*press = (struct press){now_ms(), (int)key, false};
		return true;
	}
	return false;
}

static int64_t
time_of(const struct evdev_pedal *pedal, const struct input_event *event)
{
	int64_t now = now_ms();
	int64_t told = (int64_t)event->input_event_sec * 1000 + event->input_event_usec / 1000;
	bool believable = told <= now && now - told < CLOCK_TOLERANCE_MS;
	return pedal->kernel_time && believable ? told : now;
}

/* The next change of a key. After SYN_DROPPED the device is asked for its state, and what changed
 * meanwhile comes as events: a release that was missed is told as a release. */
static enum pedal_news
next_press(struct evdev_pedal *pedal, struct press *press)
{
	for (;;) {
		struct input_event event;
		int status = libevdev_next_event(pedal->device,
						 pedal->dropped ? LIBEVDEV_READ_FLAG_SYNC
								: LIBEVDEV_READ_FLAG_NORMAL,
						 &event);
		if (status == -EAGAIN && pedal->dropped) {
			pedal->dropped = false;
			continue;
		}
		if (status == -EAGAIN || status == -EINTR)
			return PEDAL_NONE;
		if (status < 0) { /* -ENODEV: it was pulled out */
			pedal->going = true;
			return PEDAL_NONE;
		}
		if (status == LIBEVDEV_READ_STATUS_SYNC)
			pedal->dropped = true;
		if (event.type != EV_KEY || (event.value != 0 && event.value != 1))
			continue; /* 2 is a key that repeats itself */
		*press = (struct press){time_of(pedal, &event), event.code, event.value == 1};
		return PEDAL_PRESS;
	}
}

static enum pedal_news
evdev_next(struct pedal *base, struct press *press)
{
	struct evdev_pedal *pedal = (struct evdev_pedal *)base;
	hear_udev(pedal);
	if (pedal->device == NULL)
		return PEDAL_NONE;
	if (!pedal->told_there) {
		pedal->told_there = true;
		return PEDAL_THERE;
	}
	if (!pedal->going && next_press(pedal, press) == PEDAL_PRESS)
		return PEDAL_PRESS;
	if (!pedal->going)
		return PEDAL_NONE;
	if (lift_a_key(pedal, press))
		return PEDAL_PRESS;
	let_go(pedal);
	/* It may be there again already, under another event number. */
	look_for_device(pedal);
	return PEDAL_GONE;
}

static void
evdev_close(struct pedal *base)
{
	struct evdev_pedal *pedal = (struct evdev_pedal *)base;
	let_go(pedal);
	udev_monitor_unref(pedal->monitor);
	udev_unref(pedal->udev);
	if (pedal->epoll >= 0)
		close(pedal->epoll);
	free(pedal);
}

static const struct pedal_functions evdev_functions = {"evdev", evdev_fd, evdev_next, evdev_close};

struct pedal *
pedal_evdev_open(const struct pedal_choice *choice, struct problem *problem)
{
	struct evdev_pedal *pedal = calloc(1, sizeof *pedal);
	if (pedal == NULL) {
		problem_say(problem, "cannot wait for the pedal: out of memory");
		return NULL;
	}
	pedal->pedal.functions = &evdev_functions;
	pedal->choice = *choice;
	snprintf(pedal->wanted, sizeof pedal->wanted, "%s",
		 choice->device == NULL ? "" : choice->device);
	pedal->choice.device = pedal->wanted;
	pedal->epoll = epoll_create1(EPOLL_CLOEXEC);
	pedal->udev = udev_new();
	/* The monitor listens before the devices are looked through: none slips between. */
	pedal->monitor =
		pedal->udev == NULL ? NULL : udev_monitor_new_from_netlink(pedal->udev, "udev");
	if (pedal->epoll < 0 || pedal->monitor == NULL ||
	    udev_monitor_filter_add_match_subsystem_devtype(pedal->monitor, "input", NULL) < 0 ||
	    udev_monitor_enable_receiving(pedal->monitor) < 0 ||
	    !watch(pedal, udev_monitor_get_fd(pedal->monitor))) {
		problem_say(problem, "cannot watch for the pedal: udev does not answer");
		evdev_close(&pedal->pedal);
		return NULL;
	}
	look_for_device(pedal);
	return &pedal->pedal;
}

const char *
pedal_evdev_device(const struct pedal *pedal)
{
	return ((const struct evdev_pedal *)pedal)->name;
}

const char *
pedal_evdev_trouble(const struct pedal *pedal)
{
	return ((const struct evdev_pedal *)pedal)->trouble.text;
}
