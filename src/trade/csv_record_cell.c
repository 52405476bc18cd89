/* A cell as a call. One of words reads as what would be said after its column's name, so that it
 * means what it would mean at the station, and is held against the same lists. */
#include "csv_column.h"

#include "meaning.h"
#include "set_piece.h"
#include "spell_figures.h"
#include "table.h"

#include <ctype.h>
#include <jansson.h>
#include <stdio.h>
#include <string.h>

enum { GRAMS_MOST = 9999 }; /* as weight.h */

static bool
refuse(struct problem *problem, const char *column, const char *cell, const char *why)
{
	return problem_say(problem, "%s: \"%.80s\" %s", column, cell, why);
}

/* What the words mean after the name of the type (a measure has its own): one call of it, or
 * nothing. */
static bool
mean(const struct cell_setting *setting, enum call_type type, const char *cell, struct call *call)
{
	char spelled[WORDS_TEXT_MAX], said[WORDS_TEXT_MAX + CALL_NAME_MAX];
	struct words words;
	struct meaning meaning;
	struct meaning_setting as = {.unit = setting->unit};

	memcpy(as.currency, setting->currency, sizeof as.currency);
	if (!spell_figures(cell, spelled, sizeof spelled))
		return false;
	snprintf(said, sizeof said, "%s %s", type == CALL_MEASURE ? "" : call_type_name(type),
		 spelled);
	if (!words_split(&words, said) ||
	    !meaning_read(setting->vocabulary, &as, &words, &meaning) || meaning.count != 1 ||
	    meaning.calls[0].type != type || meaning.calls[0].correction)
		return false;
	*call = meaning.calls[0];
	call->first_word = call->word_count = 0;
	return true;
}

/* A name of letters, digits, ' and single spaces, as the cell has it but for capitals. */
static bool
plain_name(const char *cell, char *name, size_t size)
{
	struct words words;

	if (strlen(cell) >= size || !words_split(&words, cell) || words.count == 0)
		return false;
	name[0] = '\0';
	for (int i = 0; i < words.count; i++)
		words_append(name, size, words.word[i]);
	return name[strspn(name, "abcdefghijklmnopqrstuvwxyz0123456789' ")] == '\0';
}

/* A name that is on no list, as the cell has it: what can be kept as text, and no more. */
static bool
any_name(const char *cell, char *name, size_t size)
{
	if (strlen(cell) >= size)
		return false;
	for (const char *c = cell; *c != '\0'; c++)
		if (iscntrl((unsigned char)*c))
			return false;
	json_t *text = json_string(cell); /* none when it is no UTF-8 */
	bool good = text != NULL;
	json_decref(text);
	if (good)
		strcpy(name, cell);
	return good;
}

/* Whether both have the same figures one after the other. What parts figures in a cell is not said:
 * "6-7 years" reads as six seven years, which is 67. */
static bool
same_figures(const char *one, const char *other)
{
	static const char figures[] = "0123456789";
	for (;;) {
		one += strcspn(one, figures);
		other += strcspn(other, figures);
		size_t length = strspn(one, figures);
		if (length != strspn(other, figures) || memcmp(one, other, length) != 0)
			return false;
		if (length == 0)
			return true;
		one += length;
		other += length;
	}
}

static bool
mean_name(const struct cell_setting *setting, enum call_type type, const char *cell,
	  struct call *call)
{
	struct call meant;
	bool figures = type == CALL_SIZE && strpbrk(cell, "0123456789") != NULL;
	if (!mean(setting, type, cell, &meant) ||
	    (figures && !meant.other && !same_figures(cell, meant.name)))
		return false;
	*call = meant;
	return true;
}

static bool
read_words(const struct cell_setting *setting, const struct csv_column *column, const char *cell,
	   struct call *call, struct problem *problem)
{
	/* A maker may have been spelled out, and tags say all sorts of things. */
	bool open = column->type == CALL_MAKER || column->type == CALL_SIZE;

	if (mean_name(setting, column->type, cell, call) ||
	    (open && any_name(cell, call->name, sizeof call->name)))
		return true;
	return refuse(problem, column->name, cell,
		      open ? "is too long, or no text"
			   : "is not on the list: put it there, or "
			     "correct it");
}

/* A number is figures. So is a bin, or it is a name on the user's list, if there is one. */
static bool
read_label(const struct cell_setting *setting, const struct csv_column *column, const char *cell,
	   struct call *call, struct problem *problem)
{
	const struct vocabulary *vocabulary = setting->vocabulary;
	struct words words;
	int used;

	if (strlen(cell) >= sizeof call->label)
		return refuse(problem, column->name, cell, "is too long");
	strcpy(call->label, cell);
	if (cell[strspn(cell, "0123456789")] == '\0')
		return true;
	if (column->type == CALL_ITEM)
		return refuse(problem, column->name, cell, "is no number: figures alone");
	if (vocabulary_count(vocabulary, LIST_BIN) == 0)
		return plain_name(cell, call->label, sizeof call->label) ||
		       refuse(problem, column->name, cell,
			      "is not written in letters and figures alone");
	words_split(&words, cell);
	int bin = vocabulary_match(vocabulary, LIST_BIN, &words, 0, &used);
	if (bin < 0 || used != words.count)
		return refuse(problem, column->name, cell,
			      "is not on your list of bins: put it there, or correct it");
	strcpy(call->label, vocabulary_term(vocabulary, LIST_BIN, bin)->name);
	return true;
}

static bool
read_weight(const struct csv_column *column, const char *cell, struct call *call,
	    struct problem *problem)
{
	char figures[16];
	int64_t grams;
	size_t length = strspn(cell, "0123456789");
	const char *unit = cell + length + strspn(cell + length, " ");

	snprintf(figures, sizeof figures, "%.*s", length < sizeof figures ? (int)length : 0, cell);
	if (!table_number(figures, GRAMS_MOST, &grams) || (strcmp(unit, "g") != 0 && *unit != '\0'))
		return refuse(problem, column->name, cell, "is no weight in whole grams");
	call->grams = (int32_t)grams;
	return true;
}

/* "18.50", in the row's currency, or "18.50 EUR". */
static bool
read_money(const struct cell_setting *setting, const struct csv_column *column, const char *cell,
	   struct call *call, struct problem *problem)
{
	char amount[CSV_CELL_MAX], currency[4];

	call->other = strcmp(cell, "other") == 0;
	if (call->other)
		return true;
	snprintf(amount, sizeof amount, "%s", cell);
	memcpy(currency, setting->currency, sizeof currency);
	char *code = strrchr(amount, ' ');
	if (code != NULL && strlen(code) == sizeof currency) {
		memcpy(currency, code + 1, sizeof currency);
		*code = '\0';
	}
	return money_parse(amount, currency, &call->money) ||
	       refuse(problem, column->name, cell,
		      "is no amount of money, such as 18.50 or 18.50 USD");
}

/* "new zip 30 minutes, materials 4.50 USD". */
static bool
read_mending(const struct cell_setting *setting, const struct csv_column *column, const char *cell,
	     struct call *call, struct problem *problem)
{
	static const char materials[] = ", materials ";
	char work[CSV_CELL_MAX];
	struct call amount = {.type = CALL_MENDING};

	snprintf(work, sizeof work, "%s", cell);
	char *costs = strstr(work, materials);
	if (costs != NULL) {
		*costs = '\0';
		if (!read_money(setting, column, costs + sizeof materials - 1, &amount, problem))
			return false;
	}
	if (!mean(setting, CALL_MENDING, work, call) || amount.other)
		return refuse(problem, column->name, cell,
			      "is no mending of the list, such as new zip 30 minutes, fix hem");
	call->money = amount.money;
	return true;
}

/* "jacket, trousers": the pieces of a set, the one in hand last. */
static bool
read_parts(const struct cell_setting *setting, const struct csv_column *column, const char *cell,
	   struct call *call, struct problem *problem)
{
	char parts[CSV_CELL_MAX], name[CALL_NAME_MAX];

	snprintf(parts, sizeof parts, "%s", cell);
	for (char *rest = parts, *part; (part = strsep(&rest, ",")) != NULL;) {
		int kind = plain_name(part, name, sizeof name)
				   ? vocabulary_find(setting->vocabulary, LIST_KIND, name)
				   : -1;
		if (kind < 0 || kind_is_set(setting->vocabulary, kind) ||
		    call->listed_count == CALL_LISTED_MAX ||
		    strlen(name) >= sizeof call->listed[0].name)
			return refuse(problem, column->name, cell,
				      "is no list of kinds, such as jacket, trousers");
		strcpy(call->listed[call->listed_count++].name, name);
		strcpy(call->name, name);
	}
	return true;
}

bool
csv_cell_read(const struct cell_setting *setting, const struct csv_column *column, const char *cell,
	      struct call *call, struct problem *problem)
{
	memset(call, 0, sizeof *call);
	call->type = column->type;
	switch (column->way) {
	case CSV_OF_LABEL:
		return read_label(setting, column, cell, call, problem);
	case CSV_OF_NAME:
	case CSV_OF_WORDS:
		return read_words(setting, column, cell, call, problem);
	case CSV_OF_WEIGHT:
		return read_weight(column, cell, call, problem);
	case CSV_OF_MONEY:
		return read_money(setting, column, cell, call, problem);
	case CSV_OF_FLAWS:
		return mean(setting, CALL_FLAW, cell, call) ||
		       refuse(problem, column->name, cell,
			      "is no flaw and place of the lists, such as small hole, left cuff");
	case CSV_OF_MENDING:
		return read_mending(setting, column, cell, call, problem);
	case CSV_OF_PARTS:
		return read_parts(setting, column, cell, call, problem);
	case CSV_OF_MEASURES:
		return (mean(setting, CALL_MEASURE, cell, call) && call->name[0] != '\0') ||
		       refuse(problem, column->name, cell,
			      "is no measure and length, such as jacket chest 21 1/2 in");
	case CSV_OF_STATE:
	case CSV_OF_ASKING:
	case CSV_OF_UNIT:
	case CSV_OF_CURRENCY:
	case CSV_OF_CONFIRMED:
		break;
	}
	return false;
}

bool
csv_measure_read(const struct cell_setting *setting, const char *measure, const char *cell,
		 const char *um, struct call *call, struct problem *problem)
{
	enum length_unit unit = setting->unit;
	char value[CSV_CELL_MAX], expected[32];

	memset(call, 0, sizeof *call);
	call->type = CALL_MEASURE;
	snprintf(call->name, sizeof call->name, "%s", measure);
	call->none = strcmp(cell, "none") == 0 && um[0] == '\0';
	call->has_length = !call->none;
	if (call->none)
		return true;
	snprintf(value, sizeof value, "%s", cell);
	char *last = strrchr(value, ' ');
	if (last != NULL && length_unit_parse(last + 1, &unit))
		*last = '\0';
	if (!length_parse(value, unit, &call->length))
		return refuse(problem, measure, cell,
			      "is no length, such as 21 1/2, 54.6 cm, or none");
	snprintf(expected, sizeof expected, "%lld", (long long)length_um(call->length));
	return um[0] == '\0' || strcmp(um, expected) == 0 ||
	       problem_say(problem, "%s: \"%.80s\" (%s) is %s um, and not %.20s", measure, cell,
			   length_unit_name(unit), expected, um);
}
