#include "scene.h"

/* So far may two things come together that need not be apart. */
#define TOUCH 0.01

struct vocabulary *vocabulary;
struct sketch_book *book;
struct ruler *ruler;
struct record record;
struct problem problem;
char at_hand[256];

bool
scene_open(void)
{
	ruler = ruler_create();
	return shop_open(&vocabulary, &book) && ruler != NULL;
}

void
scene_close(void)
{
	ruler_destroy(ruler);
	shop_close(vocabulary, book);
}

static struct segment
tape_piece(const struct picture_tape *tape, int end_point)
{
	return (struct segment){tape->points[end_point - 1], tape->points[end_point]};
}

static void
check_label(const struct picture *picture, int index)
{
	const struct picture_tape *tape = &picture->tapes[index];
	struct box label = box_grown(tape->label, -TOUCH);
	struct box whole = {0, 0, PICTURE_WIDTH, picture->height};

	if (!box_holds(whole, label))
		fail_msg("%s: %s lies outside", at_hand, tape->measure);
	for (int i = 0; i < picture->tape_count; i++) {
		const struct picture_tape *other = &picture->tapes[i];
		if (i != index && other->labelled && box_meets_box(label, other->label))
			fail_msg("%s: %s lies over %s", at_hand, tape->measure, other->measure);
		for (int k = 1; k < other->point_count; k++)
			if (box_meets_segment(label, tape_piece(other, k)))
				fail_msg("%s: %s lies over the line of %s", at_hand, tape->measure,
					 other->measure);
		if (other->has_leader && box_meets_segment(label, other->leader))
			fail_msg("%s: %s lies over the leader of %s", at_hand, tape->measure,
				 other->measure);
	}
	for (int i = 0; i < picture->mark_count; i++)
		if (box_meets_disc(label, picture->marks[i].centre, PICTURE_MARK_RADIUS) ||
		    (picture->marks[i].has_leader &&
		     box_meets_segment(label, picture->marks[i].leader)))
			fail_msg("%s: %s lies over mark %d", at_hand, tape->measure,
				 picture->marks[i].number);
}

/* The letters stay inside the label's box. */
static void
check_letters(const struct picture_tape *tape)
{
	struct point name = picture_name_start(tape, ruler);
	struct point value = picture_value_start(tape, ruler);
	double right = tape->label.x + tape->label.width + TOUCH;
	double bottom = tape->label.y + tape->label.height + TOUCH;

	assert_true(name.x >= tape->label.x - TOUCH);
	assert_true(name.x + ruler_width(ruler, LETTERING_NAME, tape->measure) <= right);
	assert_true(name.y >= tape->label.y + 0.7 * lettering_size(LETTERING_NAME));
	assert_true(name.y <= bottom - 0.2 * lettering_size(LETTERING_NAME));
	if (tape->value[0] == '\0')
		return;
	assert_true(value.x >= tape->label.x - TOUCH);
	assert_true(value.x + ruler_width(ruler, LETTERING_VALUE, tape->value) <= right);
	assert_true(value.y - 0.75 * lettering_size(LETTERING_VALUE) >= name.y);
	assert_true(value.y <= bottom - 0.2 * lettering_size(LETTERING_VALUE));
}

static void
check_mark(const struct picture *picture, int index)
{
	const struct picture_mark *mark = &picture->marks[index];
	struct box whole = {0, 0, PICTURE_WIDTH, picture->height};

	if (!box_holds(whole,
		       box_around(mark->centre, 2 * PICTURE_MARK_RADIUS, 2 * PICTURE_MARK_RADIUS)))
		fail_msg("%s: mark %d lies outside", at_hand, mark->number);
	for (int i = 0; i < index; i++)
		if (point_distance(mark->centre, picture->marks[i].centre) <
		    2 * PICTURE_MARK_RADIUS)
			fail_msg("%s: mark %d lies over mark %d", at_hand, mark->number,
				 picture->marks[i].number);
	for (int i = 0; i < picture->tape_count; i++) {
		const struct picture_tape *tape = &picture->tapes[i];
		for (int k = 1; k < tape->point_count; k++)
			if (segment_distance(tape_piece(tape, k), mark->centre) <
			    PICTURE_MARK_RADIUS)
				fail_msg("%s: mark %d lies over the line of %s", at_hand,
					 mark->number, tape->measure);
		if (tape->has_leader &&
		    segment_distance(tape->leader, mark->centre) < PICTURE_MARK_RADIUS)
			fail_msg("%s: mark %d lies over the leader of %s", at_hand, mark->number,
				 tape->measure);
	}
}

/* The list lies below everything else, and its lines below each other. */
static void
check_list(const struct picture *picture)
{
	double top = picture->garment.y + picture->garment.height;
	for (int i = 0; i < picture->tape_count; i++)
		if (picture->tapes[i].labelled &&
		    picture->tapes[i].label.y + picture->tapes[i].label.height > top)
			top = picture->tapes[i].label.y + picture->tapes[i].label.height;
	for (int i = 0; i < picture->mark_count; i++)
		if (picture->marks[i].centre.y + PICTURE_MARK_RADIUS > top)
			top = picture->marks[i].centre.y + PICTURE_MARK_RADIUS;
	for (int i = 0; i < picture->line_count; i++) {
		const struct legend_line *line = &picture->lines[i];
		struct box whole = {0, top, PICTURE_WIDTH, picture->height - top};
		if (!box_holds(whole, line->box))
			fail_msg("%s: the list lies outside: %s", at_hand, line->text);
		top = line->box.y + line->box.height;
	}
}

/* The piece's name lies above everything else. */
static void
check_heading(const struct picture *picture)
{
	const char *heading = picture_heading(picture);
	double bottom = PICTURE_MARGIN + lettering_line(LETTERING_STRONG);
	if (heading == NULL)
		return;
	assert_true(picture->garment.y >= bottom);
	for (int i = 0; i < picture->tape_count; i++)
		if (picture->tapes[i].labelled && picture->tapes[i].label.y < bottom)
			fail_msg("%s: %s lies over the name of the piece", at_hand,
				 picture->tapes[i].measure);
	for (int i = 0; i < picture->mark_count; i++)
		if (picture->marks[i].centre.y - PICTURE_MARK_RADIUS < bottom)
			fail_msg("%s: mark %d lies over the name of the piece", at_hand,
				 picture->marks[i].number);
}

static void
check_piece(const struct picture *picture)
{
	for (int i = 0; i < picture->tape_count; i++) {
		if (!picture->tapes[i].labelled)
			continue;
		check_label(picture, i);
		check_letters(&picture->tapes[i]);
	}
	for (int i = 0; i < picture->mark_count; i++)
		check_mark(picture, i);
	check_list(picture);
	check_heading(picture);
}

void
check_picture(const struct picture *picture)
{
	for (; picture != NULL; picture = picture->below)
		check_piece(picture);
}

int
labels_over_the_outline(const struct picture *picture)
{
	int count = 0;
	for (int i = 0; i < picture->tape_count; i++) {
		bool over = false;
		for (int k = 0; k < picture->sketch->stroke_count; k++) {
			const struct stroke *stroke = &picture->sketch->strokes[k];
			struct point points[PATH_POINTS_MAX];
			int point_count =
				stroke->type == STROKE_EDGE
					? path_flatten(&stroke->path, points, PATH_POINTS_MAX)
					: 0;
			for (int p = 1; picture->tapes[i].labelled && p < point_count; p++)
				over = over ||
				       box_meets_segment(
					       box_grown(picture->tapes[i].label, -TOUCH),
					       (struct segment){
						       picture_point(picture, points[p - 1]),
						       picture_point(picture, points[p])});
		}
		count += over;
	}
	return count;
}

struct picture *
lay_out(const char *kind, const struct record *of)
{
	struct picture *picture = picture_create(book, vocabulary, kind, of, ruler, &problem);
	if (picture == NULL)
		fail_msg("%s: %s", at_hand, problem.text);
	return picture;
}

void
say_six_flaws(const struct sketch *sketch, int turn)
{
	for (int i = 0; i < 6; i++)
		say_flaw(&record, "moth hole", (enum side)((turn + i) % 3),
			 (enum face)((turn + 2 * i) % 5),
			 sketch->parts[(turn + 5 * i) % sketch->part_count].name);
}

void
say_value(const char *measure, int turn)
{
	if (turn % 2 == 0)
		say_measure(&record, measure, "24 15/16", LENGTH_INCH);
	else
		say_measure(&record, measure, "9", LENGTH_CENTIMETRE);
}

const char *
list_of(const struct picture *picture)
{
	static char text[1 << 16];
	text[0] = '\0';
	for (int i = 0; i < picture->line_count; i++) {
		char number[16] = "";
		if (picture->lines[i].number > 0)
			snprintf(number, sizeof number, "%d ", picture->lines[i].number);
		strcat(strcat(strcat(text, number), picture->lines[i].text), "/");
	}
	return text;
}
