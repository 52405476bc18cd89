/* One thing that is written at the desk: read from the request, checked against what stands, and
 * stored, all in one short transaction. Inside desk/. */
#ifndef LAPEL_DESK_EDIT_H
#define LAPEL_DESK_EDIT_H

#include "doubting.h"
#include "field.h"
#include "request.h"

struct edit {
	struct request *request;
	struct desk *desk;
	const json_t *body;	 /* what was sent: an object */
	struct record *record;	 /* of the item, as it stands now */
	struct past_calls calls; /* those that were looked up */
	struct write write;	 /* what is to be stored */
	char said[1200];	 /* what was done, for the person */
	unsigned status;	 /* why nothing is: with `answer` */
	json_t *answer;
	bool wants_item; /* the answer to what was refused has the item in it, as it stands */
};

/* Each action fills edit->write in; false when it refuses (one of those below says so). */
typedef bool edit_action(struct edit *edit);

edit_action edit_value, edit_confirm, edit_choose, edit_strike, edit_write_out, edit_learn,
	edit_looked, edit_state, edit_undo;

/* All of these return false. */
bool edit_refuse(struct edit *edit, unsigned status, const char *format, ...)
	__attribute__((format(printf, 3, 4)));
/* Somebody was quicker: says who and with what. `entry` is what stands in the field now, or NULL;
 * `place` is the field, or NULL. */
bool edit_conflict(struct edit *edit, const struct field_place *place, const struct entry *entry);
bool edit_settled(struct edit *edit, const struct past_call *call); /* likewise, of a call */
bool edit_doubted(struct edit *edit, const struct doubt *doubt);

/* Loads the item into edit->record; false when there is none, and says so. */
bool edit_load(struct edit *edit, int64_t item);
/* The call that the request names; NULL when there is none, and says so. */
const struct past_call *edit_call(struct edit *edit, const char *member);

/* Writes `call` into its field, or (`entry` not NULL) in the place of that standing entry, with all
 * checks but for doubts. */
bool edit_write_call(struct edit *edit, const struct call *call, const struct entry *entry,
		     bool confirmed);
/* Strikes the entry. */
bool edit_strike_entry(struct edit *edit, const struct entry *entry);
/* Only an answer ("yes" is 1, "no" 0) to the call. */
bool edit_answer_call(struct edit *edit, int choice, int64_t settles, const char *format, ...)
	__attribute__((format(printf, 4, 5)));

#endif
