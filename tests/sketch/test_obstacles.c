/* Lines of a sketch, found by where they lie: held against looking at each of them. */
#include "garment.h"

#include "obstacles.h"

static struct vocabulary *vocabulary;
static struct sketch_book *book;

static int
begin(void **state)
{
	return !shop_open(&vocabulary, &book);
}

static int
end(void **state)
{
	shop_close(vocabulary, book);
	return 0;
}

static int
in_box_one_by_one(const struct segments *segments, struct box box)
{
	int count = 0;
	for (int i = 0; i < segments->count; i++)
		count += box_meets_segment(box, segments->items[i]);
	return count;
}

static int
crossed_one_by_one(const struct segments *segments, struct segment segment)
{
	int count = 0;
	for (int i = 0; i < segments->count; i++)
		count += segments_cross(segments->items[i], segment);
	return count;
}

static void
check_segments(const struct segments *segments)
{
	assert_true(segments->count > 0);
	for (int x = 0; x < PICTURE_WIDTH; x += 23) {
		for (int y = 0; y < 400; y += 19) {
			struct box box = {x, y, 3 + x % 40, 2 + y % 30};
			struct segment segment = {{x, y}, {y, x / 2}};
			assert_int_equal(segments_in_box(segments, box),
					 in_box_one_by_one(segments, box));
			assert_int_equal(segments_crossed(segments, segment),
					 crossed_one_by_one(segments, segment));
		}
	}
}

static void
every_line_in_a_box_or_across_a_leader_is_found(void **state)
{
	struct problem problem;
	struct ruler *ruler = ruler_create();
	for (int i = 0; i < book->sketch_count; i++) {
		struct picture *picture = picture_create(book, vocabulary, book->sketches[i].kind,
							 NULL, ruler, &problem);
		struct obstacles obstacles;
		assert_non_null(picture);
		assert_true(obstacles_gather(&obstacles, picture));
		check_segments(&obstacles.edges);
		check_segments(&obstacles.details);
		obstacles_free(&obstacles);
		picture_destroy(picture);
	}
	ruler_destroy(ruler);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_line_in_a_box_or_across_a_leader_is_found),
	};
	return cmocka_run_group_tests(tests, begin, end);
}
