/* The sketches that are shipped: each kind has one, and its tapes and parts lie where they should.
 *
 * Where a tape lies follows measures.txt, which names its sources; that the wearer's left is at the
 * viewer's right on a garment that lies face up is geometry. */
#include "garment.h"

#include <math.h>

/* In centimetres of the sketch, which is a garment of middle size. */
#define ON_THE_OUTLINE 0.5
#define AT_THE_GARMENT 1.5

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

static const struct term *
kind_at(int index)
{
	return vocabulary_term(vocabulary, LIST_KIND, index);
}

static void
every_kind_has_a_sketch(void **state)
{
	for (int i = 0; i < vocabulary_count(vocabulary, LIST_KIND); i++)
		if (sketch_find(book, kind_at(i)->name) == NULL)
			fail_msg("%s", kind_at(i)->name);
}

static void
every_sketch_is_of_a_kind_and_its_names_are_on_the_lists(void **state)
{
	for (int i = 0; i < book->sketch_count; i++) {
		const struct sketch *sketch = &book->sketches[i];
		if (vocabulary_find(vocabulary, LIST_KIND, sketch->kind) < 0)
			fail_msg("%s", sketch->kind);
		for (int k = 0; k < sketch->tape_count; k++)
			if (vocabulary_find(vocabulary, LIST_MEASURE, sketch->tapes[k].measure) < 0)
				fail_msg("%s, %s", sketch->kind, sketch->tapes[k].measure);
		for (int k = 0; k < sketch->part_count; k++)
			if (vocabulary_find(vocabulary, LIST_PART, sketch->parts[k].name) < 0)
				fail_msg("%s, %s", sketch->kind, sketch->parts[k].name);
	}
	for (int i = 0; i < book->how_count; i++) {
		const struct how *how = &book->hows[i];
		if (vocabulary_find(vocabulary, LIST_MEASURE, how->measure) < 0 ||
		    (how->kind[0] != '\0' && vocabulary_find(vocabulary, LIST_KIND, how->kind) < 0))
			fail_msg("how %s, %s", how->measure, how->kind);
	}
}

static void
every_measure_of_a_kind_has_a_tape_whose_ends_lie_on_the_outline(void **state)
{
	for (int i = 0; i < vocabulary_count(vocabulary, LIST_KIND); i++) {
		const struct term *kind = kind_at(i);
		const struct sketch *sketch = sketch_find(book, kind->name);
		for (int k = 0; k < kind->wanted_count + kind->helpful_count; k++) {
			const char *measure = kind_measure(vocabulary, kind, k);
			const struct tape *tape = tape_find(sketch, measure);
			if (tape == NULL || sketch_how(book, measure, kind->name) == NULL)
				fail_msg("%s: no tape or how for %s", kind->name, measure);
			double begins = sketch_edge_distance(sketch, path_begin(&tape->path));
			double ends = sketch_edge_distance(sketch, path_end(&tape->path));
			if (begins > ON_THE_OUTLINE || ends > ON_THE_OUTLINE)
				fail_msg("%s, %s: begins %.2f and ends %.2f off the outline",
					 kind->name, measure, begins, ends);
		}
	}
}

static bool
lies_at_the_garment(const struct sketch *sketch, struct point point)
{
	for (int i = 0; i < sketch->stroke_count; i++)
		if (sketch->strokes[i].type == STROKE_EDGE &&
		    path_holds(&sketch->strokes[i].path, point))
			return true;
	return sketch_edge_distance(sketch, point) < AT_THE_GARMENT;
}

static void
every_part_lies_on_the_garment_on_both_sides(void **state)
{
	for (int i = 0; i < book->sketch_count; i++) {
		const struct sketch *sketch = &book->sketches[i];
		for (int k = 0; k < sketch->part_count; k++) {
			const struct part *part = &sketch->parts[k];
			struct point middle = {0, part->at.y};
			struct point right = {-part->at.x, part->at.y};
			bool good = lies_at_the_garment(sketch, part->at);
			if (part->way == PART_PAIR)
				good = good && lies_at_the_garment(sketch, right);
			if (part->way == PART_ACROSS)
				good = good && lies_at_the_garment(sketch, middle) &&
				       lies_at_the_garment(sketch, right);
			/* The wearer's left is at the viewer's right. */
			if (!good || (part->way != PART_ONCE && part->at.x <= 0))
				fail_msg("%s, %s", sketch->kind, part->name);
		}
	}
}

static void
every_part_belongs_to_some_kind_and_every_kind_has_front_and_back(void **state)
{
	for (int i = 0; i < vocabulary_count(vocabulary, LIST_PART); i++) {
		const char *name = vocabulary_term(vocabulary, LIST_PART, i)->name;
		bool there = false;
		for (int k = 0; k < book->sketch_count; k++)
			there = there || part_find(&book->sketches[k], name) != NULL;
		if (!there)
			fail_msg("%s", name);
	}
	for (int k = 0; k < book->sketch_count; k++) {
		assert_non_null(part_find(&book->sketches[k], "front"));
		assert_non_null(part_find(&book->sketches[k], "back"));
		assert_non_null(part_find(&book->sketches[k], "label"));
	}
}

/* Widths across the body are as wide on the one side as on the other, and level. */
static void
tapes_across_the_body_are_level_and_in_the_middle(void **state)
{
	static const char *const across[] = {"chest", "waist", "hip", "hem", "shoulder"};
	for (int i = 0; i < book->sketch_count; i++) {
		for (size_t k = 0; k < COUNT(across); k++) {
			const struct tape *tape = tape_find(&book->sketches[i], across[k]);
			if (tape == NULL)
				continue;
			struct point from = path_begin(&tape->path), to = path_end(&tape->path);
			if (from.y != to.y || from.x != -to.x)
				fail_msg("%s, %s", book->sketches[i].kind, across[k]);
		}
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_kind_has_a_sketch),
		cmocka_unit_test(every_sketch_is_of_a_kind_and_its_names_are_on_the_lists),
		cmocka_unit_test(every_measure_of_a_kind_has_a_tape_whose_ends_lie_on_the_outline),
		cmocka_unit_test(every_part_lies_on_the_garment_on_both_sides),
		cmocka_unit_test(every_part_belongs_to_some_kind_and_every_kind_has_front_and_back),
		cmocka_unit_test(tapes_across_the_body_are_level_and_in_the_middle),
	};
	return cmocka_run_group_tests(tests, begin, end);
}
