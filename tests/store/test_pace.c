/* How the work went, by day, from calls whose times are known. */
#include "pace.h"
#include "shop.h"

#include <stdlib.h>
#include <string.h>
#include <time.h>

static int
use_utc(void **state)
{
	setenv("TZ", "UTC", 1);
	tzset();
	return 0;
}

static struct pace_day
read_one_day(const struct shop *shop, const char *who)
{
	struct pace_day *days, day = {.day = ""};
	struct problem problem = {""};
	int count;
	if (!pace_read(shop->path, who, &days, &count, &problem))
		fail_msg("%s", problem.text);
	assert_in_range(count, 0, 1);
	if (count == 1)
		day = days[0];
	free(days);
	return day;
}

static void
a_day_has_its_items_its_calls_and_its_hours(void **state)
{
	struct shop shop;
	shop_set_up(&shop);
	struct call chest = say_measure("chest", "21"), length = say_measure("length", "28");
	shop.at_ms = 10000;
	assert_true(shop_write(&shop, &chest, "chest twenty one").stored);
	shop.at_ms = 14000;
	assert_true(shop_write(&shop, &length, "length twenty eight").stored);
	/* An hour's break counts as five minutes. */
	shop.at_ms = 14000 + 3600000;
	shop_next(&shop);
	struct pace_day day = read_one_day(&shop, NULL);
	assert_string_equal(day.day, "2026-11-25");
	assert_int_equal(day.items, 1);
	assert_int_equal(day.calls, 3);
	assert_int_equal(day.doubted, 0);
	assert_int_equal(day.refused, 0);
	assert_int_equal(day.struck, 0);
	assert_int_equal(day.worked_ms, 4000 + PACE_PAUSE_MS);
	shop_tear_down(&shop);
}

static void
a_session_after_midnight_belongs_to_both_days(void **state)
{
	struct shop shop;
	struct pace_day *days;
	int count;
	shop_set_up(&shop); /* at noon */
	struct call chest = say_measure("chest", "21"), length = say_measure("length", "28");
	shop.at_ms = 12 * 3600000 - 1;
	assert_true(shop_write(&shop, &chest, "chest twenty one").stored);
	shop.at_ms = 12 * 3600000;
	assert_true(shop_write(&shop, &length, "length twenty eight").stored);
	assert_true(pace_read(shop.path, NULL, &days, &count, NULL));
	assert_int_equal(count, 2);
	assert_string_equal(days[0].day, "2026-11-25");
	assert_string_equal(days[1].day, "2026-11-26");
	assert_int_equal(days[0].calls, 1);
	assert_int_equal(days[1].calls, 1);
	free(days);
	shop_tear_down(&shop);
}

static void
only_the_persons_own_sessions_are_counted_when_asked_for(void **state)
{
	struct shop shop;
	shop_set_up(&shop);
	struct call chest = say_measure("chest", "21");
	assert_true(store_begin_session(shop.store, SHOP_BEGAN_UNIX_MS, "Ines", NULL));
	assert_true(shop_write(&shop, &chest, "chest twenty one").stored);
	assert_int_equal(read_one_day(&shop, "Ines").calls, 1);
	assert_int_equal(read_one_day(&shop, "Tom").calls, 0);
	assert_int_equal(read_one_day(&shop, NULL).calls, 1);
	shop_tear_down(&shop);
}

static void
what_is_no_database_is_told(void **state)
{
	struct pace_day *days;
	struct problem problem = {""};
	int count;
	assert_false(pace_read("/nonexistent/a.db", NULL, &days, &count, &problem));
	assert_non_null(strstr(problem.text, "/nonexistent/a.db"));
	assert_null(days);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_day_has_its_items_its_calls_and_its_hours),
		cmocka_unit_test(a_session_after_midnight_belongs_to_both_days),
		cmocka_unit_test(only_the_persons_own_sessions_are_counted_when_asked_for),
		cmocka_unit_test(what_is_no_database_is_told),
	};
	return cmocka_run_group_tests(tests, use_utc, NULL);
}
