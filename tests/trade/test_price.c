/* What is asked, so that the standing discount leaves what is wanted. That a discount is rounded
 * half-up to the minor unit, and the worked values, are common practice, no source. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "price.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

static struct money
dollars(int64_t minor)
{
	return (struct money){minor, "USD"};
}

/* Half-up by long hand: so much is kept of each unit, in hundredths, and half a unit counts as one.
 */
static int64_t
discounted_by_hand(int64_t minor, int discount_percent)
{
	int64_t hundredths = minor * (100 - discount_percent);
	int64_t whole = hundredths / 100, rest = hundredths % 100;
	return rest >= 50 ? whole + 1 : whole;
}

static void
asking_is_the_lowest_that_discounts_to_the_wanted_price(void **state)
{
	static const struct {
		const char *currency, *wanted, *asking, *one_less_gives;
		int discount;
	} ROWS[] = {
		{"USD", "12.49", "14.69", "12.48", 15}, {"USD", "12.49", "12.49", "12.48", 0},
		{"USD", "20.00", "25.00", "19.99", 20}, {"USD", "10.00", "19.99", "9.99", 50},
		{"USD", "0.01", "0.05", "0.00", 90},	{"JPY", "1200", "1500", "1199", 20},
		{"KWD", "1.250", "1.470", "1.249", 15},
	};
	for (size_t i = 0; i < COUNT(ROWS); i++) {
		struct money wanted, asking, paid;
		char text[32];
		assert_true(money_parse(ROWS[i].wanted, ROWS[i].currency, &wanted));
		assert_true(price_asking(wanted, ROWS[i].discount, &asking));
		money_format(asking, text, sizeof text);
		assert_string_equal(text, ROWS[i].asking);
		assert_string_equal(asking.currency, ROWS[i].currency);
		assert_true(price_discounted(asking, ROWS[i].discount, &paid));
		assert_int_equal(paid.minor, wanted.minor);
		asking.minor--;
		assert_true(price_discounted(asking, ROWS[i].discount, &paid));
		money_format(paid, text, sizeof text);
		assert_string_equal(text, ROWS[i].one_less_gives);
	}
}

/* Since what is paid never falls when more is asked, none lower gives the wanted price when the
 * next lower one gives less. */
static void
every_price_to_500_at_every_discount_to_90_percent(void **state)
{
	long checked = 0;
	for (int discount = 0; discount <= 90; discount++) {
		for (int64_t wanted = 1; wanted <= 50000; wanted++) {
			struct money asking, paid, less;
			bool good = price_asking(dollars(wanted), discount, &asking) &&
				    price_discounted(asking, discount, &paid) &&
				    price_discounted(dollars(asking.minor - 1), discount, &less);
			if (!good || paid.minor != wanted || less.minor >= wanted ||
			    paid.minor != discounted_by_hand(asking.minor, discount) ||
			    less.minor != discounted_by_hand(asking.minor - 1, discount))
				fail_msg("wanted %jd at %d %%: asks %jd, which gives %jd",
					 (intmax_t)wanted, discount, (intmax_t)asking.minor,
					 (intmax_t)paid.minor);
			checked++;
		}
	}
	assert_int_equal(checked, 91L * 50000);
}

/* The lowest of all: found by trying each from nothing up, for the smaller prices. */
static void
no_lower_price_does(void **state)
{
	for (int discount = 0; discount <= PRICE_DISCOUNT_MAX; discount++) {
		int64_t asking = 0;
		for (int64_t wanted = 0; wanted <= 60; wanted++) {
			struct money found;
			while (discounted_by_hand(asking, discount) < wanted)
				asking++;
			assert_true(price_asking(dollars(wanted), discount, &found));
			assert_int_equal(found.minor, asking);
		}
	}
}

static void
what_is_out_of_range_has_no_price(void **state)
{
	static const struct {
		struct money wanted;
		int discount;
		bool good;
	} ROWS[] = {
		{{0, "USD"}, 0, true},
		{{0, "USD"}, 99, true},
		{{PRICE_MINOR_MAX, "USD"}, 0, true},
		{{PRICE_MINOR_MAX, "USD"}, 1, false}, /* more would be asked than fits */
		{{PRICE_MINOR_MAX / 100, "USD"}, 99, true},
		{{PRICE_MINOR_MAX + 1, "USD"}, 0, false},
		{{INT64_MAX, "USD"}, 50, false},
		{{-1, "USD"}, 0, false},
		{{INT64_MIN, "USD"}, 0, false},
		{{100, "USD"}, 100, false}, /* nothing would be left */
		{{100, "USD"}, -1, false},
		{{100, "USD"}, INT32_MAX, false},
	};
	for (size_t i = 0; i < COUNT(ROWS); i++) {
		struct money asking = dollars(77), paid = dollars(77);
		if (price_asking(ROWS[i].wanted, ROWS[i].discount, &asking) != ROWS[i].good)
			fail_msg("row %zu", i);
		if (ROWS[i].good)
			continue;
		assert_int_equal(asking.minor, 77);
		if (ROWS[i].discount != 1)
			assert_false(price_discounted(ROWS[i].wanted, ROWS[i].discount, &paid));
		assert_int_equal(paid.minor, 77);
	}
}

static void
a_share_is_rounded_half_up(void **state)
{
	static const struct {
		int64_t minor;
		int hundredths;
		int64_t share; /* -1: none */
	} ROWS[] = {
		{1000, 1250, 125},
		{1249, 1250, 156}, /* 156.125 */
		{1249, 1000, 125}, /* 124.9 */
		{5, 1000, 1},	   /* 0.5 */
		{4, 1000, 0},
		{1850, 0, 0},
		{1850, 10000, 1850},
		{1850, 1, 0},
		{5000, 1, 1}, /* 0.5 */
		{0, 1250, 0},
		{PRICE_MINOR_MAX, 10000, PRICE_MINOR_MAX},
		{PRICE_MINOR_MAX, 5000, 500000000000000},
		{1, 10001, -1},
		{1, -1, -1},
		{-1, 1, -1},
		{INT64_MAX, 10000, -1},
	};
	for (size_t i = 0; i < COUNT(ROWS); i++) {
		int64_t share = -1;
		bool good = price_share(ROWS[i].minor, ROWS[i].hundredths, &share);
		if (share != ROWS[i].share || good != (share >= 0))
			fail_msg("%d hundredths of %jd: %jd", ROWS[i].hundredths,
				 (intmax_t)ROWS[i].minor, (intmax_t)share);
	}
}

static void
a_percentage_has_up_to_two_decimals(void **state)
{
	static const struct {
		const char *text;
		int hundredths; /* -1: none */
	} ROWS[] = {
		{"0", 0},	   {"12", 1200}, {"12.5", 1250}, {"12.55", 1255}, {"100", 10000},
		{"100.00", 10000}, {"0.01", 1},	 {"007", 700},	 {"100.01", -1},  {"101", -1},
		{"", -1},	   {".5", -1},	 {"12.", -1},	 {"12.555", -1},  {"-1", -1},
		{"12 %", -1},	   {" 12", -1},	 {"1e1", -1},	 {"12,5", -1},	  {"0000", -1},
		{"99999999", -1},
	};
	for (size_t i = 0; i < COUNT(ROWS); i++) {
		int hundredths = -1;
		bool good = price_percent_parse(ROWS[i].text, &hundredths);
		if (hundredths != ROWS[i].hundredths || good != (hundredths >= 0))
			fail_msg("\"%s\": %d", ROWS[i].text, hundredths);
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(asking_is_the_lowest_that_discounts_to_the_wanted_price),
		cmocka_unit_test(every_price_to_500_at_every_discount_to_90_percent),
		cmocka_unit_test(no_lower_price_does),
		cmocka_unit_test(what_is_out_of_range_has_no_price),
		cmocka_unit_test(a_share_is_rounded_half_up),
		cmocka_unit_test(a_percentage_has_up_to_two_decimals),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
