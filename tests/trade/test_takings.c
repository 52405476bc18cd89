/* What is left in hand of a sale, and of a day's. The ways of charging are common practice, no
 * source. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "price.h"
#include "takings.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

enum { UNSAID = -1 };

static void
what_is_left_is_what_was_paid_less_what_it_cost(void **state)
{
	static const struct {
		struct takings_terms terms;
		int64_t paid, cost, postage;
		int64_t fee, postage_borne, left;
		int without_cost, without_postage;
	} ROWS[] = {
		/* nothing but the price */
		{{0, 0, false, false}, 1249, 300, 450, 0, 0, 949, 0, 0},
		/* 10 % and 0.30 */
		{{1000, 30, false, false}, 1249, 300, 450, 155, 0, 794, 0, 0},
		/* the percentage of price and postage: 10 % of 16.99 is 1.70 */
		{{1000, 30, true, false}, 1249, 300, 450, 200, 0, 749, 0, 0},
		/* the postage is in the price: it is ours to pay, and the fee is of the price */
		{{1000, 30, false, true}, 1249, 300, 450, 155, 450, 344, 0, 0},
		{{1000, 30, true, true}, 1249, 300, 450, 155, 450, 344, 0, 0},
		/* what is not known counts as nothing, and is told */
		{{1000, 30, false, false}, 1249, UNSAID, 450, 155, 0, 1094, 1, 0},
		{{1000, 30, false, false}, 1249, 300, UNSAID, 155, 0, 794, 0, 0},
		{{1000, 30, true, false}, 1249, 300, UNSAID, 155, 0, 794, 0, 1},
		{{0, 30, true, false}, 1249, 300, UNSAID, 30, 0, 919, 0, 0},
		{{1000, 30, false, true}, 1249, 300, UNSAID, 155, 0, 794, 0, 1},
		/* it may have cost more than it brought */
		{{1250, 0, false, false}, 500, 900, 0, 63, 0, -463, 0, 0},
	};
	for (size_t i = 0; i < COUNT(ROWS); i++) {
		struct money paid = {ROWS[i].paid, "EUR"}, cost = {ROWS[i].cost, "EUR"};
		struct money postage = {ROWS[i].postage, "EUR"};
		struct takings sale;
		assert_true(takings_of(&ROWS[i].terms, paid, ROWS[i].cost == UNSAID ? NULL : &cost,
				       ROWS[i].postage == UNSAID ? NULL : &postage, &sale));
		if (sale.fee_minor != ROWS[i].fee || sale.postage_minor != ROWS[i].postage_borne ||
		    sale.left_minor != ROWS[i].left)
			fail_msg("row %zu: fee %jd, left %jd", i, (intmax_t)sale.fee_minor,
				 (intmax_t)sale.left_minor);
		assert_int_equal(sale.items, 1);
		assert_int_equal(sale.without_cost, ROWS[i].without_cost);
		assert_int_equal(sale.without_postage, ROWS[i].without_postage);
		assert_string_equal(sale.currency, "EUR");
	}
}

static void
the_sum_of_a_day_is_the_sum_of_its_items(void **state)
{
	const struct takings_terms terms = {.fee_hundredths = 1050, .fee_fixed_minor = 7};
	struct takings day = {.items = 0};
	int64_t paid_minor = 0, left_minor = 0;
	for (int64_t minor = 1; minor <= 500; minor++) {
		struct money paid = {minor, "JPY"}, cost = {minor / 3, "JPY"};
		struct takings sale;
		assert_true(takings_of(&terms, paid, minor % 5 ? &cost : NULL, NULL, &sale));
		assert_int_equal(sale.paid_minor - sale.fee_minor - sale.cost_minor,
				 sale.left_minor);
		assert_true(takings_add(&day, &sale));
		paid_minor += minor;
		left_minor += sale.left_minor;
	}
	assert_int_equal(day.items, 500);
	assert_int_equal(day.without_cost, 100);
	assert_int_equal(day.without_postage, 0);
	assert_int_equal(day.paid_minor, paid_minor);
	assert_int_equal(day.left_minor, left_minor);
	assert_int_equal(day.left_minor, day.paid_minor - day.fee_minor - day.cost_minor);
	/* 10.5 % of the sum at once would be another figure: 13151 */
	assert_int_equal(day.fee_minor - 500 * 7, 13153);
}

static void
sums_of_different_currencies_are_refused(void **state)
{
	const struct takings_terms terms = {.fee_hundredths = 0};
	struct money dollars = {100, "USD"}, euros = {100, "EUR"};
	struct takings sale, other, sum = {.items = 0};
	assert_false(takings_of(&terms, dollars, &euros, NULL, &sale));
	assert_false(takings_of(&terms, dollars, NULL, &euros, &sale));
	assert_true(takings_of(&terms, dollars, NULL, NULL, &sale));
	assert_true(takings_of(&terms, euros, NULL, NULL, &other));
	assert_true(takings_add(&sum, &sale));
	assert_false(takings_add(&sum, &other));
	assert_int_equal(sum.items, 1);
	assert_int_equal(sum.paid_minor, 100);
}

static void
amounts_out_of_range_are_refused(void **state)
{
	static const struct takings_terms good = {.fee_hundredths = 1000};
	static const struct {
		struct takings_terms terms;
		int64_t paid, cost;
	} ROWS[] = {
		{{.fee_hundredths = 10001}, 100, 100}, {{.fee_hundredths = -1}, 100, 100},
		{{.fee_fixed_minor = -1}, 100, 100},   {{.fee_fixed_minor = INT64_MAX}, 100, 100},
		{{.fee_hundredths = 0}, -1, 100},      {{.fee_hundredths = 0}, INT64_MAX, 100},
		{{.fee_hundredths = 0}, 100, -1},      {{.fee_hundredths = 0}, 100, INT64_MIN},
	};
	struct takings sale = {.left_minor = 77}, sum = {.items = 0};
	for (size_t i = 0; i < COUNT(ROWS); i++) {
		struct money paid = {ROWS[i].paid, "USD"}, cost = {ROWS[i].cost, "USD"};
		assert_false(takings_of(&ROWS[i].terms, paid, &cost, NULL, &sale));
		assert_int_equal(sale.left_minor, 77);
	}
	/* The largest sale of all, added to itself until the sum is refused. */
	assert_true(takings_of(&good, (struct money){PRICE_MINOR_MAX, "USD"}, NULL, NULL, &sum));
	int doublings = 0;
	for (struct takings more = sum; takings_add(&sum, &more); more = sum)
		doublings++;
	assert_in_range(doublings, 10, 20);
	assert_int_equal(sum.items, INT64_C(1) << doublings);
	assert_int_equal(sum.paid_minor, PRICE_MINOR_MAX << doublings);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_is_left_is_what_was_paid_less_what_it_cost),
		cmocka_unit_test(the_sum_of_a_day_is_the_sum_of_its_items),
		cmocka_unit_test(sums_of_different_currencies_are_refused),
		cmocka_unit_test(amounts_out_of_range_are_refused),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
