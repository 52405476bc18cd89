/* Which input device is the pedal. */
#include "input_device.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <cmocka.h>

#define SWITCH PEDAL_SORT_SWITCH
#define READER PEDAL_SORT_READER

static void
a_device_fits_by_what_it_says_or_by_what_was_chosen(void **state)
{
	static const struct {
		struct input_device device;
		enum pedal_sort sort;
		const char *chosen;
		int fit;
	} rows[] = {
		{{"/dev/input/event5", "Foot Pedal", "1209", "0001", true, false}, SWITCH, "", 1},
		{{"/dev/input/event5", "USB FootSwitch", NULL, NULL, true, false}, SWITCH, NULL, 1},
		{{"/dev/input/event5", "USB Device", NULL, NULL, true, true}, SWITCH, "", 2},
		{{"/dev/input/event5", "Foot Pedal", "1209", "0001", true, false},
		 SWITCH,
		 "pedal",
		 1},
		{{"/dev/input/event5", "Foot Pedal", "1209", "0001", true, false},
		 SWITCH,
		 "1209:0001",
		 1},
		{{"/dev/input/event5", "Foot Pedal", "1209", "0001", true, false},
		 SWITCH,
		 "/dev/input/event5",
		 1},
		{{"/dev/input/event5", "Barcode Scanner", NULL, NULL, true, false}, READER, "", 1},
		{{"/dev/input/event5", "Office Keyboard", NULL, NULL, true, false}, SWITCH, "", 0},
		{{"/dev/input/event5", NULL, NULL, NULL, true, false}, SWITCH, "", 0},
		{{"/dev/input/event5", "Foot Pedal", "1209", "0001", true, false},
		 SWITCH,
		 "other",
		 0},
		{{"/dev/input/event5", "Foot Pedal", "1209", "0001", true, false},
		 SWITCH,
		 "/dev/input/event50",
		 0},
		{{"/dev/input/event5", "Foot Pedal", NULL, NULL, true, false}, READER, "", 0},
		{{"/dev/input/event5", "Foot Pedal", NULL, NULL, false, true}, SWITCH, "", 0},
		{{"/dev/input/mouse0", "Foot Pedal", NULL, NULL, true, true}, SWITCH, "", 0},
		{{NULL, "Foot Pedal", NULL, NULL, true, true}, SWITCH, "", 0},
	};
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		struct pedal_choice choice = {.sort = rows[i].sort, .device = rows[i].chosen};
		if (input_device_fit(&rows[i].device, &choice) != rows[i].fit)
			fail_msg("row %zu: want %d", i, rows[i].fit);
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_device_fits_by_what_it_says_or_by_what_was_chosen)};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
