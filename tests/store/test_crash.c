/* The program is killed while it writes: every call that was answered for is there afterwards, of
 * the one under way all or nothing, and the garment that was in hand is in hand again. */
#include "shop.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

enum { ROUNDS = 20, CALLS_AN_ITEM = 6 };

/* What the measurer was told: the count of the call, and the numbers that the store gave it. */
struct answer {
	int64_t count, call, item;
};

/* Call number `count` of a day on which every garment takes six: number, three readings, a flaw,
 * "next". */
static struct written
work(struct shop *shop, int64_t count)
{
	static const char *const measures[] = {"chest", "back length", "sleeve"};
	char text[24];
	struct call said;
	struct deed deed;
	int step = (int)(count % CALLS_AN_ITEM);
	snprintf(text, sizeof text, "call %d", (int)count);
	if (step == 0) {
		char number[16];
		record_init(&shop->record);
		snprintf(number, sizeof number, "%d", (int)count);
		said = say_label(CALL_ITEM, number);
	} else if (step == CALLS_AN_ITEM - 2) {
		said = say_name(CALL_FLAW, "stain");
	} else if (step == CALLS_AN_ITEM - 1) {
		said = say_order(ORDER_NEXT);
		return shop_store(shop, &said, text, NULL, ITEM_CLOSED, false);
	} else {
		said = say_measure(measures[step - 1], "21 1/2");
	}
	if (!record_write(&shop->record, &said, false, &deed))
		_exit(3);
	return shop_store(shop, &said, text, &deed, step == 0 ? ITEM_OPENED : ITEM_UNCHANGED, true);
}

/* Works until it is killed. Asserts would jump into the parent's test: exits tell instead. */
static void
work_and_tell(const char *path, int64_t count, int told)
{
	static struct shop shop;
	record_init(&shop.record);
	shop.store = store_open(path, NULL);
	if (shop.store == NULL || !store_begin_session(shop.store, SHOP_BEGAN_UNIX_MS, NULL, NULL))
		_exit(1);
	int64_t open_item = store_item_open(shop.store);
	if (open_item != 0 && !store_load(shop.store, open_item, &shop.record))
		_exit(2);
	for (;; count++) {
		struct written written = work(&shop, count);
		struct answer answer = {count, written.call, written.item};
		if (!written.stored || write(told, &answer, sizeof answer) != sizeof answer)
			_exit(4);
	}
}

/* Lets the program work on from call `count`, kills it after so many answers, and gives all that
 * it had answered. */
static int
kill_after(const char *path, int64_t count, int answers, struct answer *answer, int room)
{
	int channel[2], got = 0;
	assert_int_equal(pipe(channel), 0);
	pid_t program = fork();
	assert_true(program >= 0);
	if (program == 0) {
		close(channel[0]);
		work_and_tell(path, count, channel[1]);
	}
	close(channel[1]);
	while (got < room && read(channel[0], &answer[got], sizeof *answer) == sizeof *answer) {
		if (++got == answers)
			kill(program, SIGKILL);
	}
	close(channel[0]);
	int status;
	assert_true(waitpid(program, &status, 0) == program);
	assert_true(WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL);
	assert_in_range(got, answers, room - 1);
	return got;
}

static void
every_answered_call_survives(struct shop *shop, const struct answer *answer, int answers)
{
	for (int i = 0; i < answers; i++) {
		char sql[160], expected[40];
		snprintf(sql, sizeof sql,
			 "SELECT text || ' of ' || item FROM calls WHERE call = %d",
			 (int)answer[i].call);
		snprintf(expected, sizeof expected, "call %d of %d", (int)answer[i].count,
			 (int)answer[i].item);
		assert_string_equal(shop_ask(shop, sql), expected);
	}
}

static void
the_database_hangs_together(struct shop *shop)
{
	assert_string_equal(shop_ask(shop, "PRAGMA integrity_check"), "ok");
	assert_string_equal(shop_ask(shop, "SELECT count(*) FROM pragma_foreign_key_check"), "0");
	/* Of every call but "next" all parts are there, or none. */
	assert_string_equal(
		shop_ask(shop,
			 "SELECT count(*) FROM call LEFT JOIN entry USING (call)"
			 " LEFT JOIN deed ON deed.call = call.call"
			 " LEFT JOIN sound ON sound.utterance = call.utterance"
			 " LEFT JOIN standing ON standing.entry = entry.entry"
			 " WHERE call.type <> 'order' AND (entry.entry IS NULL OR deed.deed IS NULL"
			 " OR codec IS NULL OR standing.standing IS NULL OR entry.stands = 0)"),
		"0");
}

static void
every_answered_call_survives_a_kill(void **state)
{
	enum { ROOM = 400 };
	static struct answer answer[ROOM];
	struct shop shop;
	int64_t count = 0;
	unsigned luck = 20261125;
	shop_make_folder(&shop);
	for (int round = 0; round < ROUNDS; round++) {
		int answers = 1 + rand_r(&luck) % 40;
		int got = kill_after(shop.path, count, answers, answer, ROOM);
		struct problem problem = {""};
		shop.store = store_open(shop.path, &problem);
		assert_string_equal(problem.text, "");

		every_answered_call_survives(&shop, answer, got);
		the_database_hangs_together(&shop);
		/* At most the one call more that was stored and not yet told of. */
		int64_t stored = strtoll(shop_ask(&shop, "SELECT count(*) FROM call"), NULL, 10);
		assert_in_range(stored, count + got, count + got + 1);
		count = stored;
		bool between = count % CALLS_AN_ITEM == 0;
		int64_t in_hand = between ? 0 : count / CALLS_AN_ITEM + 1;
		assert_true(store_item_open(shop.store) == in_hand);
		store_close(shop.store);
		shop.store = NULL;
	}
	shop_tear_down(&shop);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_answered_call_survives_a_kill),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
