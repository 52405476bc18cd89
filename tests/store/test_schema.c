#include "shop.h"

#include "schema.h"

#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static void
put_file(const char *path, const char *text, mode_t mode)
{
	FILE *file = fopen(path, "w");
	assert_non_null(file);
	fputs(text, file);
	fclose(file);
	assert_int_equal(chmod(path, mode), 0);
}

/* A database made by hand, without lapel. */
static void
put_database(const char *path, const char *sql)
{
	sqlite3 *database;
	assert_int_equal(sqlite3_open(path, &database), SQLITE_OK);
	assert_int_equal(sqlite3_exec(database, sql, NULL, NULL, NULL), SQLITE_OK);
	sqlite3_close(database);
}

static unsigned
mode_of(const char *path, const char *ending)
{
	char name[128];
	struct stat file;
	snprintf(name, sizeof name, "%s%s", path, ending);
	assert_int_equal(stat(name, &file), 0);
	return file.st_mode & 0777;
}

static void
opens(struct shop *shop)
{
	struct problem problem = {""};
	shop->store = store_open(shop->path, &problem);
	assert_string_equal(problem.text, "");
	assert_non_null(shop->store);
	assert_true(store_begin_session(shop->store, SHOP_BEGAN_UNIX_MS, NULL, &problem));
	assert_string_equal(shop_ask(shop, "PRAGMA user_version"), "2");
}

static void
is_refused(const char *path, const char *because)
{
	struct problem problem = {""};
	assert_null(store_open(path, &problem));
	if (strstr(problem.text, because) == NULL)
		fail_msg("\"%s\" does not say \"%s\"", problem.text, because);
	assert_non_null(strstr(problem.text, path)); /* where */
	assert_null(strchr(problem.text, '\n'));
}

static void
a_new_database_is_for_its_owner_alone(void **state)
{
	struct shop shop;
	mode_t before = umask(0);
	shop_set_up(&shop);
	struct call bin = say_label(CALL_BIN, "12");
	assert_true(shop_write(&shop, &bin, "bin twelve").stored);
	assert_int_equal(mode_of(shop.path, ""), 0600);
	assert_int_equal(mode_of(shop.path, "-wal"), 0600);
	assert_int_equal(mode_of(shop.path, "-shm"), 0600);
	umask(before);
	shop_tear_down(&shop);
}

static void
each_write_is_on_the_disk_before_it_is_answered_for(void **state)
{
	struct shop shop;
	shop_set_up(&shop);
	assert_string_equal(shop_ask(&shop, "PRAGMA journal_mode"), "wal");
	assert_string_equal(shop_ask(&shop, "PRAGMA synchronous"), "2"); /* FULL */
	assert_string_equal(shop_ask(&shop, "PRAGMA foreign_keys"), "1");
	assert_string_equal(shop_ask(&shop, "PRAGMA secure_delete"), "1");
	assert_string_equal(shop_ask(&shop, "PRAGMA application_id"), "1279348812"); /* "LAPL" */
	assert_string_equal(shop_ask(&shop, "SELECT count(*) FROM pragma_table_list WHERE"
					    " type = 'table' AND NOT strict AND schema = 'main'"
					    " AND name NOT LIKE 'sqlite_%'"),
			    "0");
	shop_tear_down(&shop);
}

static void
an_empty_file_becomes_a_database(void **state)
{
	struct shop shop;
	shop_make_folder(&shop);
	put_file(shop.path, "", 0644);
	opens(&shop);
	assert_int_equal(mode_of(shop.path, ""), 0600);
	shop_tear_down(&shop);
}

static void
a_database_of_version_0_is_brought_up(void **state)
{
	struct shop shop;
	shop_make_folder(&shop);
	put_database(shop.path, "PRAGMA page_size = 1024; PRAGMA user_version = 0; VACUUM");
	opens(&shop);
	shop_tear_down(&shop);
}

static void
one_left_between_making_and_filling_is_brought_up(void **state)
{
	struct shop shop;
	shop_make_folder(&shop);
	put_database(shop.path, "PRAGMA application_id = 1279348812");
	opens(&shop);
	shop_tear_down(&shop);
}

static void
opened_again_it_has_what_was_written(void **state)
{
	struct shop shop;
	shop_set_up(&shop);
	struct call kind = say_name(CALL_KIND, "trousers");
	assert_true(shop_write(&shop, &kind, "kind trousers").stored);
	shop_reopen(&shop);
	assert_string_equal(shop_ask(&shop, "SELECT kind FROM items"), "trousers");
	assert_string_equal(shop_ask(&shop, "SELECT count(*) FROM session"), "2");
	shop_tear_down(&shop);
}

static void
what_cannot_be_used_is_refused_in_one_sentence(void **state)
{
	struct shop shop;
	shop_make_folder(&shop);

	put_file(shop.path, "number,bin,kind\n482,12,trousers\n", 0600);
	is_refused(shop.path, "is not a database of lapel");

	unlink(shop.path);
	put_database(shop.path, "CREATE TABLE tide (height REAL)");
	is_refused(shop.path, "another program");

	unlink(shop.path);
	put_database(shop.path, "PRAGMA application_id = 7; PRAGMA user_version = 1");
	is_refused(shop.path, "another program");

	unlink(shop.path);
	put_database(shop.path, "PRAGMA application_id = 1279348812; PRAGMA user_version = 3");
	is_refused(shop.path, "newer lapel");

	is_refused(shop.folder, "is not a file");

	unlink(shop.path);
	char nowhere[128];
	snprintf(nowhere, sizeof nowhere, "%s/attic/records.db", shop.folder);
	is_refused(nowhere, "No such file or directory");
	shop_tear_down(&shop);
}

/* Enough for several pages, so that there is something to damage. */
static off_t
fill_and_close(struct shop *shop)
{
	shop_set_up(shop);
	shop_be_quick(shop);
	for (int i = 0; i < 60; i++) {
		struct call maker = say_name(CALL_MAKER, i % 2 ? "marlock" : "hallowick");
		assert_true(shop_write(shop, &maker, "maker").stored);
	}
	store_close(shop->store);
	shop->store = NULL;
	struct stat file;
	assert_int_equal(stat(shop->path, &file), 0);
	assert_true(file.st_size > 16 * 4096);
	return file.st_size;
}

static void
a_truncated_database_is_refused_wherever_it_ends(void **state)
{
	for (int eighths = 7; eighths > 0; eighths--) {
		struct shop shop;
		off_t size = fill_and_close(&shop);
		assert_int_equal(truncate(shop.path, size * eighths / 8), 0);
		is_refused(shop.path, "is damaged");
		shop_tear_down(&shop);
	}
}

static void
a_database_with_a_bad_page_is_refused(void **state)
{
	for (int page = 1; page < 12; page++) {
		struct shop shop;
		fill_and_close(&shop);
		char junk[2000];
		memset(junk, 'x', sizeof junk);
		int file = open(shop.path, O_WRONLY);
		assert_int_equal(pwrite(file, junk, sizeof junk, 4096 * page),
				 (ssize_t)sizeof junk);
		close(file);
		is_refused(shop.path, "is damaged");
		shop_tear_down(&shop);
	}
}

static void
a_name_is_only_a_name(void **state)
{
	static const char *const names[] = {":memory:", "file:records?mode=memory", "records db"};
	struct shop shop;
	int before = open(".", O_RDONLY | O_DIRECTORY);
	shop_make_folder(&shop);
	assert_int_equal(chdir(shop.folder), 0);
	for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
		struct problem problem = {""};
		struct store *store = store_open(names[i], &problem);
		assert_non_null(store);
		store_close(store);
		assert_int_equal(access(names[i], F_OK), 0);
	}
	assert_int_equal(fchdir(before), 0);
	close(before);
	shop_tear_down(&shop);
}

/* Design, section 6: these columns, and perhaps more behind them. */
static void
the_views_have_the_columns_of_the_contract(void **state)
{
	static const struct {
		const char *view, *columns;
	} contract[] = {
		{"items", "item,number,bin,kind,route,state,opened_at,closed_at"},
		{"readings", "item,measure,value,unit,um,confirmed,call"},
		{"flaws", "item,flaw,size,um,side,face,part,call"},
		{"facts", "item,fact,value,call"},
		{"calls", "call,utterance,item,at_ms,text,verdict,confidence,source"},
	};
	struct shop shop;
	shop_set_up(&shop);
	for (size_t i = 0; i < sizeof contract / sizeof *contract; i++) {
		char sql[100];
		snprintf(sql, sizeof sql, "SELECT group_concat(name) FROM pragma_table_info('%s')",
			 contract[i].view);
		const char *columns = shop_ask(&shop, sql);
		if (strncmp(columns, contract[i].columns, strlen(contract[i].columns)) != 0)
			fail_msg("%s has %s", contract[i].view, columns);
	}
	shop_tear_down(&shop);
}

static void
what_was_written_is_not_rewritten(void **state)
{
	static const char *const attempts[] = {
		"UPDATE call SET text = 'chest thirty'",
		"DELETE FROM call",
		"UPDATE entry SET um = 1",
		"DELETE FROM entry",
		"UPDATE standing SET stands = 0",
		"DELETE FROM standing",
		"UPDATE number SET item = 2",
		"DELETE FROM number",
	};
	struct shop shop;
	shop_set_up(&shop);
	struct call number = say_label(CALL_ITEM, "482");
	struct call chest = say_measure("chest", "21 1/2");
	assert_true(shop_write(&shop, &number, "item four eighty two").stored);
	assert_true(shop_write(&shop, &chest, "chest twenty one and a half").stored);
	shop_next(&shop); /* the number is now kept */
	for (size_t i = 0; i < sizeof attempts / sizeof *attempts; i++)
		assert_int_equal(sqlite3_exec(shop.store->database, attempts[i], NULL, NULL, NULL),
				 SQLITE_CONSTRAINT);
	shop_tear_down(&shop);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_new_database_is_for_its_owner_alone),
		cmocka_unit_test(each_write_is_on_the_disk_before_it_is_answered_for),
		cmocka_unit_test(an_empty_file_becomes_a_database),
		cmocka_unit_test(a_database_of_version_0_is_brought_up),
		cmocka_unit_test(one_left_between_making_and_filling_is_brought_up),
		cmocka_unit_test(opened_again_it_has_what_was_written),
		cmocka_unit_test(what_cannot_be_used_is_refused_in_one_sentence),
		cmocka_unit_test(a_truncated_database_is_refused_wherever_it_ends),
		cmocka_unit_test(a_database_with_a_bad_page_is_refused),
		cmocka_unit_test(a_name_is_only_a_name),
		cmocka_unit_test(the_views_have_the_columns_of_the_contract),
		cmocka_unit_test(what_was_written_is_not_rewritten),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
