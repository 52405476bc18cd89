/* The lists of the trade, for suggestions; and how many items stand on each list by route and by
 * state. */
#include "answer.h"
#include "json.h"

static const struct {
	const char *name;
	enum list list;
} lists[] = {
	{"kind", LIST_KIND},	 {"measure", LIST_MEASURE}, {"flaw", LIST_FLAW},
	{"part", LIST_PART},	 {"route", LIST_ROUTE},	    {"maker", LIST_MAKER},
	{"colour", LIST_COLOUR}, {"size", LIST_TAG},	    {"fibre", LIST_FIBRE},
	{"parcel", LIST_PARCEL}, {"bin", LIST_BIN},	    {"person", LIST_PERSON},
	{"group", LIST_GROUP},	 {"care", LIST_CARE},	    {"mending", LIST_MEND},
};

static json_t *
names_json(const struct vocabulary *vocabulary, enum list list)
{
	json_t *array = json_array();
	for (int i = 0; i < vocabulary_count(vocabulary, list); i++)
		json_array_append_new(array,
				      json_words(vocabulary_term(vocabulary, list, i)->name));
	return array;
}

static bool
add_tally(void *user, const char *value, int64_t count)
{
	json_object_set_new(user, value, json_integer(count));
	return true;
}

enum MHD_Result
lists_answer(struct request *request, const char *rest)
{
	struct desk *desk = request->desk;
	json_t *json = json_object(), *facts = json_object();
	json_t *routes = json_object(), *states = json_object();
	for (size_t i = 0; i < sizeof lists / sizeof *lists; i++)
		json_object_set_new(json, lists[i].name,
				    names_json(desk->setting.vocabulary, lists[i].list));
	json_object_set_new(json, "unit", json_string(length_unit_name(desk->typed.unit)));
	json_object_set_new(json, "currency", json_string(desk->typed.currency));
	json_object_set_new(json, "discount", json_integer(desk->setting.rows->discount_percent));
	listing_tally(desk->review, true, add_tally, routes);
	listing_tally(desk->review, false, add_tally, states);
	json_object_set_new(facts, "routes", routes);
	json_object_set_new(facts, "states", states);
	json_object_set_new(json, "facts", facts);
	return answer_json(request, 200, json);
}
