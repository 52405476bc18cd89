/* The inside of the review: for its files only. */
#ifndef LAPEL_STORE_REVIEW_INSIDE_H
#define LAPEL_STORE_REVIEW_INSIDE_H

#include "connection.h"
#include "review.h"

enum { REVIEW_STATEMENTS_MAX = 64 };

struct review {
	sqlite3 *database;
	/* Prepared when first used, and told apart by the address of their text, which each file
	 * keeps beside what uses it. */
	struct {
		const char *sql;
		sqlite3_stmt *statement;
	} statements[REVIEW_STATEMENTS_MAX];
	int statement_count;
};

/* The statement with its values set, ready to be stepped; NULL when that failed. It is given back
 * by connection_end. */
sqlite3_stmt *review_start(struct review *review, const char *sql, const struct value *values,
			   int count);
/* Runs one that has no rows to give, or of which the first column of the first is wanted. */
bool review_run(struct review *review, const char *sql, const struct value *values, int count);
int64_t review_ask(struct review *review, const char *sql, const struct value *values, int count);

#endif
