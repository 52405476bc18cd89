/* The devices of device/, as umockdev takes them: the pedal, or the same hardware as a bar-code
 * reader, under any event number. */
#ifndef LAPEL_TESTS_DEVICE_FILES_H
#define LAPEL_TESTS_DEVICE_FILES_H

#include <glib.h>
#include <glib/gstdio.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <umockdev.h>

/* By this a program takes the device for one with keys. */
#define DEVICE_HAS_KEYS "E: ID_INPUT_KEY=1\nE: ID_INPUT_KEYBOARD=1\n"

static inline void
device_syspath(int number, char path[256])
{
	snprintf(path, 256,
		 "/sys/devices/pci0000:00/0000:00:14.0/usb1/1-1/1-1:1.0/0003:1209:0001.0001/"
		 "input/input%d/event%d",
		 number, number);
}

/* The text of a file of device/ as if the device were event `number`, without its keys; NULL when
 * it is not there. The caller frees it by g_free. */
static inline char *
device_text(const char *name, int number, bool reader)
{
	char path[4096], event[16], input[16], minor[16], node[16], *text = NULL;
	snprintf(path, sizeof path, "%s/device/%s", getenv("LAPEL_TESTS"), name);
	if (!g_file_get_contents(path, &text, NULL, NULL))
		return NULL;
	GString *changed = g_string_new(text);
	snprintf(event, sizeof event, "event%d", number);
	snprintf(input, sizeof input, "input%d", number);
	snprintf(minor, sizeof minor, "MINOR=%d", 64 + number);
	snprintf(node, sizeof node, "13:%d", 64 + number);
	g_string_replace(changed, "event5", event, 0);
	g_string_replace(changed, "input5", input, 0);
	g_string_replace(changed, "MINOR=69", minor, 0);
	g_string_replace(changed, "13:69", node, 0);
	g_string_replace(changed, DEVICE_HAS_KEYS, "", 0);
	if (reader) { /* a name of as many letters, as the answers of the device have it too */
		g_string_replace(changed, "Foot Pedal", "Barcode GT", 0);
		g_string_replace(changed, "466F6F7420506564616C", "426172636F6465204754", 0);
	}
	g_free(text);
	return g_string_free(changed, FALSE);
}

/* Plugs the device in; `scratch` is a file for what umockdev reads from one, and `events`, which
 * may be NULL, what the device will have to tell. umockdev announces a device as soon as it is
 * added, and one that is opened then, before its events are loaded, never tells them: so it gets
 * its keys last, and is announced anew. */
static inline bool
device_plug_in(UMockdevTestbed *testbed, int number, bool reader, const char *events,
	       const char *scratch)
{
	char node[32], path[256];
	char *device = device_text("pedal.umockdev", number, reader);
	char *answers = device_text("pedal.ioctl", number, reader);
	snprintf(node, sizeof node, "/dev/input/event%d", number);
	bool plugged = device != NULL && answers != NULL &&
		       umockdev_testbed_add_from_string(testbed, device, NULL) &&
		       g_file_set_contents(scratch, answers, -1, NULL) &&
		       umockdev_testbed_load_ioctl(testbed, node, scratch, NULL);
	if (plugged && events != NULL)
		plugged = g_file_set_contents(scratch, events, -1, NULL) &&
			  umockdev_testbed_load_evemu_events(testbed, node, scratch, NULL);
	device_syspath(number, path);
	if (plugged) {
		umockdev_testbed_set_property(testbed, path, "ID_INPUT_KEY", "1");
		umockdev_testbed_uevent(testbed, path, "add");
	}
	g_free(device);
	g_free(answers);
	return plugged;
}

/* As in a kernel the file goes before the announcement: whoever looks for a pedal then does not
 * find the one that went. */
static inline void
device_pull_out(UMockdevTestbed *testbed, int number)
{
	char path[256];
	device_syspath(number, path);
	char *root = umockdev_testbed_get_root_dir(testbed);
	char *node = g_strdup_printf("%s/dev/input/event%d", root, number);
	g_remove(node);
	g_free(node);
	g_free(root);
	umockdev_testbed_uevent(testbed, path, "remove");
	umockdev_testbed_remove_device(testbed, path);
}

#endif
