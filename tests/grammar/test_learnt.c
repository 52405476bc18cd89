/* Words that were on no list, typed once, and known from then on. */
#include "learnt.h"

#include "station.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

static char folder[64], inner[80], makers[100];
static struct vocabulary *vocabulary;

static struct vocabulary *
lists(void)
{
	struct problem problem = {""};
	struct vocabulary *read = station_vocabulary(getenv("LAPEL_GRAMMARS"), NULL, &problem);
	assert_string_equal(problem.text, "");
	return read;
}

static int
set_up(void **state)
{
	snprintf(folder, sizeof folder, "/tmp/tidewrack-XXXXXX");
	assert_non_null(mkdtemp(folder));
	snprintf(inner, sizeof inner, "%s/own/lists", folder);
	snprintf(makers, sizeof makers, "%s/makers.txt", inner);
	vocabulary = lists();
	return 0;
}

static int
tear_down(void **state)
{
	static const char *const files[] = {"makers.txt", "fibres.txt", "kinds.txt"};
	char path[160];
	vocabulary_destroy(vocabulary);
	for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
		snprintf(path, sizeof path, "%s/%s", inner, files[i]);
		unlink(path);
	}
	rmdir(inner);
	snprintf(path, sizeof path, "%s/own", folder);
	rmdir(path);
	return rmdir(folder);
}

static void
put_makers(const char *text)
{
	char path[100];
	snprintf(path, sizeof path, "%s/own", folder);
	mkdir(path, 0700);
	mkdir(inner, 0700);
	FILE *file = fopen(makers, "w");
	assert_non_null(file);
	fputs(text, file);
	fclose(file);
}

static void
a_word_is_learnt_once_and_read_again(void **state)
{
	struct problem problem = {""};
	assert_true(learnt_read(vocabulary, inner, &problem)); /* nothing is there yet */
	assert_true(learnt_add(vocabulary, inner, LIST_MAKER, "gull and sons", &problem));
	assert_true(learnt_add(vocabulary, inner, LIST_FIBRE, "nettle", &problem));
	assert_true(vocabulary_find(vocabulary, LIST_MAKER, "gull and sons") >= 0);
	vocabulary_destroy(vocabulary);
	vocabulary = lists();
	assert_int_equal(vocabulary_find(vocabulary, LIST_MAKER, "gull and sons"), -1);
	assert_true(learnt_read(vocabulary, inner, &problem));
	assert_true(vocabulary_find(vocabulary, LIST_MAKER, "gull and sons") >= 0);
	assert_true(vocabulary_find(vocabulary, LIST_FIBRE, "nettle") >= 0);
}

static void
what_nobody_can_say_is_not_learnt(void **state)
{
	static const char *const words[] = {"gull & sons", "none",	 "other",   "Gull",
					    "h2o",	   "",		 "marlock", "a | b",
					    "a, b",	   "caf\xc3\xa9"};
	for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
		struct problem problem = {""};
		assert_false(learnt_add(vocabulary, inner, LIST_MAKER, words[i], &problem));
		assert_true(problem.text[0] != '\0');
	}
	struct problem problem = {""};
	assert_false(learnt_add(vocabulary, inner, LIST_BIN, "attic", &problem));
	assert_int_not_equal(access(makers, F_OK), 0);
}

static void
the_user_may_edit_what_was_learnt(void **state)
{
	struct problem problem = {""};
	put_makers("# mine\n\ngull and sons | gull\nmarlock\n"); /* the second is known */
	assert_true(learnt_read(vocabulary, inner, &problem));
	struct words words;
	int used;
	assert_true(words_split(&words, "gull"));
	assert_true(vocabulary_match(vocabulary, LIST_MAKER, &words, 0, &used) >= 0);
}

static void
a_table_that_is_none_is_told(void **state)
{
	struct problem problem = {""};
	put_makers("gull & sons\n");
	assert_false(learnt_read(vocabulary, inner, &problem));
	assert_non_null(strstr(problem.text, "makers.txt"));
}

static void
a_folder_that_cannot_be_made_is_told(void **state)
{
	struct problem problem = {""};
	assert_false(learnt_add(vocabulary, "/proc/lapel/lists", LIST_MAKER, "gull", &problem));
	assert_non_null(strstr(problem.text, "/proc/lapel/lists"));
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(a_word_is_learnt_once_and_read_again), TEST(what_nobody_can_say_is_not_learnt),
		TEST(the_user_may_edit_what_was_learnt),    TEST(a_table_that_is_none_is_told),
		TEST(a_folder_that_cannot_be_made_is_told),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
