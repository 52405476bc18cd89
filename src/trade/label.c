#include "label.h"
#include "number.h"

#include <stdio.h>
#include <string.h>

/* One number of a label: a cardinal with "hundred" or "thousand" in it stands alone, groups are
 * joined as written. "twenty one" is always the group 21: to be 201, a label is said "two oh one".
 * What is neither ("four eighty two hundred", "one hundred oh five") is no label. */
static int
number_read(const struct words *words, int at, char label[LABEL_MAX])
{
	int value = 0;
	int used = number_cardinal(words, at, &value);
	if (value >= 100) {
		if (number_goes_on(words, at + used))
			return 0;
		snprintf(label, LABEL_MAX, "%d", value);
		return used;
	}
	size_t length = 0;
	used = 0;
	for (;;) {
		int group = number_digit(words, at + used, true, &value);
		if (group == 0)
			group = number_below_hundred(words, at + used, &value);
		if (group == 0)
			break;
		used += group;
		length += (size_t)snprintf(label + length, LABEL_MAX - length, "%d", value);
		if (length >= LABEL_MAX)
			return 0;
	}
	return number_goes_on(words, at + used) ? 0 : used;
}

int
label_read(const struct words *words, int at, bool by_too, char label[LABEL_MAX])
{
	char first[LABEL_MAX] = "", second[LABEL_MAX] = "";
	int used = number_read(words, at, first);
	if (used == 0)
		return 0;
	if (by_too && words_is(words, at + used, "by")) {
		int more = number_read(words, at + used + 1, second);
		if (strlen(first) + 1 + strlen(second) >= LABEL_MAX)
			return 0;
		if (more > 0) {
			used += 1 + more;
			strcat(strcat(first, "x"), second);
		}
	}
	strcpy(label, first);
	return used;
}

static void
say_digit(char digit, char *text, size_t size)
{
	char word[16];
	number_say(digit - '0', word, sizeof word);
	words_append(text, size, digit == '0' ? "oh" : word);
}

/* Two digits after others: "oh seven", "fifteen". */
static void
say_pair(const char *pair, char *text, size_t size)
{
	char word[32];
	if (pair[0] == '0') {
		say_digit(pair[0], text, size);
		say_digit(pair[1], text, size);
		return;
	}
	number_say(10 * (pair[0] - '0') + pair[1] - '0', word, sizeof word);
	words_append(text, size, word);
}

static void
say_digits(const char *digits, int length, char *text, size_t size)
{
	char word[64] = "";
	int value = 0;
	for (int i = 0; i < length && i < 4; i++)
		value = 10 * value + digits[i] - '0';
	bool cardinal = length == 1 || (length == 3 && value % 100 == 0) ||
			(length == 4 && value % 1000 == 0);

	if (length > 4 || (length > 1 && digits[0] == '0')) {
		for (int i = 0; i < length; i++)
			say_digit(digits[i], text, size);
	} else if (cardinal) {
		number_say(value, word, sizeof word);
		words_append(text, size, word);
	} else if (length == 4 && value % 100 == 0) {
		number_say(value / 100, word, sizeof word);
		words_append(text, size, word);
		words_append(text, size, "hundred");
	} else {
		if (length == 3)
			say_digit(digits[0], text, size);
		for (int i = length % 2; i < length; i += 2)
			say_pair(digits + i, text, size);
	}
}

void
label_say(const char *label, char *text, size_t size)
{
	int first = (int)strspn(label, "0123456789");
	const char *by = label + first;
	int second = *by == 'x' ? (int)strspn(by + 1, "0123456789") : 0;
	bool whole = first > 0 && *by == '\0';
	bool pair = first > 0 && second > 0 && by[1 + second] == '\0';

	if (size == 0)
		return;
	text[0] = '\0';
	if (!whole && !pair) {
		words_append(text, size, label);
		return;
	}
	say_digits(label, first, text, size);
	if (pair) {
		words_append(text, size, "by");
		say_digits(by + 1, second, text, size);
	}
}
