/* The shape of the database: its tables and views, and how an older one becomes a newer one.
 * The views (items, readings, flaws, facts, calls) are an interface for others and may only grow;
 * the tables beneath may change, each time by one more migration. */
#ifndef LAPEL_STORE_SCHEMA_H
#define LAPEL_STORE_SCHEMA_H

#include "problem.h"

#include <sqlite3.h>

/* "LAPL" in ASCII, in the file's header: tells a database of lapel from another program's. */
enum { SCHEMA_APPLICATION_ID = 0x4C41504C };

/* The version that this lapel writes; an empty database is version 0. */
int schema_newest(void);

/* Reads the version. Refuses what is no database, another program's, or of a newer lapel; `path`
 * is for the sentence. */
bool schema_recognise(sqlite3 *database, const char *path, int *version, struct problem *problem);

/* Refuses a database that is damaged (PRAGMA quick_check): every page is looked at, and every row
 * unless there are very many. A database of six years (1.5 million calls) takes about a second. */
bool schema_undamaged(sqlite3 *database, const char *path, struct problem *problem);

/* Brings the database to the newest version, each step in a transaction of its own, so that a
 * crash between two leaves a whole older version. Several programs may try at once. */
bool schema_migrate(sqlite3 *database, const char *path, struct problem *problem);

#endif
