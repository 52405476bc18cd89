#include "export_form.h"

#include "jsonld.h"
#include "price.h"

#include <stdlib.h>
#include <string.h>

const struct money *
export_asking(const struct csv_record_setting *rows, const struct record *record,
	      struct money *asking)
{
	const struct entry *price = record_slot(record, CALL_PRICE);
	bool known = price != NULL && !price->said.other &&
		     price_asking(price->said.money, rows->discount_percent, asking);
	return known ? asking : NULL;
}

static void
write_up(struct export_with *with, const struct record *record, const struct money *asking,
	 struct text *to)
{
	if (!writeup_write(with->writeup_form, with->rows->vocabulary, record, asking,
			   &with->writeup))
		to->failed = true;
}

static void
csv_head(const struct export_with *with, struct text *to)
{
	struct csv_rows rows = {.text = *to};
	csv_record_heading(with->rows, &rows);
	*to = rows.text;
}

static void
csv_item(struct export_with *with, const struct record *record, bool alone,
	 const char *const *pictures, struct text *to, struct problem *lacking)
{
	struct csv_rows rows = {.text = *to};
	csv_record_write(with->rows, record, &rows, lacking);
	*to = rows.text;
}

static void
jsonld_item(struct export_with *with, const struct record *record, bool alone,
	    const char *const *pictures, struct text *to, struct problem *lacking)
{
	struct money amount;
	const struct money *asking = export_asking(with->rows, record, &amount);
	size_t layout = alone ? JSON_INDENT(2) : JSON_COMPACT;

	write_up(with, record, asking, to);
	json_t *product = jsonld_product(with->rows->vocabulary, record, &with->writeup, asking);
	json_t *whole = product;
	if (alone) {
		whole = json_pack("{s:s}", "@context", JSONLD_CONTEXT);
		json_object_update(whole, product);
		json_decref(product);
	}
	if (pictures[0] != NULL)
		jsonld_add_images(whole, pictures);
	char *json = json_dumps(whole, layout | JSON_REAL_PRECISION(JSONLD_PRECISION));
	json_decref(whole);
	to->failed = to->failed || json == NULL;
	text_add(to, json == NULL ? "" : json);
	text_add(to, alone ? "\n" : "");
	free(json);
}

static void
text_item(struct export_with *with, const struct record *record, bool alone,
	  const char *const *pictures, struct text *to, struct problem *lacking)
{
	struct money amount;
	write_up(with, record, export_asking(with->rows, record, &amount), to);
	text_add(to, text_chars(&with->writeup.text));
}

static const struct export_form forms[] = {
	{"csv", "item.csv", "", "", "", csv_head, csv_item},
	{"jsonld", "item.jsonld", "{\"@context\":\"" JSONLD_CONTEXT "\",\"@graph\":[\n", ",\n",
	 "\n]}\n", NULL, jsonld_item},
	{"text", "writeup.txt", "", "\n----\n\n", "", NULL, text_item},
};

const struct export_form *
export_form_named(const char *name)
{
	for (size_t i = 0; i < sizeof forms / sizeof *forms; i++)
		if (strcmp(forms[i].name, name) == 0)
			return &forms[i];
	return NULL;
}

void
export_with_finish(struct export_with *with)
{
	writeup_finish(&with->writeup);
}
