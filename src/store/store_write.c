#include "store.h"

#include "call_json.h"
#include "connection.h"
#include "kept_sound.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* One write under way. */
struct writing {
	struct store *store;
	const struct write *write;
	struct written *written;
	struct store_tally tally; /* with this write, once it is stored */
};

static bool
write_fails(struct writing *writing, const char *why_not)
{
	snprintf(writing->written->why_not, sizeof writing->written->why_not, "%s", why_not);
	return false;
}

static int64_t
last_row(const struct writing *writing)
{
	return sqlite3_last_insert_rowid(writing->store->database);
}

/* The call as JSON, which the caller frees; NULL when the memory was full. */
static char *
call_text(const struct call *call)
{
	json_t *json = call_to_json(call);
	char *text = json == NULL ? NULL : json_dumps(json, JSON_COMPACT);
	json_decref(json);
	return text;
}

static bool
add_sound(struct writing *writing, const struct utterance *utterance, int64_t row)
{
	unsigned char *bytes;
	int64_t size;
	if (!kept_sound_pack(utterance->sound, utterance->sound_count, &bytes, &size))
		return write_fails(writing, "the sound could not be packed");
	bool added = connection_run(writing->store, STATEMENT_ADD_SOUND,
				    VALUES(value_row(row), value_integer(KEPT_SOUND_RATE_HZ),
					   value_bytes(bytes, size)));
	free(bytes);
	return added;
}

/* The utterance's row: as it is, or new with its sound; 0 when the call has none. */
static bool
add_utterance(struct writing *writing, const struct utterance *utterance, int64_t *row)
{
	struct store *store = writing->store;
	uint64_t number = utterance != NULL ? utterance->number : writing->write->utterance;
	*row = 0;
	if (number == 0)
		return true;
	if (!connection_ask(store, STATEMENT_FIND_UTTERANCE,
			    VALUES(value_row(store->session), value_integer((int64_t)number)), row))
		return false;
	if (*row != 0 || utterance == NULL)
		return true;
	if (!connection_run(
		    store, STATEMENT_ADD_UTTERANCE,
		    VALUES(value_row(store->session), value_integer((int64_t)number),
			   value_integer(utterance->start_ms), value_integer(utterance->end_ms),
			   value_integer(utterance->decided_ms), value_text(utterance->decided_by),
			   value_text(utterance->alternatives), value_text(utterance->evidence),
			   value_real(utterance->score))))
		return false;
	*row = last_row(writing);
	if (utterance->sound == NULL || utterance->sound_count <= 0)
		return true;
	return add_sound(writing, utterance, *row);
}

static bool
add_item(struct writing *writing)
{
	int64_t opened_unix_ms = writing->store->began_unix_ms + writing->write->at_ms;
	if (!connection_run(writing->store, STATEMENT_ADD_ITEM,
			    VALUES(value_integer(opened_unix_ms))))
		return false;
	writing->written->item = last_row(writing);
	writing->tally.items++;
	return true;
}

static bool
add_call(struct writing *writing, int64_t utterance)
{
	const struct write *write = writing->write;
	char *meaning = NULL;
	if (write->has_call && (meaning = call_text(&write->said)) == NULL)
		return write_fails(writing, "the memory is full");
	bool added = connection_run(
		writing->store, STATEMENT_ADD_CALL,
		VALUES(value_row(writing->store->session), value_row(utterance),
		       value_row(writing->written->item), value_integer(write->at_ms),
		       value_text(source_name(write->source)),
		       value_text(verdict_name(write->verdict)), value_real(write->confidence),
		       value_text(write->long_text != NULL ? write->long_text : write->text),
		       value_text(write->has_call ? call_type_name(write->said.type) : NULL),
		       value_text(meaning), value_row(write->settles),
		       value_text(writing->store->has_who ? writing->store->who : NULL)));
	free(meaning);
	writing->written->call = last_row(writing);
	return added;
}

static bool
add_item_state(struct writing *writing, int64_t item, enum item_change change)
{
	static const char *const states[] = {[ITEM_UNCHANGED] = NULL,
					     [ITEM_OPENED] = "open",
					     [ITEM_REOPENED] = "open",
					     [ITEM_CLOSED] = "done",
					     [ITEM_PUT_ASIDE] = "set aside"};
	if (states[change] == NULL)
		return true;
	return connection_run(writing->store, STATEMENT_ADD_ITEM_STATE,
			      VALUES(value_row(item), value_row(writing->written->call),
				     value_text(states[change])));
}

/* A number that is one item's is not given to another. */
static bool
claim_number(struct writing *writing, int64_t item, const char *number)
{
	int64_t owner;
	if (!connection_ask(writing->store, STATEMENT_FIND_NUMBER, VALUES(value_text(number)),
			    &owner))
		return false;
	if (owner == item)
		return true;
	if (owner != 0) {
		char why_not[80];
		snprintf(why_not, sizeof why_not, "number %s was already used", number);
		return write_fails(writing, why_not);
	}
	return connection_run(writing->store, STATEMENT_ADD_NUMBER,
			      VALUES(value_text(number), value_row(item)));
}

/* The name that an entry is looked up by; "flaw none" and "maker other" have these for one. */
static const char *
entry_name(const struct call *said)
{
	if (said->type == CALL_FLAW && said->none)
		return "none";
	return said->other && said->name[0] == '\0' ? "other" : said->name;
}

static bool
add_entry(struct writing *writing, const struct entry *entry)
{
	const struct call *said = &entry->said;
	int64_t item = writing->written->item;
	bool has_length = said->has_length && !said->none;
	char value[32] = "";
	if (has_length)
		length_value(said->length, value, sizeof value);
	char *text = call_text(said);
	if (text == NULL)
		return write_fails(writing, "the memory is full");
	int64_t call = entry->call != 0 ? entry->call : writing->written->call;
	bool added = connection_run(
		writing->store, STATEMENT_ADD_ENTRY,
		VALUES(value_row(item), value_row(call), value_text(call_type_name(said->type)),
		       value_said(entry_name(said)), value_said(said->label),
		       value_integer(said->none), value_said(value),
		       value_text(has_length ? length_unit_name(said->length.unit) : NULL),
		       has_length ? value_integer(length_um(said->length)) : value_text(NULL),
		       value_text(flaw_size_name(said->size)), value_text(side_name(said->side)),
		       value_text(face_name(said->face)), value_said(said->part), value_text(text),
		       value_integer(entry->confirmed)));
	free(text);
	writing->tally.readings += said->type == CALL_MEASURE;
	writing->tally.flaws += said->type == CALL_FLAW && !said->none;
	return added;
}

/* Those that have no row yet: they are the record's last. Rows count up by one, since none is ever
 * deleted and nobody else writes meanwhile. */
static bool
add_entries(struct writing *writing, const struct record *record)
{
	for (int i = 0; i < record->entry_count; i++) {
		if (record->entries[i].id != 0)
			continue;
		if (!add_entry(writing, &record->entries[i]))
			return false;
		if (writing->written->first_entry == 0)
			writing->written->first_entry = last_row(writing);
	}
	return true;
}

/* The row of an entry of the record. */
static int64_t
entry_row(const struct writing *writing, const struct record *record, int index)
{
	int64_t row = writing->written->first_entry;
	if (record->entries[index].id != 0)
		return record->entries[index].id;
	for (int i = 0; i < index; i++)
		row += record->entries[i].id == 0;
	return row;
}

static bool
add_flip(struct writing *writing, int64_t deed, int64_t entry, bool stands)
{
	if (stands && !connection_run(writing->store, STATEMENT_END_OCCUPANTS,
				      VALUES(value_row(deed), value_row(entry))))
		return false;
	return connection_run(writing->store, STATEMENT_ADD_STANDING,
			      VALUES(value_row(deed), value_row(entry), value_integer(stands)));
}

static bool
add_deed(struct writing *writing, int64_t item, const struct record *record,
	 const struct deed *deed)
{
	static const char *const types[] = {[DEED_WROTE] = "wrote",
					    [DEED_STRUCK] = "struck",
					    [DEED_RESTORED] = "restored",
					    [DEED_MOVED] = "moved"};
	bool known = deed->target >= 0 && deed->target < record->deed_count;
	int64_t undid = known ? record->deeds[deed->target].call : 0;
	if (!connection_run(writing->store, STATEMENT_ADD_DEED,
			    VALUES(value_row(item), value_row(writing->written->call),
				   value_text(types[deed->type]), value_row(undid))))
		return false;
	int64_t row = last_row(writing);
	for (int f = 0; f < deed->flip_count; f++) {
		int64_t entry = entry_row(writing, record, deed->flips[f].entry);
		const struct call *said = &record->entries[deed->flips[f].entry].said;
		if (deed->flips[f].stands && said->type == CALL_ITEM &&
		    !claim_number(writing, item, said->label))
			return false;
		if (!add_flip(writing, row, entry, deed->flips[f].stands))
			return false;
	}
	return true;
}

/* What happens to the item, and before that to the one that it was dictated to by mistake. */
static bool
add_changes(struct writing *writing)
{
	const struct write *write = writing->write;
	int64_t item = writing->written->item;
	if (write->has_deed && item == 0)
		return write_fails(writing, "no item is open");
	if (write->moved_from != 0 &&
	    (!add_deed(writing, write->moved_from, write->from_record, &write->from_deed) ||
	     !add_item_state(writing, write->moved_from, write->from_change)))
		return false;
	if (write->has_deed && (!add_entries(writing, write->record) ||
				!add_deed(writing, item, write->record, &write->deed)))
		return false;
	return add_item_state(writing, item, write->change);
}

static bool
write_all(struct writing *writing, const struct utterance *utterance)
{
	int64_t row;
	if (writing->store->session == 0)
		return write_fails(writing, "no session was begun");
	bool alone = !writing->store->together;
	return (!alone || connection_run(writing->store, STATEMENT_BEGIN, NO_VALUES)) &&
	       add_utterance(writing, utterance, &row) &&
	       (writing->write->change != ITEM_OPENED || add_item(writing)) &&
	       add_call(writing, row) && add_changes(writing) &&
	       (!alone || connection_run(writing->store, STATEMENT_COMMIT, NO_VALUES));
}

static void
count_verdict(struct store_tally *tally, enum verdict verdict)
{
	switch (verdict) {
	case VERDICT_TAKEN:
		tally->taken++;
		break;
	case VERDICT_DOUBTED:
		tally->doubted++;
		break;
	case VERDICT_REFUSED:
		tally->refused++;
		break;
	}
}

/* From the next call on another person speaks. */
static void
hand_over(struct store *store, const struct write *write)
{
	if (write->verdict != VERDICT_TAKEN || !write->has_call || write->said.type != CALL_ORDER ||
	    write->said.order != ORDER_HAND_OVER)
		return;
	store->has_who = true;
	snprintf(store->who, sizeof store->who, "%s", write->said.name);
}

void
store_write(struct store *store, const struct write *write, const struct utterance *utterance,
	    struct written *written)
{
	struct writing writing = {
		.store = store, .write = write, .written = written, .tally = store->tally};
	*written = (struct written){.token = write->token, .item = write->item};
	written->stored = write_all(&writing, utterance);
	if (written->stored) {
		store->tally = writing.tally;
		count_verdict(&store->tally, write->verdict);
		hand_over(store, write);
		return;
	}
	if (written->why_not[0] == '\0')
		connection_why_not(store->database, written->why_not, sizeof written->why_not);
	/* Some failures (a full disk) have rolled it back already; with others together, who began
	 * them does. */
	if (!store->together && sqlite3_get_autocommit(store->database) == 0)
		connection_run(store, STATEMENT_ROLLBACK, NO_VALUES);
	written->call = written->first_entry = 0;
	written->item = write->item;
}

void
store_note(struct store *store, int64_t call, const int16_t *sound, int64_t count,
	   struct written *written)
{
	unsigned char *bytes = NULL;
	int64_t size = 0;
	*written = (struct written){.call = call};
	if (!kept_sound_pack(sound, count, &bytes, &size)) {
		snprintf(written->why_not, sizeof written->why_not,
			 "the sound could not be packed");
		return;
	}
	written->stored = connection_run(store, STATEMENT_ADD_NOTE_SOUND,
					 VALUES(value_row(call), value_integer(KEPT_SOUND_RATE_HZ),
						value_bytes(bytes, size)));
	free(bytes);
	if (!written->stored)
		connection_why_not(store->database, written->why_not, sizeof written->why_not);
}
