#include "marks.h"

#include <math.h>
#include <string.h>

/* Between the edge of a mark and a measured line or another mark. */
#define GAP 1.5
/* How far a mark may move from its place, and in what steps. */
#define FAR 84.0
#define STEP 1.5
enum { DIRECTIONS = 16 };

bool
entry_is_flaw(const struct entry *entry)
{
	return entry->stands && entry->said.type == CALL_FLAW && !entry->said.none;
}

bool
flaw_is_hidden(const struct call *flaw, const char *part)
{
	return flaw->face == FACE_BACK || flaw->face == FACE_INSIDE || strcmp(part, "back") == 0 ||
	       strcmp(part, "lining") == 0;
}

/* What is only said to be on a side or a face lies somewhere on the front or the back, which are
 * parts too. */
static const struct part *
part_of(const struct sketch *sketch, const struct call *flaw, const char *name)
{
	if (name[0] != '\0')
		return part_find(sketch, name);
	if (flaw->side == SIDE_UNSAID && flaw->face == FACE_UNSAID)
		return NULL;
	return part_find(sketch, flaw->face == FACE_BACK ? "back" : "front");
}

/* The places of the part on the side that was said: how many. */
static int
places_of(const struct part *part, enum side side, struct point places[2])
{
	struct point left = part->at, right = {-part->at.x, part->at.y};
	places[0] = left;
	if (part->way == PART_ONCE)
		return 1;
	switch (side) {
	case SIDE_LEFT:
		return 1;
	case SIDE_RIGHT:
		places[0] = right;
		return 1;
	case SIDE_UNSAID:
		break;
	}
	if (part->way == PART_ACROSS) {
		places[0].x = 0;
		return 1;
	}
	places[1] = right;
	return 2;
}

static bool
is_free(const struct picture *picture, struct point centre, struct box area)
{
	double room = PICTURE_MARK_RADIUS + GAP;
	if (!box_holds(area, box_around(centre, 2 * PICTURE_MARK_RADIUS, 2 * PICTURE_MARK_RADIUS)))
		return false;
	for (int i = 0; i < picture->mark_count; i++) {
		const struct picture_mark *mark = &picture->marks[i];
		if (point_distance(mark->centre, centre) < room + PICTURE_MARK_RADIUS)
			return false;
		if (mark->has_leader && segment_distance(mark->leader, centre) < room)
			return false;
	}
	return tapes_distance(picture, centre) >= room;
}

/* From the disc to its place, where that can be seen: a mark that stands beside another one at the
 * same place needs none. */
static void
leader_add(const struct picture *picture, struct picture_mark *mark)
{
	struct point centre = mark->centre, place = mark->place;
	double away = point_distance(centre, place);
	double share = PICTURE_MARK_RADIUS / away;
	struct segment leader = {
		{centre.x + share * (place.x - centre.x), centre.y + share * (place.y - centre.y)},
		place};

	mark->has_leader = away > PICTURE_MARK_RADIUS + 1;
	for (int i = 0; mark->has_leader && i < picture->mark_count; i++)
		mark->has_leader = segment_distance(leader, picture->marks[i].centre) >=
				   PICTURE_MARK_RADIUS + GAP;
	if (mark->has_leader)
		mark->leader = leader;
}

/* The free place that is nearest to `place`: on rings about it that grow. */
static bool
find_free(const struct picture *picture, struct point place, struct box area, struct point *centre)
{
	for (double ring = 0; ring <= FAR; ring += STEP) {
		for (int i = 0; i < DIRECTIONS; i++) {
			double angle = 2 * M_PI * i / DIRECTIONS;
			*centre = (struct point){place.x + ring * cos(angle),
						 place.y + ring * sin(angle)};
			if (is_free(picture, *centre, area))
				return true;
		}
	}
	return false;
}

static void
mark_place(struct picture *picture, int number, bool hidden, struct point place, struct box area)
{
	struct picture_mark mark = {.number = number, .hidden = hidden, .place = place};
	if (picture->mark_count == PICTURE_MARKS_MAX ||
	    !find_free(picture, place, area, &mark.centre))
		return;
	leader_add(picture, &mark);
	picture->marks[picture->mark_count++] = mark;
}

void
marks_place(struct picture *picture, const struct record *record, struct box area)
{
	int number = 0;
	for (int i = 0; i < record->entry_count; i++) {
		const struct call *flaw = &record->entries[i].said;
		struct point places[2];
		const char *name;
		if (!entry_is_flaw(&record->entries[i]))
			continue;
		number++;
		if (!picture_shows(picture, &record->entries[i], &name))
			continue;
		const struct part *part = part_of(picture->sketch, flaw, name);
		int count = part == NULL ? 0 : places_of(part, flaw->side, places);
		for (int k = 0; k < count; k++)
			mark_place(picture, number, flaw_is_hidden(flaw, name),
				   picture_point(picture, places[k]), area);
	}
}
