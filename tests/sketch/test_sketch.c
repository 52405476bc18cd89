/* Pictures as files: SVG and PNG, the same bytes for the same record, and drawn where they were
 * laid out. */
#include "garment.h"

#include "picture.h"

#include <unistd.h>

static struct vocabulary *vocabulary;
static struct sketch_book *book;
static struct problem problem;
static struct record record;

struct bytes {
	unsigned char *bytes;
	size_t count, read;
	bool full; /* takes nothing */
};

static bool
keep(void *to, const void *bytes, size_t count)
{
	struct bytes *kept = to;
	if (kept->full)
		return false;
	kept->bytes = realloc(kept->bytes, kept->count + count + 1);
	memcpy(kept->bytes + kept->count, bytes, count);
	kept->count += count;
	kept->bytes[kept->count] = '\0';
	return true;
}

static int
begin(void **state)
{
	if (!shop_open(&vocabulary, &book))
		return 1;
	record_init(&record);
	say_kind(&record, "blazer");
	struct call number = {.type = CALL_ITEM, .label = "482"};
	say(&record, &number);
	say_measure(&record, "chest", "21 1/2", LENGTH_INCH);
	say_measure(&record, "sleeve", "24", LENGTH_INCH);
	say_measure(&record, "length", "29 3/4", LENGTH_INCH);
	say_flaw(&record, "moth hole", SIDE_LEFT, FACE_UNSAID, "cuff");
	say_flaw(&record, "stain", SIDE_UNSAID, FACE_INSIDE, "lining");
	return 0;
}

static int
end(void **state)
{
	shop_close(vocabulary, book);
	cairo_debug_reset_static_data();
	return 0;
}

static struct bytes
drawn(const struct record *of, enum sketch_form form, int width_px)
{
	struct bytes bytes = {0};
	if (!sketch_draw(book, vocabulary, NULL, of, form, width_px, "memory", keep, &bytes,
			 &problem))
		fail_msg("%s", problem.text);
	return bytes;
}

static cairo_status_t
give(void *from, unsigned char *bytes, unsigned count)
{
	struct bytes *kept = from;
	if (kept->count - kept->read < count)
		return CAIRO_STATUS_READ_ERROR;
	memcpy(bytes, kept->bytes + kept->read, count);
	kept->read += count;
	return CAIRO_STATUS_SUCCESS;
}

static cairo_surface_t *
png_read(struct bytes *bytes)
{
	cairo_surface_t *surface = cairo_image_surface_create_from_png_stream(give, bytes);
	assert_int_equal(cairo_surface_status(surface), CAIRO_STATUS_SUCCESS);
	return surface;
}

/* Red, green and blue at a point of the picture, which is drawn at `scale`. */
static uint32_t
pixel(cairo_surface_t *surface, struct point point, double scale)
{
	const unsigned char *row = cairo_image_surface_get_data(surface) +
				   (int)(point.y * scale) * cairo_image_surface_get_stride(surface);
	uint32_t colour;
	memcpy(&colour, row + 4 * (int)(point.x * scale), sizeof colour);
	return colour & 0xffffff;
}

static bool
is_blue(uint32_t colour)
{
	return (colour >> 16) < 0x40 && (colour & 0xff) > 0x60;
}

static bool
is_red(uint32_t colour)
{
	return (colour >> 16) > 0x90 && (colour & 0xff) < 0x40;
}

static void
a_picture_is_as_wide_as_was_asked(void **state)
{
	static const int widths[] = {SKETCH_WIDTH_MIN, 360, 900, 2000};
	for (size_t i = 0; i < COUNT(widths); i++) {
		struct bytes bytes = drawn(&record, SKETCH_PNG, widths[i]);
		cairo_surface_t *surface = png_read(&bytes);
		assert_int_equal(cairo_image_surface_get_width(surface), widths[i]);
		assert_true(cairo_image_surface_get_height(surface) > widths[i] / 2);
		cairo_surface_destroy(surface);
		free(bytes.bytes);
	}
	struct bytes svg = drawn(&record, SKETCH_SVG, 720);
	assert_non_null(strstr((char *)svg.bytes, "width=\"720px\""));
	free(svg.bytes);
}

static void
lines_and_marks_are_drawn_where_they_were_laid_out(void **state)
{
	const double scale = 4;
	struct ruler *ruler = ruler_create();
	struct picture *picture = picture_create(book, vocabulary, NULL, &record, ruler, &problem);
	struct bytes bytes = drawn(&record, SKETCH_PNG, (int)(scale * PICTURE_WIDTH));
	cairo_surface_t *surface = png_read(&bytes);

	for (int i = 0; i < picture->tape_count; i++) {
		const struct picture_tape *tape = &picture->tapes[i];
		assert_true(is_blue(pixel(surface, tape->points[0], scale)));
		assert_true(is_blue(pixel(surface, tape->points[tape->point_count - 1], scale)));
	}
	assert_int_equal(picture->mark_count, 2);
	for (int i = 0; i < picture->mark_count; i++) {
		/* Between the number and the rim: filled where it can be seen, else a ring. */
		struct point beside = picture->marks[i].centre;
		beside.x -= PICTURE_MARK_RADIUS - 2.5;
		assert_int_equal(is_red(pixel(surface, beside, scale)), !picture->marks[i].hidden);
		beside.x = picture->marks[i].centre.x - PICTURE_MARK_RADIUS + 0.6;
		assert_true(is_red(pixel(surface, beside, scale)));
	}
	cairo_surface_destroy(surface);
	free(bytes.bytes);
	picture_destroy(picture);
	ruler_destroy(ruler);
}

static void
the_same_record_gives_the_same_bytes(void **state)
{
	for (int form = SKETCH_SVG; form <= SKETCH_PNG; form++) {
		struct bytes one = drawn(&record, (enum sketch_form)form, 360);
		struct bytes other = drawn(&record, (enum sketch_form)form, 360);
		assert_int_equal(one.count, other.count);
		assert_memory_equal(one.bytes, other.bytes, one.count);
		free(one.bytes);
		free(other.bytes);
	}
}

/* Cairo counts its surfaces and its letters' fonts through the process. */
static void
what_was_drawn_before_changes_no_byte(void **state)
{
	static struct record skirt;
	record_init(&skirt);
	say_kind(&skirt, "skirt");
	say_measure(&skirt, "hem", "61", LENGTH_CENTIMETRE);
	for (int form = SKETCH_SVG; form <= SKETCH_PNG; form++) {
		struct bytes one = drawn(&record, (enum sketch_form)form, 720);
		for (int i = 0; i < 3; i++)
			free(drawn(&skirt, (enum sketch_form)i % 2, 360 + i).bytes);
		struct bytes other = drawn(&record, (enum sketch_form)form, 720);
		assert_int_equal(one.count, other.count);
		assert_memory_equal(one.bytes, other.bytes, one.count);
		free(one.bytes);
		free(other.bytes);
	}
}

static void
an_svg_says_in_words_what_it_shows(void **state)
{
	struct bytes svg = drawn(&record, SKETCH_SVG, 360);
	assert_non_null(strstr((char *)svg.bytes, " role=\"img\">"));
	assert_non_null(strstr((char *)svg.bytes, "<title>Sketch: blazer, item 482</title>"));
	assert_non_null(strstr((char *)svg.bytes,
			       "<desc>Measures: chest 21 1/2 in; sleeve 24 in; length 29 3/4 in. "
			       "Flaws: 1 moth hole, left cuff; 2 stain, inside lining.</desc>"));
	free(svg.bytes);
	struct bytes names = {0};
	assert_true(sketch_draw(book, vocabulary, "tie", NULL, SKETCH_SVG, 360, "memory", keep,
				&names, &problem));
	assert_non_null(strstr((char *)names.bytes, "<title>Where to measure: tie</title>"));
	assert_non_null(strstr((char *)names.bytes, "<desc>Measures: length; width.</desc>"));
	free(names.bytes);
}

static void
another_value_gives_another_picture(void **state)
{
	static struct record changed;
	record_copy(&changed, &record);
	say_measure(&changed, "chest", "21 5/8", LENGTH_INCH);
	struct bytes one = drawn(&record, SKETCH_SVG, 360);
	struct bytes other = drawn(&changed, SKETCH_SVG, 360);
	assert_true(one.count != other.count || memcmp(one.bytes, other.bytes, one.count) != 0);
	free(one.bytes);
	free(other.bytes);
}

static void
an_svg_is_whole(void **state)
{
	struct bytes svg = drawn(&record, SKETCH_SVG, 360);
	const char *text = (char *)svg.bytes;
	assert_int_equal(strncmp(text, "<?xml", 5), 0);
	assert_non_null(strstr(text, "<svg "));
	assert_string_equal(text + svg.count - 7, "</svg>\n");
	free(svg.bytes);
}

static void
what_cannot_be_drawn_is_said(void **state)
{
	static const struct {
		const char *kind;
		int width_px;
		bool full;
		const char *word;
	} ROWS[] = {
		{"kilt", 360, false, "kilt"},
		{NULL, SKETCH_WIDTH_MIN - 1, false, "179"},
		{NULL, SKETCH_WIDTH_MAX + 1, false, "8193"},
		{NULL, -1, false, "-1"},
		{NULL, 360, true, "the shelf"},
	};
	for (size_t i = 0; i < COUNT(ROWS); i++) {
		struct bytes bytes = {.full = ROWS[i].full};
		assert_false(sketch_draw(book, vocabulary, ROWS[i].kind, &record, SKETCH_PNG,
					 ROWS[i].width_px, "the shelf", keep, &bytes, &problem));
		if (strstr(problem.text, ROWS[i].word) == NULL)
			fail_msg("%s", problem.text);
		assert_null(bytes.bytes);
	}
}

static void
a_file_is_replaced_only_by_a_whole_picture(void **state)
{
	char path[512];
	snprintf(path, sizeof path, "%s/picture-%d.svg", getenv("LAPEL_TEST_FOLDER"),
		 (int)getpid());
	assert_true(
		sketch_draw_file(book, vocabulary, NULL, &record, SKETCH_SVG, 360, path, &problem));
	assert_false(sketch_draw_file(book, vocabulary, "kilt", &record, SKETCH_SVG, 360, path,
				      &problem));
	struct bytes svg = drawn(&record, SKETCH_SVG, 360);
	FILE *file = fopen(path, "rb");
	assert_non_null(file);
	unsigned char *read = malloc(svg.count + 1);
	assert_int_equal(fread(read, 1, svg.count + 1, file), svg.count);
	assert_memory_equal(read, svg.bytes, svg.count);
	fclose(file);
	unlink(path);
	free(read);
	free(svg.bytes);
	assert_false(sketch_draw_file(book, vocabulary, NULL, &record, SKETCH_SVG, 360,
				      "/no/such/folder/picture.svg", &problem));
	assert_non_null(strstr(problem.text, "/no/such/folder/picture.svg: cannot be written"));
	if (access("/dev/full", W_OK) == 0) {
		assert_false(sketch_draw_file(book, vocabulary, NULL, &record, SKETCH_SVG, 360,
					      "/dev/full", &problem));
		assert_non_null(strstr(problem.text, "/dev/full: cannot be written"));
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_picture_is_as_wide_as_was_asked),
		cmocka_unit_test(lines_and_marks_are_drawn_where_they_were_laid_out),
		cmocka_unit_test(the_same_record_gives_the_same_bytes),
		cmocka_unit_test(what_was_drawn_before_changes_no_byte),
		cmocka_unit_test(an_svg_says_in_words_what_it_shows),
		cmocka_unit_test(another_value_gives_another_picture),
		cmocka_unit_test(an_svg_is_whole),
		cmocka_unit_test(what_cannot_be_drawn_is_said),
		cmocka_unit_test(a_file_is_replaced_only_by_a_whole_picture),
	};
	return cmocka_run_group_tests(tests, begin, end);
}
