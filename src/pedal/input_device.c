#include "input_device.h"

#include <stdio.h>
#include <string.h>

/* Words in a device's name by which it says what it is. */
static const char *const switch_words[] = {"pedal", "foot switch", "footswitch", NULL};
static const char *const reader_words[] = {"barcode", "bar code", "bar-code", "scanner", NULL};

static bool
holds_one(const char *name, const char *const *words)
{
	for (; name != NULL && *words != NULL; words++)
		if (strcasestr(name, *words) != NULL)
			return true;
	return false;
}

static bool
is_chosen(const struct input_device *device, const char *wanted)
{
	char numbers[32];
	if (wanted[0] == '/')
		return strcmp(device->file, wanted) == 0;
	if (device->vendor != NULL && device->product != NULL) {
		snprintf(numbers, sizeof numbers, "%s:%s", device->vendor, device->product);
		if (strcasecmp(numbers, wanted) == 0)
			return true;
	}
	return device->name != NULL && strcasestr(device->name, wanted) != NULL;
}

int
input_device_fit(const struct input_device *device, const struct pedal_choice *choice)
{
	static const char prefix[] = "/dev/input/event";
	if (device->file == NULL || strncmp(device->file, prefix, strlen(prefix)) != 0)
		return 0;
	if (choice->device != NULL && choice->device[0] != '\0')
		return is_chosen(device, choice->device) && device->has_keys ? 1 : 0;
	if (!device->has_keys)
		return 0;
	if (device->marked)
		return 2;
	return holds_one(device->name,
			 choice->sort == PEDAL_SORT_SWITCH ? switch_words : reader_words)
		       ? 1
		       : 0;
}
