/* From the keys that a bar-code reader types to a label. */
#include "scan.h"

#include <linux/input-event-codes.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

/* Letters, digits and signs as keys; upper case with shift; '\n' Enter, '\t' Tab, '!' a key that is
 * in no label, '~' a second of waiting. */
static int
key_of(char typed)
{
	static const char row[] = "qwertyuiop";
	static const char home[] = "asdfghjkl";
	static const char bottom[] = "zxcvbnm";
	const char *at;
	if (typed >= 'A' && typed <= 'Z')
		typed = (char)(typed - 'A' + 'a');
	if (typed >= '1' && typed <= '9')
		return KEY_1 + (typed - '1');
	if ((at = strchr(row, typed)) != NULL)
		return KEY_Q + (int)(at - row);
	if ((at = strchr(home, typed)) != NULL)
		return KEY_A + (int)(at - home);
	if ((at = strchr(bottom, typed)) != NULL)
		return KEY_Z + (int)(at - bottom);
	switch (typed) {
	case '0':
		return KEY_0;
	case '-':
		return KEY_MINUS;
	case ' ':
		return KEY_SPACE;
	case '\n':
		return KEY_ENTER;
	case '\t':
		return KEY_TAB;
	default:
		return KEY_F5;
	}
}

static void
read_all(const char *typed, char *told, size_t size)
{
	struct scan scan = {.length = 0};
	char label[SCAN_LABEL_MAX];
	int64_t at_ms = 100;
	told[0] = '\0';
	for (; *typed != '\0'; typed++, at_ms += 5) {
		bool shift = *typed >= 'A' && *typed <= 'Z';
		if (*typed == '~') {
			at_ms += 1000;
			continue;
		}
		if (shift)
			assert_false(scan_key(&scan, KEY_LEFTSHIFT, true, at_ms, label));
		if (scan_key(&scan, key_of(*typed), true, at_ms, label)) {
			size_t length = strlen(told);
			snprintf(told + length, size - length, "<%s>", label);
		}
		assert_false(scan_key(&scan, key_of(*typed), false, at_ms + 2, label));
		if (shift)
			assert_false(scan_key(&scan, KEY_LEFTSHIFT, false, at_ms + 3, label));
	}
}

static void
what_the_reader_types_becomes_labels(void **state)
{
	static const struct {
		const char *typed, *want;
	} rows[] = {
		{"482\n", "<482>"},
		{"482\n1005\n", "<482><1005>"},
		{"482\t", "<482>"},
		{"tidewrack-482\n", "<tidewrack-482>"},
		{"TW482\n", "<tw482>"},
		{" 482 \n", "<482>"},
		{"4 82\n", "<4 82>"},
		{"\n\n", ""},
		{"   \n", ""},
		{"482", ""},
		{"48!2\n7\n", "<7>"},
		/* The rest of a scan whose beginning was typed long before. */
		{"48~2\n", "<2>"},
		{"4!8~2\n", "<2>"},
		{"000000000000000000000000000000000000000000000000000000000000000000000\n5\n",
		 "<5>"},
	};
	char told[256];
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		read_all(rows[i].typed, told, sizeof told);
		assert_string_equal(told, rows[i].want);
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {cmocka_unit_test(what_the_reader_types_becomes_labels)};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
