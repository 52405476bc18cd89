/* What is pointed at and struck, replaced, or taken back. */
#include "record_undo.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static struct record record;
static struct deed deed;
static int64_t calls, entries;

static int
fresh(void **state)
{
	record_init(&record);
	calls = entries = 0;
	return 0;
}

static int64_t
stored(void)
{
	int64_t first = entries + 1;
	for (int f = 0; f < deed.flip_count; f++)
		entries += record.entries[deed.flips[f].entry].id == 0;
	record_stored(&record, ++calls, first);
	return calls;
}

static struct call
measure(const char *name, int inches)
{
	struct call call = {.type = CALL_MEASURE, .has_length = true};
	snprintf(call.name, sizeof call.name, "%s", name);
	call.length = (struct length){inches, 1, LENGTH_INCH};
	return call;
}

static struct call
flaw(const char *name)
{
	struct call call = {.type = CALL_FLAW, .none = name[0] == '\0'};
	snprintf(call.name, sizeof call.name, "%s", name);
	return call;
}

static int64_t
write(struct call call)
{
	assert_true(record_write(&record, &call, false, &deed));
	return stored();
}

/* "chest 21, flaw hole" in the order of the record. */
static const char *
standing(void)
{
	static char text[300];
	text[0] = '\0';
	for (int i = 0; i < record.entry_count; i++) {
		const struct call *said = &record.entries[i].said;
		size_t length = strlen(text);
		if (!record.entries[i].stands)
			continue;
		snprintf(text + length, sizeof text - length, "%s%s", length > 0 ? ", " : "",
			 said->type == CALL_FLAW ? "flaw " : "");
		length = strlen(text);
		snprintf(text + length, sizeof text - length, "%s", said->name);
		length = strlen(text);
		if (said->type == CALL_MEASURE)
			snprintf(text + length, sizeof text - length, " %d",
				 (int)said->length.numerator);
	}
	return text;
}

static void
an_entry_that_is_struck_gives_way_to_what_it_had_replaced(void **state)
{
	write(measure("chest", 21));
	write(measure("chest", 22));
	write(measure("waist", 17));
	assert_true(record_strike_entry(&record, record_standing(&record, 2), &deed));
	stored();
	assert_string_equal(standing(), "chest 21, waist 17");
	assert_int_equal(record_standing(&record, 2), -1);
	assert_int_equal(record_standing(&record, 99), -1);
}

static void
what_was_taken_for_another_measure_is_replaced_by_it(void **state)
{
	write(measure("chest", 21));
	write(measure("waist", 17));
	struct call hip = measure("hip", 21);
	assert_true(record_replace(&record, 0, &hip, true, &deed));
	int64_t call = stored();
	assert_string_equal(standing(), "waist 17, hip 21");
	assert_true(record_undo(&record, call, &deed));
	stored();
	assert_string_equal(standing(), "chest 21, waist 17");
}

static void
one_flaw_is_replaced_and_the_others_stay(void **state)
{
	write(flaw("hole"));
	write(flaw("stain"));
	struct call tear = flaw("tear");
	assert_true(record_replace(&record, 0, &tear, false, &deed));
	stored();
	assert_string_equal(standing(), "flaw stain, flaw tear");
	/* "None" is not written beside flaws, and is in the place of the only one. */
	struct call none = flaw("");
	assert_false(record_replace(&record, 1, &none, false, &deed));
	assert_true(record_strike_entry(&record, 1, &deed));
	stored();
	assert_true(record_replace(&record, 2, &none, false, &deed));
}

static void
whatever_a_call_did_is_taken_back(void **state)
{
	int64_t first = write(measure("chest", 21)), second = write(measure("chest", 22));
	assert_true(record_undo(&record, second, &deed));
	int64_t undo = stored();
	assert_string_equal(standing(), "chest 21");
	assert_false(record_undo(&record, second, &deed)); /* twice is once */
	assert_true(record_undo(&record, undo, &deed));
	stored();
	assert_string_equal(standing(), "chest 22");
	/* A strike, too. */
	assert_true(record_strike_measure(&record, "chest", &deed));
	int64_t strike = stored();
	assert_true(record_undo(&record, strike, &deed));
	stored();
	assert_string_equal(standing(), "chest 22");
	/* What others went on from stays. */
	assert_false(record_undo(&record, first, &deed));
	assert_false(record_undo(&record, 99, &deed));
	assert_string_equal(standing(), "chest 22");
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup(an_entry_that_is_struck_gives_way_to_what_it_had_replaced,
				       fresh),
		cmocka_unit_test_setup(what_was_taken_for_another_measure_is_replaced_by_it, fresh),
		cmocka_unit_test_setup(one_flaw_is_replaced_and_the_others_stay, fresh),
		cmocka_unit_test_setup(whatever_a_call_did_is_taken_back, fresh),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
