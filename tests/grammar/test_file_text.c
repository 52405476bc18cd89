#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "file_text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* A new file in the working folder with these bytes; its name in `path`. */
static void
make_file(char path[32], const char *bytes, size_t length)
{
	strcpy(path, "text-XXXXXX");
	int fd = mkstemp(path);
	assert_true(fd >= 0);
	assert_int_equal(write(fd, bytes, length), length);
	close(fd);
}

static void
the_whole_text_is_read(void **state)
{
	static const char *const TEXTS[] = {"", "chest\n", "no new line at the end",
					    "\xc3\xa4\r\n"};
	for (size_t i = 0; i < sizeof TEXTS / sizeof TEXTS[0]; i++) {
		struct problem problem = {""};
		char path[32];
		make_file(path, TEXTS[i], strlen(TEXTS[i]));
		char *text = file_text(path, &problem);
		assert_non_null(text);
		assert_string_equal(text, TEXTS[i]);
		free(text);
		text = file_text_in(".", path, &problem);
		assert_non_null(text);
		assert_string_equal(text, TEXTS[i]);
		free(text);
		unlink(path);
	}
}

static void
a_long_text_is_read_to_its_end(void **state)
{
	enum { LENGTH = 300 * 1000 };
	struct problem problem = {""};
	char path[32], *long_text = malloc(LENGTH + 1);
	assert_non_null(long_text);
	for (int i = 0; i < LENGTH; i++)
		long_text[i] = (char)('a' + i % 26);
	long_text[LENGTH] = '\0';
	for (int length = LENGTH; length > 0; length = length > 131072 ? 131072 : length - 65536) {
		long_text[length] = '\0';
		make_file(path, long_text, (size_t)length);
		char *text = file_text(path, &problem);
		assert_non_null(text);
		assert_string_equal(text, long_text);
		free(text);
		unlink(path);
	}
	free(long_text);
}

static void
refuses(const char *path, const char *what)
{
	struct problem problem = {""};
	assert_null(file_text(path, &problem));
	assert_non_null(strstr(problem.text, path));
	if (strstr(problem.text, what) == NULL)
		fail_msg("%s", problem.text);
}

static void
what_is_no_text_file_is_refused_by_name(void **state)
{
	char path[32];

	refuses("no such file.gram", "No such file");
	refuses(".", "folder");
	make_file(path, "chest\0waist", 11);
	refuses(path, "zero byte");
	unlink(path);
	make_file(path, "", 0);
	assert_int_equal(truncate(path, 16 * 1024 * 1024 + 1), 0);
	refuses(path, "16 MiB");
	unlink(path);
}

int
main(void)
{
	static const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_whole_text_is_read),
		cmocka_unit_test(a_long_text_is_read_to_its_end),
		cmocka_unit_test(what_is_no_text_file_is_refused_by_name),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
