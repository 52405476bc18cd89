#include "dictation.h"

#include "csv_record.h"
#include "phrase.h"
#include "random_call.h"

#include <stdio.h>

static struct vocabulary *vocabulary;
static struct record record, read_back;

static struct csv_record_setting
setting_of(int discount_percent)
{
	return (struct csv_record_setting){.vocabulary = vocabulary,
					   .unit = LENGTH_INCH,
					   .currency = "USD",
					   .discount_percent = discount_percent};
}

static int
begin(void **state)
{
	vocabulary = lists_read();
	return vocabulary == NULL;
}

static int
end(void **state)
{
	vocabulary_destroy(vocabulary);
	return 0;
}

/* Reads the next row of a text; the reader is the caller's. */
static void
next_row(struct csv_reader *reader, const char **text)
{
	size_t used;
	enum csv_result result = csv_read(reader, *text, strlen(*text), &used);
	*text += used;
	if (result == CSV_MORE)
		result = csv_read_end(reader);
	assert_int_equal(result, CSV_ROW);
}

/* The cell of a record's row under that heading. */
static const char *
cell_under(const char *heading, int discount_percent)
{
	static char cell[512];
	struct csv_record_setting setting = setting_of(discount_percent);
	struct csv_rows rows = {.cells = 0};
	struct csv_reader reader;
	int column = 0;

	csv_record_heading(&setting, &rows);
	assert_true(csv_record_write(&setting, &record, &rows, NULL));
	const char *text = text_chars(&rows.text);
	csv_reader_start(&reader);
	next_row(&reader, &text);
	while (column < reader.count && strcmp(csv_cell(&reader, column), heading) != 0)
		column++;
	assert_int_not_equal(column, reader.count);
	next_row(&reader, &text);
	snprintf(cell, sizeof cell, "%s", csv_cell(&reader, column));
	csv_reader_finish(&reader);
	text_finish(&rows.text);
	return cell;
}

/* Whether `row` under `heading` is a record; *problem says why not. */
static bool
row_reads(const char *heading, const char *row, struct problem *problem)
{
	struct csv_record_setting setting = setting_of(0);
	struct csv_reader reader;
	struct csv_record_columns columns;

	csv_reader_start(&reader);
	next_row(&reader, &heading);
	bool good = csv_record_columns(&setting, &reader, &columns, problem);
	if (good) {
		next_row(&reader, &row);
		good = csv_record_read(&setting, &columns, &reader, &read_back, problem);
	}
	csv_reader_finish(&reader);
	return good;
}

static void
fail_entry(const struct entry *entry)
{
	char text[512];
	phrase_written(&entry->said, text, sizeof text);
	fail_msg("\"%s\" did not come back", text);
}

static void
standing_entries_are_the_same(const struct record *one, const struct record *other)
{
	int at = 0;
	assert_int_equal(one->state, other->state);
	for (int i = 0; i < one->entry_count; i++) {
		const struct entry *entry = &one->entries[i];
		bool found = false;
		if (!entry->stands || entry->said.type == CALL_NOTE)
			continue;
		at++;
		for (int k = 0; k < other->entry_count; k++) {
			const struct entry *like = &other->entries[k];
			found = found || (like->stands && like->confirmed == entry->confirmed &&
					  call_same(&like->said, &entry->said));
		}
		if (!found)
			fail_entry(entry);
	}
	for (int k = 0; k < other->entry_count; k++)
		at -= other->entries[k].stands;
	assert_int_equal(at, 0);
}

static void
a_row_comes_back(void)
{
	struct csv_record_setting setting = setting_of(15);
	struct csv_rows rows = {.cells = 0};
	struct csv_reader reader;
	struct csv_record_columns columns;
	struct problem problem = {""};

	csv_record_heading(&setting, &rows);
	assert_true(csv_record_write(&setting, &record, &rows, &problem));
	assert_false(rows.text.failed);
	const char *text = text_chars(&rows.text);
	/* Whoever reads it may be set to other units. */
	setting.unit = LENGTH_CENTIMETRE;
	strcpy(setting.currency, "JPY");
	csv_reader_start(&reader);
	next_row(&reader, &text);
	assert_true(csv_record_columns(&setting, &reader, &columns, &problem));
	next_row(&reader, &text);
	if (!csv_record_read(&setting, &columns, &reader, &read_back, &problem))
		fail_msg("%s", problem.text);
	assert_int_equal(*text, '\0');
	standing_entries_are_the_same(&record, &read_back);
	csv_reader_finish(&reader);
	text_finish(&rows.text);
}

static void
the_columns_stand_in_the_order_of_the_contract(void **state)
{
	struct csv_record_setting setting = setting_of(0);
	struct csv_rows rows = {.cells = 0};
	static const char begins[] =
		"number,bin,kind,route,state,maker,size,colour,cloth,pilling,colour change,weight,"
		"cost,price,parcel,group,care,mending,asking,chest,chest um,waist,waist um,";
	static const char ends[] =
		",crown,crown um,part,other measures,flaws,unit,currency,confirmed\r\n";

	csv_record_heading(&setting, &rows);
	const char *text = text_chars(&rows.text);
	assert_memory_equal(text, begins, sizeof begins - 1);
	assert_string_equal(text + strlen(text) - (sizeof ends - 1), ends);
	text_finish(&rows.text);
}

static void
each_fact_has_its_cell(void **state)
{
	static const struct {
		const char *heading, *cell;
	} cases[] = {
		{"number", "1307"},
		{"bin", "482"},
		{"kind", "shirt"},
		{"route", "sale"},
		{"state", "done"},
		{"maker", "orlscombe and daughters"},
		{"size", "32x30"},
		{"colour", "dark blue and white striped"},
		{"cloth", "60 % cotton, 40 % linen"},
		{"pilling", "3-4"},
		{"colour change", "5"},
		{"weight", "420 g"},
		{"cost", "2.00"},
		{"price", "12.49"},
		{"parcel", "padded bag"},
		{"asking", "14.69"}, /* 12.49 at 15 % off: common practice, no source */
		{"chest", "21 1/2"},
		{"chest um", "546100"},
		{"length", "71.5 cm"},
		{"length um", "715000"},
		{"sleeve", "24.50"},
		{"collar", "none"},
		{"collar um", ""},
		{"hem", ""},
		{"hem um", ""},
		{"flaws", "small hole, left cuff; stain 4 cm, front; other"},
		{"unit", "in"},
		{"currency", "USD"},
		{"confirmed", "chest, flaw 2"},
	};
	dictate_item(&record, vocabulary,
		     "item thirteen oh seven bin four eighty two kind shirt. route sale maker "
		     "orlscombe size thirty two by thirty. colour dark blue and white striped "
		     "cloth sixty percent cotton forty percent linen. pilling three to four "
		     "colour change five weight four hundred twenty grams. cost two dollars price "
		     "twelve forty nine parcel padded bag");
	dictate_as(&record, vocabulary, "chest twenty one and a half", true);
	dictate(&record, vocabulary,
		"length seventy one point five centimetres sleeve twenty four point five oh "
		"collar none");
	dictate(&record, vocabulary, "flaw small hole left cuff");
	dictate_as(&record, vocabulary, "flaw stain four centimetres front", true);
	dictate(&record, vocabulary, "flaw other");
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
		assert_string_equal(cell_under(cases[i].heading, 15), cases[i].cell);
	a_row_comes_back();
}

/* A spreadsheet takes 1/2 for a date, and nobody knows what 0 is in. */
static void
below_one_the_unit_is_written(void **state)
{
	dictate_item(&record, vocabulary, "chest twenty hem half sleeve zero");
	assert_string_equal(cell_under("hem", 0), "1/2 in");
	assert_string_equal(cell_under("sleeve", 0), "0 in");
	a_row_comes_back();
}

static void
records_come_back_as_they_were(void **state)
{
	static const char *const items[] = {
		"",
		"bin twelve",
		"item six hundred kind t shirt flaw none",
		"kind jeans waist fifteen front rise ten and an eighth inseam thirty one point two "
		"five leg opening seven and eleven sixteenths",
		"kind coat chest fifty four centimetres shoulder twenty",
		"maker other size other colour other cloth other parcel other",
		"size medium. size two extra large. maker marlock",
		"colour tartan",
		"cloth shell one hundred percent wool lining one hundred percent acetate",
		"cloth ninety five percent cotton five percent elastane",
		"flaw other left cuff. flaw large moth hole half an inch right front hem",
		"flaw missing button placket. flaw stain inside. flaw stain left. flaw stain back",
		"flaw pulled thread outside. flaw fading right back sleeve. flaw stain left inside "
		"cuff",
		"flaw stain one point five oh centimetres. flaw hole three quarters of an inch "
		"front",
		"price two dollars forty. cost fifty cents",
		"pilling two to three. colour change one. weight nine thousand nine hundred grams",
		"chest none waist none",
		"route mending",
		"item two thousand bin back room",
		"group children size six to seven years care wash thirty do not bleach",
		"mending new zip thirty minutes fix hem materials twelve fifty. price twenty",
		"mending other",
		"kind set part trousers. jacket chest twenty one. jacket left sleeve twenty four "
		"and a half. trousers waist forty point five centimetres. trousers leg opening "
		"none",
		"left sleeve twenty four right sleeve sixty one centimetres",
		"flaw snag times four left sleeve. flaw hole left trousers knee",
		"maker spell hotel alfa lima",
	};
	for (size_t i = 0; i < sizeof items / sizeof *items; i++) {
		dictate_item(&record, vocabulary, items[i]);
		a_row_comes_back();
	}
	record.state = ITEM_SET_ASIDE;
	a_row_comes_back();
	record.state = ITEM_OPEN;
	a_row_comes_back();
}

static void
so_do_random_records(void **state)
{
	uint32_t seed = 20261125;
	struct deed deed;

	for (int round = 0; round < 1000; round++) {
		record_init(&record);
		for (uint32_t calls = draw(&seed, 30); calls > 0; calls--) {
			struct call call = random_call(vocabulary, &seed);
			record_write(&record, &call, draw(&seed, 6) == 0, &deed);
		}
		record.state = (enum item_state)draw(&seed, 3);
		a_row_comes_back();
	}
}

/* What was struck or replaced is no longer said, and a note is sound. */
static void
only_what_stands_is_written(void **state)
{
	struct deed deed;
	dictate_item(&record, vocabulary, "chest twenty. chest twenty one. waist ten. note");
	assert_true(record_strike_measure(&record, "waist", &deed));
	assert_string_equal(cell_under("chest", 0), "21");
	assert_string_equal(cell_under("waist", 0), "");
	a_row_comes_back();
}

static void
amounts_in_another_currency_say_so(void **state)
{
	struct call cost = {.type = CALL_COST, .money = {1200, "EUR"}};
	struct call price = {.type = CALL_PRICE, .money = {1850, "USD"}};
	struct deed deed;
	record_init(&record);
	assert_true(record_write(&record, &cost, false, &deed));
	assert_true(record_write(&record, &price, false, &deed));
	record.state = ITEM_DONE;
	assert_string_equal(cell_under("cost", 0), "12.00 EUR");
	assert_string_equal(cell_under("price", 0), "18.50");
	assert_string_equal(cell_under("asking", 0), "18.50");
	a_row_comes_back();
}

static void
a_measure_that_left_the_list_is_told(void **state)
{
	struct csv_record_setting setting = setting_of(0);
	struct csv_rows rows = {.cells = 0};
	struct problem problem = {""};
	struct deed deed;
	struct call call = {.type = CALL_MEASURE, .name = "elbow", .none = true};
	dictate_item(&record, vocabulary, "item seven");
	assert_true(record_write(&record, &call, false, &deed));
	assert_false(csv_record_write(&setting, &record, &rows, &problem));
	assert_string_equal(problem.text, "the elbow of item 7 has no column: put it into the list "
					  "of measures again, measures.txt");
	text_finish(&rows.text);
}

static void
a_table_of_ones_own_is_read(void **state)
{
	struct problem problem = {""};
	assert_true(row_reads("kind,chest,number,maker,size,flaws,price,weight\n",
			      "Tee Shirt, 20.5 ,482,\"SHAL & Daughters\",w32,\"frayed edge; "
			      "hole 1 1/2 in left Hem\",18.5,420\n",
			      &problem));
	assert_string_equal(problem.text, "");
	assert_string_equal(record_slot(&read_back, CALL_KIND)->said.name, "t shirt");
	assert_string_equal(record_slot(&read_back, CALL_MAKER)->said.name, "SHAL & Daughters");
	assert_string_equal(record_slot(&read_back, CALL_SIZE)->said.name, "w32");
	assert_true(length_um(record_reading(&read_back, "chest")->said.length) == 520700);
	assert_true(record_slot(&read_back, CALL_PRICE)->said.money.minor == 1850);
	assert_int_equal(record_slot(&read_back, CALL_WEIGHT)->said.grams, 420);
	assert_int_equal(record_flaw_count(&read_back), 2);
	/* A t shirt wants its length too. */
	assert_int_equal(read_back.state, ITEM_SET_ASIDE);
	assert_true(row_reads("kind,chest,length\n", "t shirt,20,28\n", &problem));
	assert_int_equal(read_back.state, ITEM_DONE);
	assert_true(row_reads("kind,chest\n", ",\n", &problem));
	assert_true(record_empty(&read_back));
}

/* What parts figures is not said, so it has to be kept as the cell has it. */
static void
sizes_keep_their_figures(void **state)
{
	static const struct {
		const char *cell, *kept;
	} cases[] = {
		{"6-7 years", "6-7 years"},
		{"6 to 7 years", "6 to 7 years"},
		{"6 7 years", "6 7 years"},
		{"12-18 months", "12-18 months"},
		{"36-38", "36-38"},
		{"12,14", "12,14"},
		{"32x30", "32x30"},
		{"32 by 30", "32x30"},
		{"116 cm", "116 cm"},
		{"12", "12"},
		{"twelve", "12"},
		{"6 1/2", "6 1/2"},
		{"extra-large", "extra large"},
		{"W32-L30", "W32-L30"},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct problem problem = {""};
		char row[64];
		snprintf(row, sizeof row, "\"%s\"\n", cases[i].cell);
		assert_true(row_reads("size\n", row, &problem));
		assert_string_equal(record_slot(&read_back, CALL_SIZE)->said.name, cases[i].kept);
	}
}

static void
headings_that_are_none_are_refused(void **state)
{
	static const struct {
		const char *heading, *says;
	} cases[] = {
		{"number,chset\n", "\"chset\" is no column"},
		{"number,MAKER\n", "\"MAKER\" is no column"},
		{"number,chest mm\n", "\"chest mm\" is no column"},
		{"number, um\n", "\" um\" is no column"},
		{"number,kind,number\n", "stands there twice"},
		{"number;kind;chest\n", "parted by semicolons"},
		{"482,shirt\n", "\"482\" is no column"},
		{"\n", "\"\" is no column"},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct problem problem = {""};
		assert_false(row_reads(cases[i].heading, "x", &problem));
		if (strstr(problem.text, cases[i].says) == NULL)
			fail_msg("\"%s\" does not say \"%s\"", problem.text, cases[i].says);
	}
}

static void
cells_that_mean_nothing_are_refused_by_name(void **state)
{
	static const struct {
		const char *heading, *cell, *says;
	} cases[] = {
		{"number", "48a", "number: \"48a\" is no number"},
		{"number", "123456789012345678901234567890", "too long"},
		{"bin", "attic", "bin: \"attic\" is not on your list of bins"},
		{"kind", "shrt", "kind: \"shrt\" is not on the list"},
		{"kind", "shirt chest twenty", "is not on the list"},
		{"kind", "shirt no coat", "is not on the list"},
		{"route", "the sea", "route: \"the sea\""},
		{"state", "gone", "state: \"gone\" is neither"},
		{"maker", "bad \xFF bytes", "is too long, or no text"},
		{"size", "two\nlines", "is too long, or no text"},
		{"maker",
		 "seventy letters are more than the name of any maker has room for in a record",
		 "is too long"},
		{"colour", "bluish", "colour: \"bluish\""},
		{"cloth", "cotton", "cloth: \"cotton\""},
		{"cloth", "110 % cotton", "cloth: \"110 % cotton\""},
		{"pilling", "6", "pilling: \"6\""},
		{"pilling", "4-3", "pilling: \"4-3\""},
		{"colour change", "none", "colour change: \"none\""},
		{"weight", "1.5 kg", "weight: \"1.5 kg\""},
		{"weight", "10000", "weight: \"10000\""},
		{"weight", "-3", "weight: \"-3\""},
		{"cost", "18,50", "cost: \"18,50\""},
		{"cost", "18.505", "cost: \"18.505\""},
		{"price", "cheap", "price: \"cheap\" is no amount"},
		{"price", "12 QQQ", "price: \"12"},
		{"chest", "21 1/3", "chest: \"21 1/3\" is no length"},
		{"chest", "21 1/2 ft", "chest: \"21 1/2 ft\" is no length"},
		{"chest", "-21", "chest: \"-21\" is no length"},
		{"chest um", "546100", "chest: \"\" is no length"},
		{"flaws", "dent", "flaws: \"dent\" is no flaw"},
		{"flaws", "hole; none", "cannot stand beside"},
		{"flaws", "hole left waist twenty", "is no flaw"},
		{"unit", "mm", "unit: \"mm\" is neither in nor cm"},
		{"currency", "QQQ", "currency: \"QQQ\" is no code"},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct problem problem = {""};
		char heading[64], row[256];
		snprintf(heading, sizeof heading, "%s\n", cases[i].heading);
		snprintf(row, sizeof row, "\"%s\"\n", cases[i].cell);
		if (row_reads(heading, row, &problem))
			fail_msg("%s \"%s\" is read", cases[i].heading, cases[i].cell);
		if (strstr(problem.text, cases[i].says) == NULL)
			fail_msg("\"%s\" does not say \"%s\"", problem.text, cases[i].says);
	}
}

static void
a_row_that_contradicts_itself_is_refused(void **state)
{
	struct problem problem = {""};
	assert_false(row_reads("chest,chest um,unit\n", "21,533401,in\n", &problem));
	assert_string_equal(problem.text, "chest: \"21\" (in) is 533400 um, and not 533401");
	assert_false(row_reads("chest,chest um\n", "21\n", &problem));
	assert_non_null(strstr(problem.text, "it has 1 cells, and the heading 2"));
	assert_true(row_reads("chest,chest um,unit\n", "21,210000,cm\n", &problem));
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_columns_stand_in_the_order_of_the_contract),
		cmocka_unit_test(each_fact_has_its_cell),
		cmocka_unit_test(below_one_the_unit_is_written),
		cmocka_unit_test(records_come_back_as_they_were),
		cmocka_unit_test(so_do_random_records),
		cmocka_unit_test(only_what_stands_is_written),
		cmocka_unit_test(amounts_in_another_currency_say_so),
		cmocka_unit_test(a_measure_that_left_the_list_is_told),
		cmocka_unit_test(a_table_of_ones_own_is_read),
		cmocka_unit_test(sizes_keep_their_figures),
		cmocka_unit_test(headings_that_are_none_are_refused),
		cmocka_unit_test(cells_that_mean_nothing_are_refused_by_name),
		cmocka_unit_test(a_row_that_contradicts_itself_is_refused),
	};
	return cmocka_run_group_tests(tests, begin, end);
}
