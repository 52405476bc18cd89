/* A recursive descent over the tokens: alternatives of sequences of items. */
#include "jsgf_read.h"

#include "growth.h"
#include "jsgf_scan.h"

#include <stdlib.h>
#include <string.h>

/* How deep groups may lie in each other, and how long a word may be. */
enum { NESTING_MAX = 64, WORD_MAX = 63 };

struct reading {
	struct jsgf *jsgf;
	struct scan scan;
	struct token token; /* the next one */
	int depth;
};

/* Every reading function returns the number of an expression, or -1 when the problem was said. */
static int read_alternatives(struct reading *reading);

static void
take(struct reading *reading)
{
	reading->token = scan_next(&reading->scan);
}

static bool
is_mark(const struct reading *reading, char mark)
{
	return reading->token.type == TOKEN_MARK && reading->token.mark == mark;
}

static bool
is_word(const struct reading *reading, const char *word)
{
	return reading->token.type == TOKEN_WORD && reading->token.length == strlen(word) &&
	       memcmp(reading->token.text, word, reading->token.length) == 0;
}

static bool
no_memory(struct reading *reading)
{
	return scan_refuse(&reading->scan, reading->token.line, "there is no memory left for it");
}

/* Refuses the next token, unless what is wrong with it was said already. */
static bool
unexpected(struct reading *reading, const char *wanted)
{
	if (reading->token.type == TOKEN_BAD)
		return false;
	if (reading->token.type == TOKEN_END)
		return scan_refuse(&reading->scan, reading->token.line,
				   "the grammar ends where %s should stand", wanted);
	if (reading->token.type == TOKEN_MARK)
		return scan_refuse(&reading->scan, reading->token.line,
				   "%s should stand where there is a \"%c\"", wanted,
				   reading->token.mark);
	if (reading->token.type == TOKEN_WEIGHT)
		return scan_refuse(&reading->scan, reading->token.line,
				   "a weight may only stand at the beginning of an alternative");
	return scan_refuse(&reading->scan, reading->token.line, "%s should stand before \"%.*s\"",
			   wanted, (int)(reading->token.length > 40 ? 40 : reading->token.length),
			   reading->token.text);
}

static bool
expect(struct reading *reading, char mark, const char *wanted)
{
	if (!is_mark(reading, mark))
		return unexpected(reading, wanted);
	take(reading);
	return true;
}

static int
new_expression(struct reading *reading, enum expression_type type, int value)
{
	struct jsgf *jsgf = reading->jsgf;
	if (!growth_reserve(&jsgf->expressions, &jsgf->expression_room, jsgf->expression_count + 1,
			    sizeof *jsgf->expressions)) {
		no_memory(reading);
		return -1;
	}
	jsgf->expressions[jsgf->expression_count] = (struct expression){
		.type = type,
		.value = value,
		.first = -1,
		.next = -1,
		.weight = 1,
		.line = reading->token.line,
	};
	return jsgf->expression_count++;
}

static int
wrap(struct reading *reading, enum expression_type type, int inside)
{
	int outside = inside < 0 ? -1 : new_expression(reading, type, -1);
	if (outside >= 0)
		reading->jsgf->expressions[outside].first = inside;
	return outside;
}

/* A word in lower case, A to Z only: what other letters become depends on the language. */
static int
word_expression(struct reading *reading, const char *text, size_t length)
{
	char word[WORD_MAX + 1];
	if (length > WORD_MAX) {
		scan_refuse(&reading->scan, reading->token.line, "a word is longer than %d letters",
			    WORD_MAX);
		return -1;
	}
	for (size_t i = 0; i < length; i++)
		word[i] = (char)(text[i] >= 'A' && text[i] <= 'Z' ? text[i] - 'A' + 'a' : text[i]);
	int number = names_add(reading->jsgf->words, word, length);
	if (number < 0) {
		no_memory(reading);
		return -1;
	}
	return new_expression(reading, EXPRESSION_WORD, number);
}

/* What is quoted is one word to JSGF; if there are blanks inside, it is said as several. */
static int
quoted_expression(struct reading *reading)
{
	struct token token = reading->token;
	int sequence = new_expression(reading, EXPRESSION_SEQUENCE, -1), last = -1;
	char word[WORD_MAX + 2];
	size_t length = 0;

	for (size_t i = 0; sequence >= 0 && i <= token.length; i++) {
		bool ends = i == token.length || token.text[i] == ' ' || token.text[i] == '\t';
		if (!ends) {
			if (token.text[i] == '\\' && i + 1 < token.length)
				i++;
			if (strchr("()<>", token.text[i]) != NULL) {
				scan_refuse(&reading->scan, token.line,
					    "a word must not have ( ) < or > in it");
				return -1;
			}
			if (length <= WORD_MAX)
				word[length++] = token.text[i];
			continue;
		}
		if (length == 0)
			continue;
		int part = word_expression(reading, word, length);
		if (part < 0)
			return -1;
		reading->jsgf->expressions[part].next = last;
		reading->jsgf->expressions[sequence].first = part;
		last = part;
		length = 0;
	}
	if (sequence >= 0 && last < 0) {
		scan_refuse(&reading->scan, token.line,
			    "there is nothing between the quotation marks");
		return -1;
	}
	return sequence;
}

/* The number of a rule that is referred to or defined here; the grammar's own name may stand
 * before it, as in <station.label>. */
static int
rule_number(struct reading *reading)
{
	struct jsgf *jsgf = reading->jsgf;
	const char *text = reading->token.text;
	size_t length = reading->token.length, own = strlen(jsgf->name);

	if (length > own + 1 && strncmp(text, jsgf->name, own) == 0 && text[own] == '.') {
		text += own + 1;
		length -= own + 1;
	}
	int count = names_count(jsgf->rule_names);
	int number = names_add(jsgf->rule_names, text, length);
	if (number < 0 ||
	    !growth_reserve(&jsgf->rules, &jsgf->rule_room, number + 1, sizeof *jsgf->rules)) {
		no_memory(reading);
		return -1;
	}
	if (number == count)
		jsgf->rules[number] = (struct rule){.expression = -1, .line = reading->token.line};
	return number;
}

static int
rule_expression(struct reading *reading)
{
	struct token token = reading->token;
	if (token.length == 4 && memcmp(token.text, "NULL", 4) == 0)
		return new_expression(reading, EXPRESSION_NULL, -1);
	if (token.length == 4 && memcmp(token.text, "VOID", 4) == 0)
		return new_expression(reading, EXPRESSION_VOID, -1);
	int number = rule_number(reading);
	return number < 0 ? -1 : new_expression(reading, EXPRESSION_RULE, number);
}

static int
read_group(struct reading *reading)
{
	bool optional = reading->token.mark == '[';
	if (reading->depth == NESTING_MAX) {
		scan_refuse(&reading->scan, reading->token.line,
			    "groups lie more than %d deep in each other", NESTING_MAX);
		return -1;
	}
	reading->depth++;
	take(reading);
	int inside = read_alternatives(reading);
	reading->depth--;
	if (inside < 0 || !expect(reading, optional ? ']' : ')', optional ? "a ]" : "a )"))
		return -1;
	return optional ? wrap(reading, EXPRESSION_OPTIONAL, inside) : inside;
}

/* "word", <rule>, (group) or [optional], and then any number of * and +. Of those, two say no more
 * than one: X** is X*, and so are X*+ and X+*; X++ is X+. */
static int
read_item(struct reading *reading)
{
	int item = -1;

	switch (reading->token.type) {
	case TOKEN_WORD:
		item = word_expression(reading, reading->token.text, reading->token.length);
		take(reading);
		break;
	case TOKEN_QUOTED:
		item = quoted_expression(reading);
		take(reading);
		break;
	case TOKEN_RULE:
		item = rule_expression(reading);
		take(reading);
		break;
	case TOKEN_MARK:
		if (is_mark(reading, '(') || is_mark(reading, '['))
			item = read_group(reading);
		else
			unexpected(reading, "a word");
		break;
	case TOKEN_END:
	case TOKEN_WEIGHT:
	case TOKEN_BAD:
		unexpected(reading, "a word");
		break;
	}
	bool star = false, loops = false;
	for (; item >= 0 && (is_mark(reading, '*') || is_mark(reading, '+')); take(reading)) {
		star = star || is_mark(reading, '*');
		loops = true;
	}
	if (!loops)
		return item;
	return wrap(reading, star ? EXPRESSION_STAR : EXPRESSION_PLUS, item);
}

static bool
ends_sequence(const struct reading *reading)
{
	return is_mark(reading, '|') || is_mark(reading, ')') || is_mark(reading, ']') ||
	       is_mark(reading, ';');
}

static int
read_sequence(struct reading *reading)
{
	int last = -1, count = 0;

	if (ends_sequence(reading)) {
		scan_refuse(&reading->scan, reading->token.line,
			    "there is nothing to say here: write <NULL> if that is meant");
		return -1;
	}
	for (; !ends_sequence(reading); count++) {
		int item = read_item(reading);
		if (item < 0)
			return -1;
		reading->jsgf->expressions[item].next = last;
		last = item;
	}
	return count == 1 ? last : wrap(reading, EXPRESSION_SEQUENCE, last);
}

static int
read_alternatives(struct reading *reading)
{
	int first = -1, last = -1, line = reading->token.line;
	double sum = 0;

	for (;;) {
		double weight = 1;
		if (reading->token.type == TOKEN_WEIGHT) {
			weight = reading->token.weight;
			take(reading);
		}
		int sequence = read_sequence(reading);
		/* An item of its own, since the item may be part of another chain. */
		sequence = wrap(reading, EXPRESSION_SEQUENCE, sequence);
		if (sequence < 0)
			return -1;
		reading->jsgf->expressions[sequence].weight = (float)weight;
		sum += weight;
		if (last < 0)
			first = sequence;
		else
			reading->jsgf->expressions[last].next = sequence;
		last = sequence;
		if (!is_mark(reading, '|'))
			break;
		take(reading);
	}
	if (sum <= 0) {
		scan_refuse(&reading->scan, line, "one of the alternatives has to have a weight");
		return -1;
	}
	for (int i = first; i >= 0; i = reading->jsgf->expressions[i].next)
		reading->jsgf->expressions[i].weight /= (float)sum;
	return first == last ? first : wrap(reading, EXPRESSION_ALTERNATIVES, first);
}

static bool
read_name(struct reading *reading)
{
	take(reading);
	if (!is_word(reading, "grammar"))
		return unexpected(reading, "\"grammar\" and the grammar's name");
	take(reading);
	if (reading->token.type != TOKEN_WORD)
		return unexpected(reading, "the grammar's name");
	reading->jsgf->name = strndup(reading->token.text, reading->token.length);
	if (reading->jsgf->name == NULL)
		return no_memory(reading);
	take(reading);
	return expect(reading, ';', "a semicolon");
}

/* [public] <name> = alternatives ; */
static bool
read_rule(struct reading *reading)
{
	struct jsgf *jsgf = reading->jsgf;
	int line = reading->token.line;
	bool public = is_word(reading, "public");

	if (is_word(reading, "import"))
		return scan_refuse(&reading->scan, line,
				   "rules of other grammars cannot be imported: copy them here");
	if (public)
		take(reading);
	if (reading->token.type != TOKEN_RULE)
		return unexpected(reading, "a rule's name in < >");
	if (reading->token.length == 4 && (memcmp(reading->token.text, "NULL", 4) == 0 ||
					   memcmp(reading->token.text, "VOID", 4) == 0))
		return scan_refuse(&reading->scan, line, "<%.4s> has a meaning already",
				   reading->token.text);
	int number = rule_number(reading);
	if (number < 0)
		return false;
	if (jsgf->rules[number].expression >= 0)
		return scan_refuse(
			&reading->scan, line,
			"the rule <%s> is defined a second time: the first is in line %d",
			names_text(jsgf->rule_names, number), jsgf->rules[number].line);
	take(reading);
	if (!expect(reading, '=', "a ="))
		return false;
	int expression = read_alternatives(reading);
	if (expression < 0)
		return false;
	jsgf->rules[number].expression = expression;
	jsgf->rules[number].line = line;
	if (public && jsgf->public_rule < 0)
		jsgf->public_rule = number;
	return expect(reading, ';', "a semicolon");
}

bool
jsgf_read(struct jsgf *jsgf, const char *text, struct problem *problem)
{
	struct reading reading = {.jsgf = jsgf};

	if (!scan_begin(&reading.scan, jsgf->file, text, problem) || !read_name(&reading))
		return false;
	while (reading.token.type != TOKEN_END)
		if (!read_rule(&reading))
			return false;
	return true;
}
