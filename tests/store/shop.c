#include "shop.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

void
shop_make_folder(struct shop *shop)
{
	const char *temporary = getenv("TMPDIR");
	memset(shop, 0, sizeof *shop);
	snprintf(shop->folder, sizeof shop->folder, "%.40s/tidewrack-XXXXXX",
		 temporary == NULL ? P_tmpdir : temporary);
	assert_non_null(mkdtemp(shop->folder));
	snprintf(shop->path, sizeof shop->path, "%s/records.db", shop->folder);
	record_init(&shop->record);
}

static void
shop_begin(struct shop *shop)
{
	struct problem problem = {""};
	shop->store = store_open(shop->path, &problem);
	assert_string_equal(problem.text, "");
	assert_non_null(shop->store);
	assert_true(store_begin_session(shop->store, SHOP_BEGAN_UNIX_MS, NULL, &problem));
}

void
shop_set_up(struct shop *shop)
{
	shop_make_folder(shop);
	shop_begin(shop);
}

void
shop_reopen(struct shop *shop)
{
	store_close(shop->store);
	shop_begin(shop);
}

void
shop_tear_down(struct shop *shop)
{
	store_close(shop->store);
	DIR *folder = opendir(shop->folder);
	assert_non_null(folder);
	for (struct dirent *file = readdir(folder); file != NULL; file = readdir(folder)) {
		if (file->d_name[0] != '.')
			unlinkat(dirfd(folder), file->d_name, 0);
	}
	closedir(folder);
	assert_int_equal(rmdir(shop->folder), 0);
}

struct call
say_name(enum call_type type, const char *name)
{
	struct call call = {.type = type};
	snprintf(call.name, sizeof call.name, "%s", name);
	return call;
}

struct call
say_label(enum call_type type, const char *label)
{
	struct call call = {.type = type};
	snprintf(call.label, sizeof call.label, "%s", label);
	return call;
}

struct call
say_measure(const char *measure, const char *inches)
{
	struct call call = say_name(CALL_MEASURE, measure);
	call.has_length = true;
	assert_true(length_parse(inches, LENGTH_INCH, &call.length));
	return call;
}

struct call
say_order(enum order order)
{
	return (struct call){.type = CALL_ORDER, .order = order};
}

struct written
shop_store(struct shop *shop, const struct call *said, const char *text, const struct deed *deed,
	   enum item_change change, bool sound)
{
	static const int16_t clap[1600] = {0, 900, -900, 300, -300, 100, -100};
	struct utterance utterance = {.number = ++shop->utterance,
				      .start_ms = shop->at_ms - 1200,
				      .end_ms = shop->at_ms - 300,
				      .decided_ms = shop->at_ms,
				      .decided_by = "silence",
				      .score = 0.9,
				      .sound = sound ? clap : NULL,
				      .sound_count = sound ? 1600 : 0};
	struct write write = {.token = shop->utterance + 1000,
			      .utterance = utterance.number,
			      .item = shop->record.item,
			      .at_ms = shop->at_ms,
			      .source = SOURCE_VOICE,
			      .verdict = VERDICT_TAKEN,
			      .confidence = 0.97,
			      .has_call = said != NULL,
			      .change = change,
			      .has_deed = deed != NULL,
			      .record = &shop->record};
	if (said != NULL)
		write.said = *said;
	if (deed != NULL)
		write.deed = *deed;
	snprintf(write.text, sizeof write.text, "%s", text);
	shop->at_ms += 2500;

	struct written written;
	store_write(shop->store, &write, &utterance, &written);
	if (deed != NULL && written.stored)
		record_stored(&shop->record, written.call, written.first_entry);
	if (deed != NULL && !written.stored)
		record_unstored(&shop->record);
	if (written.stored)
		shop->record.item = written.item;
	return written;
}

struct written
shop_write(struct shop *shop, const struct call *said, const char *text)
{
	struct deed deed;
	assert_true(record_write(&shop->record, said, false, &deed));
	return shop_store(shop, said, text, &deed,
			  shop->record.item == 0 ? ITEM_OPENED : ITEM_UNCHANGED, false);
}

void
shop_next(struct shop *shop)
{
	struct call next = say_order(ORDER_NEXT);
	assert_true(shop_store(shop, &next, "next", NULL, ITEM_CLOSED, false).stored);
	record_init(&shop->record);
}

const char *
shop_ask(struct shop *shop, const char *sql)
{
	static char answer[512];
	sqlite3_stmt *statement;
	if (sqlite3_prepare_v2(shop->store->database, sql, -1, &statement, NULL) != SQLITE_OK)
		fail_msg("%s: %s", sql, sqlite3_errmsg(shop->store->database));
	answer[0] = '\0';
	if (sqlite3_step(statement) == SQLITE_ROW) {
		const char *text = (const char *)sqlite3_column_text(statement, 0);
		snprintf(answer, sizeof answer, "%s", text == NULL ? "null" : text);
	}
	assert_int_equal(sqlite3_finalize(statement), SQLITE_OK);
	return answer;
}

const char *
shop_rows(struct shop *shop, const char *columns, const char *from)
{
	char sql[600], list[300] = "";
	char copy[200];
	snprintf(copy, sizeof copy, "%s", columns);
	for (char *rest = NULL, *name = strtok_r(copy, " ", &rest); name != NULL;
	     name = strtok_r(NULL, " ", &rest))
		snprintf(list + strlen(list), sizeof list - strlen(list), "%sifnull(%s, 'null')",
			 list[0] == '\0' ? "" : " || ',' || ", name);
	snprintf(sql, sizeof sql,
		 "SELECT ifnull(group_concat(row, ';'), '') FROM"
		 " (SELECT %s AS row FROM %s)",
		 list, from);
	return shop_ask(shop, sql);
}

void
shop_be_quick(struct shop *shop)
{
	assert_int_equal(
		sqlite3_exec(shop->store->database, "PRAGMA synchronous = OFF", NULL, NULL, NULL),
		SQLITE_OK);
}
