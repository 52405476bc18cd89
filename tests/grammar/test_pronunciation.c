#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "file_text.h"
#include "pronunciation.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

/* The phones of the recogniser's model en-us. */
static const char phones[] =
	"AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW "
	"V W Y Z ZH";

static void
read_dictionary(struct pronunciations *pronunciations, const char *text)
{
	struct problem problem = {""};
	if (!pronunciations_read(pronunciations, "bench.dict", text, phones, &problem))
		fail_msg("%s", problem.text);
}

static void
said(const struct pronunciations *pronunciations, const char *word, int index, const char *wanted)
{
	const char *found = pronunciations_of(pronunciations, word, index);
	if (wanted == NULL ? found != NULL : found == NULL || strcmp(found, wanted) != 0)
		fail_msg("%s (%d): %s", word, index, found == NULL ? "nothing" : found);
}

static void
a_dictionary_gives_words_their_ways(void **state)
{
	struct pronunciations *pronunciations = pronunciations_create();
	read_dictionary(pronunciations, "# measures\n"
					";; and more\n"
					"\n"
					"inseam IH N S IY M\n"
					"Placket\t P  L AE K IH T \r\n"
					"placket(2) P L AE K AH T\n"
					"placket(3) P L AE K AH T\n"
					"don't D OW N T\n"
					"hem HH EH M");
	said(pronunciations, "inseam", 0, "IH N S IY M");
	said(pronunciations, "inseam", 1, NULL);
	said(pronunciations, "inseam", -1, NULL);
	said(pronunciations, "placket", 0, "P L AE K IH T");
	said(pronunciations, "placket", 1, "P L AE K AH T");
	said(pronunciations, "placket", 2, NULL);
	said(pronunciations, "don't", 0, "D OW N T");
	said(pronunciations, "hem", 0, "HH EH M");
	said(pronunciations, "waist", 0, NULL);
	assert_true(pronunciations_has(pronunciations, "hem"));
	assert_false(pronunciations_has(pronunciations, "placket(2)"));
	assert_false(pronunciations_has(pronunciations, ""));
	pronunciations_destroy(pronunciations);
	pronunciations_destroy(NULL);
}

static void
the_first_file_wins(void **state)
{
	struct pronunciations *pronunciations = pronunciations_create();
	read_dictionary(pronunciations, "tear T EH R\n");
	read_dictionary(pronunciations, "tear T IH R\ntear(2) T EH R Z\nhem HH EH M\n");
	said(pronunciations, "tear", 0, "T EH R");
	said(pronunciations, "tear", 1, NULL);
	said(pronunciations, "hem", 0, "HH EH M");
	pronunciations_destroy(pronunciations);
}

static void
a_bad_line_is_named(void **state)
{
	static const struct {
		const char *text, *what;
	} CASES[] = {
		{"hem\n", "bench.dict, line 1: the sounds of \"hem\" are missing"},
		{"hem HH EH M\n# one\ncuff   \n", "line 3: the sounds of \"cuff\" are missing"},
		{"hem HH EH1 M\n", "line 1: \"EH1\" in \"hem\""},
		{"\nhem hh eh m\n", "line 2: \"hh\" in \"hem\""},
		{"hem HH EH M\ncuff(2) K Q F\n", "line 2: \"Q\" in \"cuff\""},
		{"hem HH EH M # turned up\n", "line 1: \"#\" in \"hem\""},
		{"wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww W\n",
		 "line 1: a word is longer"},
	};
	for (size_t i = 0; i < COUNT(CASES); i++) {
		struct pronunciations *pronunciations = pronunciations_create();
		struct problem problem = {""};
		assert_false(pronunciations_read(pronunciations, "bench.dict", CASES[i].text,
						 phones, &problem));
		if (strstr(problem.text, CASES[i].what) == NULL ||
		    strncmp(problem.text, "bench.dict, line ", 17) != 0)
			fail_msg("%s", problem.text);
		pronunciations_destroy(pronunciations);
	}
	struct pronunciations *pronunciations = pronunciations_create();
	struct problem problem = {""};
	assert_true(
		pronunciations_read(pronunciations, "bench.dict", "hem h E m\n", NULL, &problem));
	pronunciations_destroy(pronunciations);
}

static void
only_what_is_wanted_is_looked_up(void **state)
{
	static const char large[] = ";;; a large dictionary\n"
				    "chest CH EH S T\n"
				    "chests CH EH S T S\n"
				    "route R UW T\n"
				    "route(2) R AW T\n"
				    "route's R UW T S\n"
				    "tear T IH R\n";
	static const char *const WANTED[] = {"route", "tear", "chest", "quernby"};
	struct pronunciations *pronunciations = pronunciations_create();
	struct problem problem = {""};
	char path[] = "dict-XXXXXX";
	int fd = mkstemp(path);

	assert_true(fd >= 0);
	assert_int_equal(write(fd, large, strlen(large)), strlen(large));
	close(fd);
	read_dictionary(pronunciations, "tear T EH R\n");
	assert_true(pronunciations_look_up(pronunciations, path, WANTED, COUNT(WANTED), &problem));
	unlink(path);
	said(pronunciations, "route", 0, "R UW T");
	said(pronunciations, "route", 1, "R AW T");
	said(pronunciations, "tear", 0, "T EH R");
	said(pronunciations, "tear", 1, NULL);
	said(pronunciations, "chest", 0, "CH EH S T");
	assert_false(pronunciations_has(pronunciations, "quernby"));
	assert_false(pronunciations_has(pronunciations, "chests"));

	assert_false(pronunciations_look_up(pronunciations, "no such dictionary", WANTED,
					    COUNT(WANTED), &problem));
	assert_non_null(strstr(problem.text, "no such dictionary"));
	pronunciations_destroy(pronunciations);
}

static bool
made_of_phones(const char *way)
{
	char known[sizeof phones + 2], looked_for[16];
	snprintf(known, sizeof known, " %s ", phones);
	while (*way != '\0') {
		size_t length = strcspn(way, " ");
		snprintf(looked_for, sizeof looked_for, " %.*s ", (int)length, way);
		if (length == 0 || strstr(known, looked_for) == NULL)
			return false;
		way += length;
		way += *way == ' ';
	}
	return true;
}

static void
new_words_are_worked_out(void **state)
{
	/* Where there are phones, they are what flite 2.2 gives. */
	static const struct {
		const char *word, *way;
	} CASES[] = {
		{"chest", "CH EH S T"}, {"Cotton", "K AA T AH N"}, {"marlock", NULL},
		{"hallowick", NULL},	{"orlscombe", NULL},	   {"t-shirt", "T IY SH ER T"},
		{"quernby", NULL},	{"o'dell", NULL},	   {"zzz", NULL},
	};
	for (size_t i = 0; i < COUNT(CASES); i++) {
		struct pronunciations *pronunciations = pronunciations_create();
		struct problem problem = {""};
		if (!pronunciations_work_out(pronunciations, CASES[i].word, &problem))
			fail_msg("%s", problem.text);
		const char *way = pronunciations_of(pronunciations, CASES[i].word, 0);
		assert_non_null(way);
		if (!made_of_phones(way))
			fail_msg("%s: %s", CASES[i].word, way);
		if (CASES[i].way != NULL)
			assert_string_equal(way, CASES[i].way);
		said(pronunciations, CASES[i].word, 1, NULL);
		pronunciations_destroy(pronunciations);
	}
}

static void
what_cannot_be_read_aloud_is_refused(void **state)
{
	static const struct {
		const char *word, *what;
	} CASES[] = {
		{"x1!", "digits"},
		{"501", "digits"},
		{"b12", "digits"},
		{"", "no letters"},
		{"-", "no letters"},
		{"'", "no letters"},
		{"caf\xc3\xa9", "letters a to z"},
		{"50%", "digits"},
		{"a&b", "letters a to z"},
		{"two words", "letters a to z"},
		{"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa", "longer than"},
	};
	struct pronunciations *pronunciations = pronunciations_create();
	for (size_t i = 0; i < COUNT(CASES); i++) {
		struct problem problem = {""};
		assert_false(pronunciations_work_out(pronunciations, CASES[i].word, &problem));
		if (strstr(problem.text, CASES[i].what) == NULL)
			fail_msg("\"%s\": %s", CASES[i].word, problem.text);
		assert_false(pronunciations_has(pronunciations, CASES[i].word));
	}
	pronunciations_destroy(pronunciations);
}

static void
the_recogniser_gets_all_ways(void **state)
{
	static const char *const WORDS[] = {"route", "hem", "nowhere", "route"};
	struct pronunciations *pronunciations = pronunciations_create();
	read_dictionary(pronunciations,
			"hem HH EH M\nroute R UW T\nroute(2) R AW T\nwaist W EY S T\n");
	char *text = pronunciations_dictionary(pronunciations, WORDS, 3);
	assert_non_null(text);
	assert_string_equal(text, "route R UW T\nroute(2) R AW T\nhem HH EH M\n");
	free(text);
	text = pronunciations_dictionary(pronunciations, WORDS, 0);
	assert_string_equal(text, "");
	free(text);
	pronunciations_destroy(pronunciations);
}

static void
the_trades_dictionary_is_good(void **state)
{
	static const char *const WORDS[] = {"inseam",	 "outseam",   "waistband",  "placket",
					    "odour",	 "colour",    "grey",	    "pilling",
					    "scuff",	 "elastane",  "viscose",    "lyocell",
					    "polyamide", "waistcoat", "hallowick",  "orlscombe",
					    "quernby",	 "marlock",   "centimetre", "centimetres"};
	const char *grammars = getenv("LAPEL_GRAMMARS");
	struct pronunciations *pronunciations = pronunciations_create();
	struct problem problem = {""};

	assert_non_null(grammars);
	char *text = file_text_in(grammars, "trade.dict", &problem);
	assert_non_null(text);
	read_dictionary(pronunciations, text);
	free(text);
	for (size_t i = 0; i < COUNT(WORDS); i++)
		if (!pronunciations_has(pronunciations, WORDS[i]))
			fail_msg("%s is missing", WORDS[i]);
	said(pronunciations, "tear", 0, "T EH R"); /* in cloth, not of an eye */
	said(pronunciations, "tear", 1, NULL);
	pronunciations_destroy(pronunciations);
}

int
main(void)
{
	static const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_dictionary_gives_words_their_ways),
		cmocka_unit_test(the_first_file_wins),
		cmocka_unit_test(a_bad_line_is_named),
		cmocka_unit_test(only_what_is_wanted_is_looked_up),
		cmocka_unit_test(new_words_are_worked_out),
		cmocka_unit_test(what_cannot_be_read_aloud_is_refused),
		cmocka_unit_test(the_recogniser_gets_all_ways),
		cmocka_unit_test(the_trades_dictionary_is_good),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
