/* What was written of a garment, and what can be taken back. */
#include "record.h"
#include "vocabulary.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static struct record record, other, copy;
static struct deed deed;
static int64_t stored_calls, stored_entries;

static int
fresh(void **state)
{
	record_init(&record);
	record_init(&other);
	stored_calls = stored_entries = 0;
	return 0;
}

static struct call
measure(const char *name, int halves)
{
	struct call call = {.type = CALL_MEASURE, .has_length = true};
	snprintf(call.name, sizeof(call.name), "%s", name);
	call.length = (struct length){halves, 2, LENGTH_INCH};
	return call;
}

static struct call
named(enum call_type type, const char *name, const char *part)
{
	struct call call = {.type = type, .none = type == CALL_FLAW && name[0] == '\0'};
	snprintf(call.name, sizeof(call.name), "%s", name);
	snprintf(call.part, sizeof(call.part), "%s", part);
	return call;
}

static void
stored(struct record *of, const struct deed *done)
{
	int64_t first = stored_entries + 1;
	for (int f = 0; f < done->flip_count; f++)
		stored_entries += of->entries[done->flips[f].entry].id == 0;
	record_stored(of, ++stored_calls, first);
}

static void
write(struct call call)
{
	assert_true(record_write(&record, &call, false, &deed));
	stored(&record, &deed);
}

/* What stands, one entry after another: "chest 21/2; flaw hole hem". */
static const char *
standing(const struct record *of)
{
	static char text[4096];
	size_t used = 0;
	text[0] = '\0';
	for (int i = 0; i < of->entry_count; i++) {
		const struct call *said = &of->entries[i].said;
		if (!of->entries[i].stands)
			continue;
		const char *gap = used ? "; " : "";
		if (said->type == CALL_MEASURE)
			used += (size_t)snprintf(text + used, sizeof(text) - used, "%s%s %d", gap,
						 said->name, said->length.numerator);
		else if (said->type == CALL_FLAW)
			used += (size_t)snprintf(text + used, sizeof(text) - used, "%sflaw %s%s%s",
						 gap, said->none ? "none" : said->name,
						 said->part[0] ? " " : "", said->part);
		else
			used += (size_t)snprintf(text + used, sizeof(text) - used, "%s%s", gap,
						 said->name);
	}
	return text;
}

static void
a_reading_said_again_replaces_the_one_before(void **state)
{
	write(measure("chest", 42));
	write(measure("length", 56));
	write(measure("chest", 44));
	assert_string_equal(standing(&record), "length 56; chest 44");
	assert_int_equal(record_ended(&record, &deed)->said.length.numerator, 42);
	assert_int_equal(record_began(&record, &deed)->said.length.numerator, 44);
	assert_int_equal(record_reading(&record, "chest")->id, 3);
	assert_int_equal(record_reading(&record, "chest")->call, 3);
	assert_null(record_reading(&record, "waist"));
}

static void
a_fact_said_again_replaces_the_one_before(void **state)
{
	write(named(CALL_MAKER, "marlock", ""));
	write(named(CALL_COLOUR, "navy", ""));
	write(named(CALL_MAKER, "hallowick", ""));
	assert_string_equal(standing(&record), "navy; hallowick");
	assert_string_equal(record_slot(&record, CALL_MAKER)->said.name, "hallowick");
	assert_null(record_slot(&record, CALL_ROUTE));
}

static void
flaws_add_up_and_none_gives_way_to_the_first(void **state)
{
	struct call none = named(CALL_FLAW, "", "");
	write(none);
	assert_int_equal(record_flaw_count(&record), 0);
	write(named(CALL_FLAW, "hole", "hem"));
	write(named(CALL_FLAW, "stain", "cuff"));
	assert_string_equal(standing(&record), "flaw hole hem; flaw stain cuff");
	assert_int_equal(record_flaw_count(&record), 2);
	assert_false(record_write(&record, &none, false, &deed));
	assert_string_equal(standing(&record), "flaw hole hem; flaw stain cuff");
}

static void
a_corrected_call_withdraws_the_one_before_it(void **state)
{
	struct call collar = named(CALL_FLAW, "hole", "collar"), waist = measure("waist", 42);
	write(named(CALL_FLAW, "stain", "hem"));
	write(named(CALL_FLAW, "hole", "cuff"));
	assert_true(record_correct(&record, &collar, false, &deed));
	stored(&record, &deed);
	assert_string_equal(standing(&record), "flaw stain hem; flaw hole collar");
	assert_true(record_strike_last(&record, &deed));
	stored(&record, &deed);
	assert_string_equal(standing(&record), "flaw stain hem; flaw hole cuff");

	write(measure("chest", 40));
	write(measure("chest", 42));
	assert_true(record_correct(&record, &waist, false, &deed));
	stored(&record, &deed);
	assert_string_equal(standing(&record),
			    "flaw stain hem; flaw hole cuff; chest 40; waist 42");
	assert_true(record_strike_last(&record, &deed));
	assert_string_equal(standing(&record), "flaw stain hem; flaw hole cuff; chest 42");
	assert_true(record_restore(&record, &deed));
	assert_string_equal(standing(&record),
			    "flaw stain hem; flaw hole cuff; chest 40; waist 42");
	waist.length.numerator = 43;
	assert_true(record_correct(&record, &waist, false, &deed));
	assert_string_equal(standing(&record),
			    "flaw stain hem; flaw hole cuff; chest 40; waist 43");
	assert_int_equal(deed.flip_count, 2);
}

static void
kept_facts_stay_when_the_call_they_came_with_is_struck(void **state)
{
	struct call maker = named(CALL_MAKER, "marlock", ""),
		    bin = {.type = CALL_BIN, .label = "12"};
	struct call chest = measure("chest", 42);
	assert_true(record_write(&record, &chest, false, &deed));
	assert_true(record_keep(&record, &maker, 71, &deed));
	assert_true(record_keep(&record, &bin, 72, &deed));
	assert_false(record_keep(&record, &bin, 72, &deed));
	assert_int_equal(deed.flip_count, 3);
	record_stored(&record, 80, 10);
	assert_int_equal(record_reading(&record, "chest")->id, 10);
	assert_int_equal(record_reading(&record, "chest")->call, 80);
	assert_int_equal(record_slot(&record, CALL_MAKER)->id, 11);
	assert_int_equal(record_slot(&record, CALL_BIN)->call, 72);

	assert_true(record_strike_last(&record, &deed));
	assert_string_equal(standing(&record), "marlock; ");
	assert_false(record_strike_last(&record, &deed));
	assert_true(record_restore(&record, &deed));
	assert_string_equal(standing(&record), "chest 42; marlock; ");
	assert_true(record_strike_measure(&record, "chest", &deed));
	stored(&record, &deed);
	assert_true(record_restore(&record, &deed));
	stored(&record, &deed);

	assert_true(record_move_out(&record, 0, &deed));
	assert_string_equal(standing(&record), "marlock; ");
}

static void
kept_facts_leave_with_the_call_that_could_not_be_stored(void **state)
{
	struct call maker = named(CALL_MAKER, "marlock", ""), chest = measure("chest", 42);
	assert_true(record_write(&record, &chest, false, &deed));
	assert_true(record_keep(&record, &maker, 71, &deed));
	record_unstored(&record);
	assert_true(record_empty(&record));
	assert_int_equal(record.entry_count, 0);
}

static void
strike_that_undoes_exactly_the_last_and_brings_back_what_it_replaced(void **state)
{
	write(measure("chest", 42));
	write(measure("chest", 44));
	write(measure("length", 56));
	assert_true(record_strike_last(&record, &deed));
	assert_string_equal(standing(&record), "chest 44");
	assert_true(record_strike_last(&record, &deed));
	assert_string_equal(standing(&record), "chest 42");
	assert_int_equal(record_began(&record, &deed)->said.length.numerator, 42);
	assert_true(record_strike_last(&record, &deed));
	assert_true(record_empty(&record));
	assert_false(record_strike_last(&record, &deed));
}

static void
restore_undoes_strikes_from_the_last_back(void **state)
{
	write(measure("chest", 42));
	write(measure("chest", 44));
	assert_true(record_strike_last(&record, &deed));
	assert_true(record_strike_last(&record, &deed));
	assert_true(record_restore(&record, &deed));
	assert_string_equal(standing(&record), "chest 42");
	assert_true(record_restore(&record, &deed));
	assert_string_equal(standing(&record), "chest 44");
	assert_false(record_restore(&record, &deed));
	assert_true(record_strike_last(&record, &deed));
	assert_string_equal(standing(&record), "chest 42");
}

static void
restore_brings_back_what_was_struck_even_over_a_later_reading(void **state)
{
	write(measure("chest", 42));
	assert_true(record_strike_last(&record, &deed));
	write(measure("chest", 46));
	assert_true(record_restore(&record, &deed));
	assert_string_equal(standing(&record), "chest 42");
	assert_true(record_strike_last(&record, &deed));
	assert_string_equal(standing(&record), "chest 46");
}

static void
strike_measure_strikes_the_one_that_is_named(void **state)
{
	write(measure("chest", 40));
	write(measure("chest", 42));
	write(measure("length", 56));
	assert_true(record_strike_measure(&record, "chest", &deed));
	assert_string_equal(standing(&record), "chest 40; length 56");
	assert_true(record_strike_last(&record, &deed));
	assert_string_equal(standing(&record), "chest 40");
	assert_true(record_strike_measure(&record, "chest", &deed));
	assert_false(record_strike_measure(&record, "chest", &deed));
	assert_false(record_strike_measure(&record, "waist", &deed));
}

static struct call
which(const char *flaw, const char *part)
{
	struct call call = {.type = CALL_ORDER, .order = ORDER_STRIKE, .name = "flaw"};
	snprintf(call.flaw, sizeof(call.flaw), "%s", flaw);
	snprintf(call.part, sizeof(call.part), "%s", part);
	return call;
}

static bool
strike_flaw(const char *flaw, const char *part)
{
	struct call call = which(flaw, part);
	return record_strike_flaw(&record, &call, &deed);
}

static void
strike_flaw_strikes_the_last_at_that_part(void **state)
{
	write(named(CALL_FLAW, "hole", "hem"));
	write(named(CALL_FLAW, "stain", "hem"));
	write(named(CALL_FLAW, "hole", "cuff"));
	assert_false(strike_flaw("", "collar"));
	assert_true(strike_flaw("", "hem"));
	assert_string_equal(standing(&record), "flaw hole hem; flaw hole cuff");
	assert_true(strike_flaw("hole", ""));
	assert_string_equal(standing(&record), "flaw hole hem");
	assert_true(strike_flaw("", ""));
	assert_true(record_empty(&record));
}

static void
a_struck_flaw_does_not_bring_back_none_beside_another_flaw(void **state)
{
	write(named(CALL_FLAW, "", ""));
	write(named(CALL_FLAW, "hole", "hem"));
	write(named(CALL_FLAW, "stain", "cuff"));
	assert_true(strike_flaw("hole", ""));
	assert_string_equal(standing(&record), "flaw stain cuff");
	assert_true(record_restore(&record, &deed));
	assert_string_equal(standing(&record), "flaw hole hem; flaw stain cuff");
	assert_true(record_strike_last(&record, &deed));
	assert_true(record_strike_last(&record, &deed));
	assert_true(record_strike_last(&record, &deed) || record_flaw_count(&record) == 0);
}

static void
a_deed_that_could_not_be_stored_leaves_no_trace(void **state)
{
	struct call chest = measure("chest", 50);
	write(measure("chest", 42));
	write(measure("length", 56));
	copy = record;
	assert_true(record_write(&record, &chest, false, &deed));
	record_unstored(&record);
	assert_memory_equal(&record.deeds, &copy.deeds, (size_t)2 * sizeof(copy.deeds[0]));
	assert_string_equal(standing(&record), "chest 42; length 56");
	assert_int_equal(record.entry_count, copy.entry_count);

	assert_true(record_strike_last(&record, &deed));
	record_unstored(&record);
	assert_string_equal(standing(&record), "chest 42; length 56");
	assert_false(record.deeds[1].undone);

	assert_true(record_strike_last(&record, &deed));
	stored(&record, &deed);
	assert_true(record_restore(&record, &deed));
	record_unstored(&record);
	assert_string_equal(standing(&record), "chest 42");
	assert_true(record_restore(&record, &deed));
	assert_string_equal(standing(&record), "chest 42; length 56");
}

static void
what_steers_is_not_written(void **state)
{
	struct call next = {.type = CALL_ORDER, .order = ORDER_NEXT};
	struct call bare = measure("", 42);
	struct call yes = {.type = CALL_ANSWER, .choice = 1};
	assert_false(record_write(&record, &next, false, &deed));
	assert_false(record_write(&record, &bare, false, &deed));
	assert_false(record_write(&record, &yes, false, &deed));
	assert_int_equal(record.deed_count, 0);
}

static void
a_full_record_refuses_and_keeps_what_it_has(void **state)
{
	struct call chest = measure("chest", 42);
	while (record_has_room(&record))
		write(measure("chest", record.entry_count));
	assert_int_equal(record.entry_count, RECORD_ENTRIES_MAX);
	assert_false(record_write(&record, &chest, false, &deed));
	assert_string_equal(standing(&record), "chest 255");
	assert_true(record_strike_last(&record, &deed));
	assert_string_equal(standing(&record), "chest 254");
}

static void
a_record_is_rebuilt_from_its_entries_and_deeds(void **state)
{
	write(measure("chest", 42));
	write(measure("chest", 44));
	write(named(CALL_FLAW, "hole", "hem"));
	assert_true(record_strike_measure(&record, "chest", &deed));
	stored(&record, &deed);
	assert_true(record_restore(&record, &deed));
	stored(&record, &deed);
	assert_true(record_strike_last(&record, &deed));
	stored(&record, &deed);

	record_init(&copy);
	for (int i = 0; i < record.entry_count; i++)
		assert_true(record_load_entry(&copy, &record.entries[i]));
	for (int i = 0; i < record.deed_count; i++)
		assert_true(record_load_deed(&copy, &record.deeds[i]));
	for (int i = 0; i < record.entry_count; i++)
		assert_int_equal(record.entries[i].stands, copy.entries[i].stands);
	for (int i = 0; i < record.deed_count; i++)
		assert_int_equal(record.deeds[i].undone, copy.deeds[i].undone);
}

static void
a_damaged_deed_is_not_loaded(void **state)
{
	struct deed beyond = {
		.type = DEED_WROTE, .target = -1, .flip_count = 1, .flips = {{7, true}}};
	struct deed forward = {.type = DEED_STRUCK, .target = 3};
	struct deed many = {.type = DEED_WROTE, .target = -1, .flip_count = DEED_FLIPS_MAX + 1};
	assert_false(record_load_deed(&record, &beyond));
	assert_false(record_load_deed(&record, &forward));
	assert_false(record_load_deed(&record, &many));
}

static void
what_was_dictated_to_the_wrong_item_moves_whole(void **state)
{
	struct deed out;
	write(measure("chest", 40));
	write(named(CALL_ITEM, "", ""));
	int since = record.deed_count;
	write(measure("chest", 42));
	write(measure("length", 56));
	write(measure("length", 57));
	write(named(CALL_FLAW, "hole", "hem"));
	assert_true(record_move_out(&record, since, &out));
	assert_string_equal(standing(&record), "chest 40; ");

	struct call none = named(CALL_FLAW, "", "");
	assert_true(record_write(&other, &none, false, &deed));
	stored(&other, &deed);
	assert_true(record_move_in(&other, &record, &out, &deed));
	assert_string_equal(standing(&other), "chest 42; length 57; flaw hole hem");
	stored(&other, &deed);
	assert_int_equal(record_reading(&other, "chest")->call, 3);
	assert_int_not_equal(record_reading(&other, "chest")->id, 3);

	assert_true(record_strike_measure(&other, "length", &deed));
	assert_string_equal(standing(&other), "chest 42; flaw hole hem");
	assert_true(record_restore(&other, &deed));
	assert_string_equal(standing(&other), "chest 42; length 57; flaw hole hem");
}

static void
nothing_dictated_is_nothing_to_move(void **state)
{
	write(measure("chest", 40));
	assert_false(record_move_out(&record, record.deed_count, &deed));
	assert_string_equal(standing(&record), "chest 40");
}

static void
a_move_that_could_not_be_stored_is_taken_back_on_both_sides(void **state)
{
	struct deed out;
	write(measure("chest", 40));
	write(measure("length", 50));
	assert_true(record_move_out(&record, 1, &out));
	assert_true(record_move_in(&other, &record, &out, &deed));
	record_unstored(&other);
	record_unstored(&record);
	assert_string_equal(standing(&record), "chest 40; length 50");
	assert_true(record_empty(&other));
	assert_int_equal(other.entry_count, 0);
}

static void
the_kind_says_which_measures_are_missing(void **state)
{
	struct vocabulary *vocabulary = vocabulary_create();
	int missing[TERM_MEASURES_MAX];
	assert_true(vocabulary_read(vocabulary, LIST_MEASURE, "measures.txt",
				    "chest || flat\nlength || straight\nsleeve || straight\n",
				    NULL));
	assert_true(vocabulary_read(vocabulary, LIST_KIND, "kinds.txt",
				    "shirt || chest, sleeve, length |\n", NULL));
	write(measure("chest", 40));
	assert_int_equal(record_missing(&record, vocabulary, missing), 0);
	write(named(CALL_KIND, "shirt", ""));
	assert_int_equal(record_missing(&record, vocabulary, missing), 2);
	assert_string_equal(vocabulary_term(vocabulary, LIST_MEASURE, missing[0])->name, "sleeve");
	assert_string_equal(vocabulary_term(vocabulary, LIST_MEASURE, missing[1])->name, "length");
	struct call none = {.type = CALL_MEASURE, .name = "sleeve", .none = true};
	write(none);
	assert_int_equal(record_missing(&record, vocabulary, missing), 1);
	vocabulary_destroy(vocabulary);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup(a_reading_said_again_replaces_the_one_before, fresh),
		cmocka_unit_test_setup(a_fact_said_again_replaces_the_one_before, fresh),
		cmocka_unit_test_setup(flaws_add_up_and_none_gives_way_to_the_first, fresh),
		cmocka_unit_test_setup(a_corrected_call_withdraws_the_one_before_it, fresh),
		cmocka_unit_test_setup(kept_facts_stay_when_the_call_they_came_with_is_struck,
				       fresh),
		cmocka_unit_test_setup(kept_facts_leave_with_the_call_that_could_not_be_stored,
				       fresh),
		cmocka_unit_test_setup(
			strike_that_undoes_exactly_the_last_and_brings_back_what_it_replaced,
			fresh),
		cmocka_unit_test_setup(restore_undoes_strikes_from_the_last_back, fresh),
		cmocka_unit_test_setup(
			restore_brings_back_what_was_struck_even_over_a_later_reading, fresh),
		cmocka_unit_test_setup(strike_measure_strikes_the_one_that_is_named, fresh),
		cmocka_unit_test_setup(strike_flaw_strikes_the_last_at_that_part, fresh),
		cmocka_unit_test_setup(a_struck_flaw_does_not_bring_back_none_beside_another_flaw,
				       fresh),
		cmocka_unit_test_setup(a_deed_that_could_not_be_stored_leaves_no_trace, fresh),
		cmocka_unit_test_setup(what_steers_is_not_written, fresh),
		cmocka_unit_test_setup(a_full_record_refuses_and_keeps_what_it_has, fresh),
		cmocka_unit_test_setup(a_record_is_rebuilt_from_its_entries_and_deeds, fresh),
		cmocka_unit_test_setup(a_damaged_deed_is_not_loaded, fresh),
		cmocka_unit_test_setup(what_was_dictated_to_the_wrong_item_moves_whole, fresh),
		cmocka_unit_test_setup(nothing_dictated_is_nothing_to_move, fresh),
		cmocka_unit_test_setup(a_move_that_could_not_be_stored_is_taken_back_on_both_sides,
				       fresh),
		cmocka_unit_test_setup(the_kind_says_which_measures_are_missing, fresh),
	};
	return cmocka_run_group_tests_name("record", tests, NULL, NULL);
}
