#include "jsgf_scan.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

static const char blanks[] = " \t\r\n\v\f";
static const char marks[] = ";=|*+()[]";
/* What ends a word: blanks, marks, and what begins a token of another kind. */
static const char word_ends[] = " \t\r\n\v\f;=|*+()[]<>{}/\"";

enum { RULE_NAME_MAX = 200, WEIGHT_DIGITS_MAX = 30 };

bool
scan_refuse(const struct scan *scan, int line, const char *format, ...)
{
	char what[400];
	va_list arguments;
	va_start(arguments, format);
	vsnprintf(what, sizeof what, format, arguments);
	va_end(arguments);
	return problem_say(scan->problem, "%s, line %d: %s", scan->file, line, what);
}

/* How many bytes the UTF-8 letter at `text` has (RFC 3629); 0 when it is none. */
static int
letter_bytes(const unsigned char *text)
{
	static const struct {
		unsigned char low, high;
		unsigned char second_low, second_high;
		int bytes;
	} rows[] = {
		{0x09, 0x0d, 0, 0, 1},	     {0x20, 0x7e, 0, 0, 1},
		{0xc2, 0xdf, 0x80, 0xbf, 2}, {0xe0, 0xe0, 0xa0, 0xbf, 3},
		{0xe1, 0xec, 0x80, 0xbf, 3}, {0xed, 0xed, 0x80, 0x9f, 3},
		{0xee, 0xef, 0x80, 0xbf, 3}, {0xf0, 0xf0, 0x90, 0xbf, 4},
		{0xf1, 0xf3, 0x80, 0xbf, 4}, {0xf4, 0xf4, 0x80, 0x8f, 4},
	};
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		if (text[0] < rows[i].low || text[0] > rows[i].high)
			continue;
		if (rows[i].bytes > 1 &&
		    (text[1] < rows[i].second_low || text[1] > rows[i].second_high))
			return 0;
		for (int k = 2; k < rows[i].bytes; k++)
			if (text[k] < 0x80 || text[k] > 0xbf)
				return 0;
		return rows[i].bytes;
	}
	return 0;
}

static bool
check_letters(const struct scan *scan, const char *text)
{
	int line = 1;
	for (int bytes; *text != '\0'; text += bytes) {
		line += *text == '\n';
		bytes = letter_bytes((const unsigned char *)text);
		if (bytes == 0)
			return scan_refuse(scan, line,
					   "there is something here that is no UTF-8 text: save "
					   "the grammar as UTF-8");
	}
	return true;
}

static bool
read_header(struct scan *scan)
{
	static const char header[] = "#JSGF", version[] = "V1.0", byte_order[] = "\xef\xbb\xbf";

	if (strncmp(scan->at, byte_order, strlen(byte_order)) == 0)
		scan->at += strlen(byte_order);
	if (strncmp(scan->at, header, strlen(header)) != 0)
		return scan_refuse(scan, 1,
				   "this is no JSGF grammar: its first line has to be "
				   "\"#JSGF V1.0;\"");
	scan->at += strlen(header);
	scan->at += strspn(scan->at, " \t");
	size_t said = strcspn(scan->at, " \t\r\n;");
	if (said != strlen(version) || strncmp(scan->at, version, said) != 0)
		return scan_refuse(scan, 1,
				   "the first line names a version of JSGF that cannot be read: it "
				   "has to be \"#JSGF V1.0;\"");
	scan->at += said;
	scan->at += strcspn(scan->at, ";\r\n");
	if (*scan->at != ';')
		return scan_refuse(scan, 1, "the first line does not end with a semicolon");
	scan->at++;
	return true;
}

bool
scan_begin(struct scan *scan, const char *file, const char *text, struct problem *problem)
{
	*scan = (struct scan){.file = file, .at = text, .line = 1, .problem = problem};
	return check_letters(scan, text) && read_header(scan);
}

static struct token
bad(const struct scan *scan, int line, const char *what)
{
	scan_refuse(scan, line, "%s", what);
	return (struct token){.type = TOKEN_BAD, .line = line};
}

/* Goes on to `end`, where a \ takes the meaning from what follows it; false at the text's end. */
static bool
pass_to(struct scan *scan, char end)
{
	for (; *scan->at != '\0' && *scan->at != end; scan->at++) {
		if (*scan->at == '\\' && scan->at[1] != '\0')
			scan->at++;
		scan->line += *scan->at == '\n';
	}
	return *scan->at != '\0';
}

/* Blanks, comments and tags. Returns what is wrong, or NULL. */
static const char *
pass_over(struct scan *scan)
{
	for (;;) {
		if (*scan->at != '\0' && strchr(blanks, *scan->at) != NULL) {
			scan->line += *scan->at == '\n';
			scan->at++;
		} else if (scan->at[0] == '/' && scan->at[1] == '/') {
			scan->at += strcspn(scan->at, "\n");
		} else if (scan->at[0] == '/' && scan->at[1] == '*') {
			const char *end = strstr(scan->at + 2, "*/");
			if (end == NULL)
				return "the comment that begins here has no end (*/)";
			for (; scan->at < end; scan->at++)
				scan->line += *scan->at == '\n';
			scan->at += 2;
		} else if (*scan->at == '{') {
			struct scan tag = *scan;
			if (!pass_to(&tag, '}'))
				return "the tag that begins here has no end (})";
			*scan = tag;
			scan->at++;
		} else {
			return NULL;
		}
	}
}

/* A decimal number, without what the locale thinks of it. */
static bool
read_number(const char *text, size_t length, double *number)
{
	double scale = 1;
	int digits = 0;
	bool point = false;

	*number = 0;
	for (size_t i = 0; i < length; i++) {
		if (text[i] == '.' && !point) {
			point = true;
		} else if (text[i] >= '0' && text[i] <= '9') {
			*number = 10 * *number + (text[i] - '0');
			scale *= point ? 10 : 1;
			digits++;
		} else {
			return false;
		}
	}
	*number /= scale;
	return digits > 0 && digits <= WEIGHT_DIGITS_MAX;
}

static struct token
read_weight(struct scan *scan)
{
	struct token token = {.type = TOKEN_WEIGHT, .line = scan->line};
	const char *number = scan->at + 1 + strspn(scan->at + 1, " \t");
	size_t length = strcspn(number, " \t\r\n/");
	const char *end = number + length + strspn(number + length, " \t");

	if (*end != '/' || !read_number(number, length, &token.weight))
		return bad(scan, scan->line,
			   "a weight has to be a number between slashes, as in /2.5/");
	scan->at = end + 1;
	return token;
}

static struct token
read_rule_name(struct scan *scan)
{
	size_t length = strcspn(scan->at + 1, "<> \t\r\n");
	struct token token = {
		.type = TOKEN_RULE, .line = scan->line, .text = scan->at + 1, .length = length};

	if (scan->at[1 + length] != '>' || length == 0)
		return bad(scan, scan->line, "a rule's name has to stand between < and >");
	if (length > RULE_NAME_MAX)
		return bad(scan, scan->line, "a rule's name is longer than 200 letters");
	scan->at += length + 2;
	return token;
}

static struct token
read_quoted(struct scan *scan)
{
	struct token token = {.type = TOKEN_QUOTED, .line = scan->line, .text = ++scan->at};
	struct scan quoted = *scan;

	if (!pass_to(&quoted, '"') || quoted.line != scan->line)
		return bad(scan, scan->line,
			   "the quotation that begins here has no end in its line");
	token.length = (size_t)(quoted.at - scan->at);
	scan->at = quoted.at + 1;
	return token;
}

struct token
scan_next(struct scan *scan)
{
	const char *wrong = pass_over(scan);
	struct token token = {.line = scan->line, .text = scan->at};

	if (wrong != NULL)
		return bad(scan, scan->line, wrong);
	if (*scan->at == '\0')
		return token;
	if (strchr(marks, *scan->at) != NULL) {
		token.type = TOKEN_MARK;
		token.mark = *scan->at++;
		return token;
	}
	switch (*scan->at) {
	case '/':
		return read_weight(scan);
	case '<':
		return read_rule_name(scan);
	case '"':
		return read_quoted(scan);
	case '>':
		return bad(scan, scan->line, "there is a > without a <");
	case '}':
		return bad(scan, scan->line, "there is a } without a {");
	}
	token.type = TOKEN_WORD;
	token.length = strcspn(scan->at, word_ends);
	scan->at += token.length;
	return token;
}
