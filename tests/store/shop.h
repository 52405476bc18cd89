/* The back room in small: a database in a folder of its own, one garment on the table, and calls
 * that are written as the conversation writes them. */
#ifndef LAPEL_TESTS_STORE_SHOP_H
#define LAPEL_TESTS_STORE_SHOP_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "connection.h"
#include "store.h"

/* 2026-11-25 12:00:00 UTC, from `date -u -d 2026-11-25T12:00:00Z +%s`. */
#define SHOP_BEGAN_UNIX_MS INT64_C(1795608000000)

struct shop {
	char folder[64];
	char path[80];
	struct store *store;
	struct record record; /* of the garment on the table; item 0: nothing was said of it yet */
	int64_t at_ms;	      /* of the next call; each takes 2500 ms */
	uint64_t utterance;   /* the listener's count */
};

void shop_set_up(struct shop *shop); /* a new database, and a session */
void shop_tear_down(struct shop *shop);
void shop_make_folder(struct shop *shop); /* the folder and the path only */
void shop_reopen(struct shop *shop);	  /* as after the program was started again */

struct call say_name(enum call_type type, const char *name);
struct call say_label(enum call_type type, const char *label);
struct call say_measure(const char *measure, const char *inches);
struct call say_order(enum order order);

/* Writes one call, spoken as `text`, with `deed` (or NULL) already done to the record on the table;
 * with `sound` it has 0.1 s of it. The record learns what was stored. */
struct written shop_store(struct shop *shop, const struct call *said, const char *text,
			  const struct deed *deed, enum item_change change, bool sound);
/* The same for a call that writes to the record, opening the item where it is the first. */
struct written shop_write(struct shop *shop, const struct call *said, const char *text);
/* Closes the garment, and takes up the next one. */
void shop_next(struct shop *shop);

/* The first column of the first row, "" when there is none; valid until the next. */
const char *shop_ask(struct shop *shop, const char *sql);
/* The rows of some columns (parted by a space each): comma between columns, semicolon between rows,
 * "null" where there is nothing. */
const char *shop_rows(struct shop *shop, const char *columns, const char *from);

/* Does not wait for the disk from here on, where a test has no crash to survive. */
void shop_be_quick(struct shop *shop);

#endif
