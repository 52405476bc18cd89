/* Full disks and other programs: what was written stays, what was not is said, work goes on. */
#include "shop.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static int
count(struct shop *shop, const char *table)
{
	char sql[80];
	int number = -1;
	snprintf(sql, sizeof sql, "SELECT count(*) FROM %s", table);
	sscanf(shop_ask(shop, sql), "%d", &number);
	return number;
}

static bool
write_a_maker(struct shop *shop, struct written *written)
{
	struct deed deed;
	struct call maker = say_name(CALL_MAKER, "orlscombe and daughters");
	if (!record_write(&shop->record, &maker, false, &deed))
		return false;
	*written = shop_store(shop, &maker, "maker orlscombe and daughters", &deed,
			      shop->record.item == 0 ? ITEM_OPENED : ITEM_UNCHANGED, true);
	return written->stored;
}

/* Writes until the disk is full; then exactly what was answered for is there, and once there is
 * room again work goes on. */
static void
a_full_disk_loses_one_call_and_says_so(struct shop *shop, void (*make_room)(struct shop *))
{
	struct written written;
	int stored = 1; /* the caller's */
	while (write_a_maker(shop, &written))
		stored++;
	assert_string_equal(written.why_not, "the disk is full");
	assert_true(written.call == 0 && written.first_entry == 0);
	assert_true(stored > 3);
	static const char *const tables[] = {"call", "utterance", "sound", "entry", "deed"};
	for (size_t i = 0; i < sizeof tables / sizeof *tables; i++)
		assert_int_equal(count(shop, tables[i]), stored);
	assert_false(write_a_maker(shop, &written)); /* as full as before */
	assert_string_equal(written.why_not, "the disk is full");

	make_room(shop);
	assert_true(write_a_maker(shop, &written));
	assert_int_equal(count(shop, "call"), stored + 1);
	shop_reopen(shop);
	assert_int_equal(count(shop, "call"), stored + 1);
	assert_string_equal(shop_ask(shop, "PRAGMA integrity_check"), "ok");
	static struct record loaded;
	assert_true(store_load(shop->store, 1, &loaded));
	assert_int_equal(loaded.entry_count, stored + 1);
}

static void
set_page_limit(struct shop *shop, const char *pages)
{
	char sql[80];
	snprintf(sql, sizeof sql, "PRAGMA max_page_count = %s", pages);
	shop_ask(shop, sql);
}

static void
lift_page_limit(struct shop *shop)
{
	set_page_limit(shop, "1000000");
}

static void
a_disk_without_a_free_page_is_full(void **state)
{
	struct shop shop;
	struct written written;
	shop_set_up(&shop);
	assert_true(write_a_maker(&shop, &written));
	char pages[16];
	snprintf(pages, sizeof pages, "%d", 8 + atoi(shop_ask(&shop, "PRAGMA page_count")));
	set_page_limit(&shop, pages);
	a_full_disk_loses_one_call_and_says_so(&shop, lift_page_limit);
	shop_tear_down(&shop);
}

/* The write-ahead file cannot grow: the system refuses in the midst of a commit. */
static void
limit_files_to(rlim_t bytes)
{
	struct rlimit limit;
	assert_int_equal(getrlimit(RLIMIT_FSIZE, &limit), 0);
	limit.rlim_cur = bytes == 0 ? limit.rlim_max : bytes;
	assert_int_equal(setrlimit(RLIMIT_FSIZE, &limit), 0);
}

static void
lift_file_limit(struct shop *shop)
{
	limit_files_to(0);
}

static void
a_commit_that_finds_no_room_is_not_half_done(void **state)
{
	struct shop shop;
	struct written written;
	struct stat wal;
	char path[100];
	void (*before)(int) = signal(SIGXFSZ, SIG_IGN);
	shop_set_up(&shop);
	assert_true(write_a_maker(&shop, &written));
	snprintf(path, sizeof path, "%s-wal", shop.path);
	assert_int_equal(stat(path, &wal), 0);
	limit_files_to((rlim_t)wal.st_size + 400000);
	a_full_disk_loses_one_call_and_says_so(&shop, lift_file_limit);
	signal(SIGXFSZ, before);
	shop_tear_down(&shop);
}

static void
a_database_on_a_full_disk_is_not_made_and_says_so(void **state)
{
	struct shop shop;
	struct problem problem = {""};
	void (*before)(int) = signal(SIGXFSZ, SIG_IGN);
	shop_make_folder(&shop);
	limit_files_to(8192);
	assert_null(store_open(shop.path, &problem));
	limit_files_to(0);
	signal(SIGXFSZ, before);
	assert_non_null(strstr(problem.text, "the disk is full"));
	shop.store = store_open(shop.path, &problem);
	assert_non_null(shop.store);
	shop_tear_down(&shop);
}

static void
while_another_program_holds_the_records_a_write_says_so(void **state)
{
	struct shop shop;
	struct written written;
	sqlite3 *other;
	shop_set_up(&shop);
	sqlite3_busy_timeout(shop.store->database, 0); /* no patience */
	assert_int_equal(sqlite3_open(shop.path, &other), SQLITE_OK);
	assert_int_equal(sqlite3_exec(other, "BEGIN IMMEDIATE", NULL, NULL, NULL), SQLITE_OK);
	assert_false(write_a_maker(&shop, &written));
	assert_string_equal(written.why_not, "the records are locked by another program");
	struct problem problem = {""};
	assert_false(store_begin_session(shop.store, 0, NULL, &problem));
	assert_string_equal(problem.text, "the session cannot be begun: the records are locked by "
					  "another program");
	sqlite3_close(other);
	assert_true(write_a_maker(&shop, &written));
	assert_int_equal(count(&shop, "call"), 1);
	shop_tear_down(&shop);
}

/* Another program that reads for long keeps seeing what it began with, and stops nobody. */
static void
a_reader_does_not_hold_up_a_write(void **state)
{
	struct shop shop;
	struct written written;
	sqlite3 *desk;
	sqlite3_stmt *reading;
	shop_set_up(&shop);
	sqlite3_busy_timeout(shop.store->database, 0);
	assert_true(write_a_maker(&shop, &written) && write_a_maker(&shop, &written));
	assert_int_equal(sqlite3_open(shop.path, &desk), SQLITE_OK);
	assert_int_equal(sqlite3_prepare_v2(desk, "SELECT call FROM calls", -1, &reading, NULL),
			 SQLITE_OK);
	assert_int_equal(sqlite3_step(reading), SQLITE_ROW);
	assert_true(write_a_maker(&shop, &written));
	assert_int_equal(sqlite3_step(reading), SQLITE_ROW);
	assert_int_equal(sqlite3_step(reading), SQLITE_DONE);
	sqlite3_finalize(reading);
	sqlite3_close(desk);
	assert_int_equal(count(&shop, "call"), 3);
	shop_tear_down(&shop);
}

/* The desk's process and the station's write at once, each as fast as it can. */
static void
station_and_desk_write_at_once(void **state)
{
	enum { EACH = 60 };
	struct shop shop;
	struct written written;
	shop_set_up(&shop);
	pid_t desk = fork();
	assert_true(desk >= 0);
	if (desk == 0) {
		static struct shop other;
		snprintf(other.path, sizeof other.path, "%s", shop.path);
		other.store = store_open(other.path, NULL);
		bool good = other.store != NULL &&
			    store_begin_session(other.store, SHOP_BEGAN_UNIX_MS, "desk", NULL);
		for (int i = 0; good && i < EACH; i++)
			good = write_a_maker(&other, &written);
		_exit(good ? 0 : 1);
	}
	for (int i = 0; i < EACH; i++)
		assert_true(write_a_maker(&shop, &written));
	int status;
	assert_true(waitpid(desk, &status, 0) == desk);
	assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
	assert_int_equal(count(&shop, "call"), 2 * EACH);
	assert_int_equal(count(&shop, "items"), 2);
	assert_int_equal(count(&shop, "facts"), 2);
	assert_string_equal(shop_ask(&shop, "PRAGMA integrity_check"), "ok");
	shop_tear_down(&shop);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_disk_without_a_free_page_is_full),
		cmocka_unit_test(a_commit_that_finds_no_room_is_not_half_done),
		cmocka_unit_test(a_database_on_a_full_disk_is_not_made_and_says_so),
		cmocka_unit_test(while_another_program_holds_the_records_a_write_says_so),
		cmocka_unit_test(a_reader_does_not_hold_up_a_write),
		cmocka_unit_test(station_and_desk_write_at_once),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
