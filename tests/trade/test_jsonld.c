/* What is exported to others: every name in it is schema.org's. */
#include "dictation.h"

#include "jsonld.h"

#include <stdio.h>

/* schema.org 30.0 (schemaorg/schemaorg, data/schema.ttl, read). All members of the three
 * enumerations that are used, and of its properties and types those that are. */
static const char *const conditions[] = {"DamagedCondition", "NewCondition", "RefurbishedCondition",
					 "UsedCondition"};
static const char *const measurements[] = {
	"WearableMeasurementBack",	 "WearableMeasurementChestOrBust",
	"WearableMeasurementCollar",	 "WearableMeasurementCup",
	"WearableMeasurementHeight",	 "WearableMeasurementHips",
	"WearableMeasurementInseam",	 "WearableMeasurementLength",
	"WearableMeasurementOutsideLeg", "WearableMeasurementSleeve",
	"WearableMeasurementWaist",	 "WearableMeasurementWidth"};
static const char *const groups[] = {
	"WearableSizeGroupBig",	      "WearableSizeGroupBoys",	  "WearableSizeGroupExtraShort",
	"WearableSizeGroupExtraTall", "WearableSizeGroupGirls",	  "WearableSizeGroupHusky",
	"WearableSizeGroupInfants",   "WearableSizeGroupJuniors", "WearableSizeGroupMaternity",
	"WearableSizeGroupMens",      "WearableSizeGroupMisses",  "WearableSizeGroupPetite",
	"WearableSizeGroupPlus",      "WearableSizeGroupRegular", "WearableSizeGroupShort",
	"WearableSizeGroupTall",      "WearableSizeGroupWomens"};
static const char *const types[] = {"Product",		 "Offer",	  "Brand",
				    "QuantitativeValue", "PropertyValue", "SizeSpecification"};
static const struct {
	const char *property, *of; /* types whose property it is, among the above */
} properties[] = {
	{"name", "Product Brand QuantitativeValue PropertyValue SizeSpecification"}, /* Thing's, and
											so all's */
	{"description", "Product QuantitativeValue PropertyValue"},
	{"image", "Product"},
	{"sku", "Product"},
	{"category", "Product"},
	{"brand", "Product"},
	{"size", "Product"},
	{"sizeGroup", "SizeSpecification"},
	{"color", "Product"},
	{"pattern", "Product"},
	{"material", "Product"},
	{"weight", "Product"},
	{"itemCondition", "Product Offer"},
	{"hasMeasurement", "Product"},
	{"additionalProperty", "Product"},
	{"offers", "Product"},
	{"valueReference", "QuantitativeValue PropertyValue"},
	{"value", "QuantitativeValue PropertyValue"},
	{"unitCode", "QuantitativeValue PropertyValue"},
	{"unitText", "QuantitativeValue PropertyValue"},
	{"price", "Offer"},
	{"priceCurrency", "Offer"},
};
/* UN/CEFACT Recommendation 20: centimetre, inch, gram (read in the copies that schema.org, OPC
 * 10000-8 and the eForms code lists have). */
static const char *const units[] = {"CMT", "INH", "GRM"};

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

static struct vocabulary *vocabulary;
static struct writeup_form *form;
static struct record record;

static int
begin(void **state)
{
	struct problem problem = {""};
	char *text = lists_text("writeup.txt");
	vocabulary = lists_read();
	if (vocabulary != NULL && text != NULL)
		form = writeup_form_read(vocabulary, "writeup.txt", text, &problem);
	free(text);
	return form == NULL;
}

static int
end(void **state)
{
	writeup_form_destroy(form);
	vocabulary_destroy(vocabulary);
	return 0;
}

static bool
in(const char *const *names, size_t count, const char *name)
{
	for (size_t i = 0; i < count; i++)
		if (strcmp(names[i], name) == 0)
			return true;
	return false;
}

static bool
is_allowed_iri(const char *iri)
{
	size_t base = strlen(JSONLD_CONTEXT);
	return strncmp(iri, JSONLD_CONTEXT, base) == 0 &&
	       (in(conditions, COUNT(conditions), iri + base) ||
		in(measurements, COUNT(measurements), iri + base) ||
		in(groups, COUNT(groups), iri + base));
}

static bool
is_property_of(const char *property, const char *type)
{
	for (size_t i = 0; i < COUNT(properties); i++) {
		const char *of = properties[i].of;
		size_t length = strlen(type);
		if (strcmp(properties[i].property, property) != 0)
			continue;
		for (const char *at = of; (at = strstr(at, type)) != NULL; at++)
			if ((at == of || at[-1] == ' ') &&
			    (at[length] == ' ' || at[length] == '\0'))
				return true;
	}
	return false;
}

/* Goes through all of it: types, properties, units, and whatever looks like an address. */
static void
all_names_are_schema_orgs(const json_t *json)
{
	const char *key;
	json_t *value;
	size_t index;

	if (json_is_string(json) && strstr(json_string_value(json), "://") != NULL &&
	    !is_allowed_iri(json_string_value(json)))
		fail_msg("%s is not on the lists", json_string_value(json));
	json_array_foreach(json, index, value) all_names_are_schema_orgs(value);
	if (!json_is_object(json))
		return;
	const char *type = json_string_value(json_object_get(json, "@type"));
	assert_non_null(type);
	assert_true(in(types, COUNT(types), type));
	json_object_foreach((json_t *)json, key, value)
	{
		if (strcmp(key, "@type") == 0)
			continue;
		if (!is_property_of(key, type))
			fail_msg("%s is no property of %s", key, type);
		if (strcmp(key, "unitCode") == 0)
			assert_true(in(units, COUNT(units), json_string_value(value)));
		all_names_are_schema_orgs(value);
	}
}

static json_t *
product_of(const char *said, const struct money *asking)
{
	struct writeup writeup = {.text = {.chars = NULL}};
	dictate_item(&record, vocabulary, said);
	assert_true(writeup_write(form, vocabulary, &record, asking, &writeup));
	json_t *product = jsonld_product(vocabulary, &record, &writeup, asking);
	writeup_finish(&writeup);
	all_names_are_schema_orgs(product);
	return product;
}

/* The text of a field, whatever its type; of the one that is named so in a list of such. */
static void
the_field_is(const json_t *product, const char *list, const char *name, const char *field,
	     const char *expected)
{
	const json_t *found = list == NULL ? product : NULL;
	json_t *object;
	size_t index;

	json_array_foreach(json_object_get(product, list == NULL ? "" : list), index, object)
	{
		const char *its = json_string_value(json_object_get(object, "name"));
		if (found == NULL && its != NULL && strcmp(its, name) == 0)
			found = object;
	}
	json_t *value = json_object_get(found, field);
	char *text = value == NULL
			     ? NULL
			     : json_dumps(value, JSON_ENCODE_ANY | JSON_COMPACT |
							 JSON_REAL_PRECISION(JSONLD_PRECISION));
	if (expected == NULL ? text != NULL : text == NULL || strcmp(text, expected) != 0)
		fail_msg("%s of %s is %s and not %s", field, list == NULL ? "it" : name,
			 text == NULL ? "not there" : text,
			 expected == NULL ? "nothing" : expected);
	free(text);
}

static void
the_lists_have_as_many_members_as_schema_orgs(void **state)
{
	assert_int_equal(COUNT(conditions), 4);
	assert_int_equal(COUNT(measurements), 12);
	assert_int_equal(COUNT(groups), 17);
	assert_false(is_allowed_iri(JSONLD_CONTEXT "WearableSizeGroupChildren"));
	assert_false(is_allowed_iri(JSONLD_CONTEXT "WearableMeasurementRise"));
	assert_false(is_allowed_iri(JSONLD_CONTEXT "WearableMeasurementShoulder"));
	assert_true(is_allowed_iri(JSONLD_CONTEXT "WearableMeasurementChestOrBust"));
}

static void
a_girth_is_twice_the_flat_width_and_the_width_stands_beside(void **state)
{
	static const struct {
		const char *said, *measure, *iri, *value, *unit, *flat;
	} cases[] = {
		{"chest fifty two point zero centimetres", "chest", "ChestOrBust", "104", "\"CMT\"",
		 "52"},
		{"chest twenty point five", "chest", "ChestOrBust", "41", "\"INH\"", "20.5"},
		{"chest twenty and three eighths", "chest", "ChestOrBust", "40.75", "\"INH\"",
		 "20.375"},
		{"chest twenty and one sixteenth", "chest", "ChestOrBust", "40.125", "\"INH\"",
		 "20.0625"},
		{"waist forty point one centimetres", "waist", "Waist", "80.2", "\"CMT\"", "40.1"},
		{"hip twenty one", "hip", "Hips", "42", "\"INH\"", "21"},
		/* Straight ones are as they are. */
		{"sleeve twenty four and a half", "sleeve", "Sleeve", "24.5", "\"INH\"", NULL},
		{"length seventy one point five centimetres", "length", "Length", "71.5", "\"CMT\"",
		 NULL},
		{"inseam thirty", "inseam", "Inseam", "30", "\"INH\"", NULL},
		{"outseam forty", "outseam", "OutsideLeg", "40", "\"INH\"", NULL},
		{"collar fifteen and a half", "collar", "Collar", "15.5", "\"INH\"", NULL},
	};
	for (size_t i = 0; i < COUNT(cases); i++) {
		char iri[128], flat[64];
		json_t *product = product_of(cases[i].said, NULL);
		snprintf(iri, sizeof iri, "\"https://schema.org/WearableMeasurement%s\"",
			 cases[i].iri);
		snprintf(flat, sizeof flat, "%s flat", cases[i].measure);
		const char *measure = cases[i].measure;
		the_field_is(product, "hasMeasurement", measure, "@type", "\"QuantitativeValue\"");
		the_field_is(product, "hasMeasurement", measure, "valueReference", iri);
		the_field_is(product, "hasMeasurement", measure, "value", cases[i].value);
		the_field_is(product, "hasMeasurement", measure, "unitCode", cases[i].unit);
		the_field_is(product, "additionalProperty", flat, "value", cases[i].flat);
		the_field_is(product, "additionalProperty", flat, "unitCode",
			     cases[i].flat == NULL ? NULL : cases[i].unit);
		assert_int_equal(json_array_size(json_object_get(product, "hasMeasurement")), 1);
		json_decref(product);
	}
}

static void
what_schema_org_has_no_name_for_is_a_property_of_its_own(void **state)
{
	json_t *product =
		product_of("shoulder eighteen. front rise ten. thigh twelve. collar none", NULL);
	assert_null(json_object_get(product, "hasMeasurement"));
	the_field_is(product, "additionalProperty", "shoulder", "value", "18");
	the_field_is(product, "additionalProperty", "front rise", "value", "10");
	the_field_is(product, "additionalProperty", "thigh flat", "value", "12");
	the_field_is(product, "additionalProperty", "collar", "value", "\"none\"");
	json_decref(product);
}

static void
each_fact_is_where_schema_org_has_it(void **state)
{
	static const struct money asking = {1469, "USD"};
	json_t *product = product_of(
		"item thirteen oh seven bin four eighty two kind shirt. maker orlscombe size "
		"medium. colour dark blue and white striped. cloth shell sixty percent cotton "
		"forty percent linen. weight four hundred twenty grams. pilling three to four. "
		"cost "
		"two dollars. price twelve forty nine. parcel padded bag. route sale",
		&asking);
	static const struct {
		const char *list, *name, *field, *value;
	} fields[] = {
		{NULL, NULL, "@type", "\"Product\""},
		{NULL, NULL, "name",
		 "\"Orlscombe and Daughters shirt, medium, dark blue and white striped\""},
		{NULL, NULL, "sku", "\"1307\""},
		{NULL, NULL, "category", "\"shirt\""},
		{NULL, NULL, "brand", "{\"@type\":\"Brand\",\"name\":\"Orlscombe and Daughters\"}"},
		{NULL, NULL, "size", "\"medium\""},
		{NULL, NULL, "color", "\"dark blue and white\""},
		{NULL, NULL, "pattern", "\"striped\""},
		{NULL, NULL, "material", "\"shell 60 % cotton, 40 % linen\""},
		{NULL, NULL, "weight",
		 "{\"@type\":\"QuantitativeValue\",\"value\":420,\"unitCode\":\"GRM\"}"},
		{NULL, NULL, "offers",
		 "{\"@type\":\"Offer\",\"price\":\"14.69\",\"priceCurrency\":\"USD\","
		 "\"itemCondition\":\"https://schema.org/UsedCondition\"}"},
		{"additionalProperty", "shell cotton", "value", "60"},
		{"additionalProperty", "pilling grade", "value", "\"3-4\""},
		{"additionalProperty", "state", "value", NULL},
	};
	for (size_t i = 0; i < COUNT(fields); i++)
		the_field_is(product, fields[i].list, fields[i].name, fields[i].field,
			     fields[i].value);
	/* The bin, the cost and what was wanted are not for buyers. */
	char *text = json_dumps(product, 0);
	assert_null(strstr(text, "482"));
	assert_null(strstr(text, "2.00"));
	assert_null(strstr(text, "12.49"));
	assert_null(strstr(text, "padded"));
	free(text);
	json_decref(product);
}

static void
a_group_is_a_size_group_where_schema_org_has_one(void **state)
{
	json_t *product = product_of("group men. size large", NULL);
	the_field_is(product, NULL, NULL, "size",
		     "{\"@type\":\"SizeSpecification\",\"sizeGroup\":"
		     "\"https://schema.org/WearableSizeGroupMens\",\"name\":\"large\"}");
	the_field_is(product, "additionalProperty", "group", "value", "\"men\"");
	json_decref(product);
	product = product_of("group children. size six to seven years", NULL);
	the_field_is(product, NULL, NULL, "size", "\"6 to 7 years\"");
	the_field_is(product, "additionalProperty", "group", "value", "\"children\"");
	json_decref(product);
}

/* ISO 105-A02:1993: grade 4 is a colour difference of 1.7. */
static void
a_grade_of_colour_change_says_what_it_is_on_the_grey_scale(void **state)
{
	json_t *product = product_of("colour change four", NULL);
	the_field_is(product, "additionalProperty", "colour change grade", "value", "\"4\"");
	the_field_is(product, "additionalProperty", "colour change grade", "description",
		     "\"5 is none, 1 is severe; on the grey scale of ISO 105-A02 this grade is a "
		     "colour difference of 1.7\"");
	json_decref(product);
}

static void
care_and_the_measures_of_shoes_and_of_a_set(void **state)
{
	json_t *product = product_of("care wash thirty do not bleach. mending new zip", NULL);
	the_field_is(product, "additionalProperty", "care", "value",
		     "\"wash at 30 \u00b0C at most; do not bleach\"");
	char *text = json_dumps(product, 0);
	assert_null(strstr(text, "new zip")); /* what is still to be done is not for buyers */
	free(text);
	json_decref(product);
	product = product_of("kind shoes. heel two insole ten outsole width four", NULL);
	the_field_is(product, "hasMeasurement", "heel", "valueReference",
		     "\"https://schema.org/WearableMeasurementHeight\"");
	the_field_is(product, "hasMeasurement", "outsole width", "valueReference",
		     "\"https://schema.org/WearableMeasurementWidth\"");
	the_field_is(product, "additionalProperty", "insole", "value", "10");
	json_decref(product);
	product = product_of("kind set. part trousers. jacket chest twenty trousers inseam thirty",
			     NULL);
	the_field_is(product, "hasMeasurement", "jacket chest", "value", "40");
	the_field_is(product, "additionalProperty", "jacket chest flat", "value", "20");
	the_field_is(product, "hasMeasurement", "trousers inseam", "value", "30");
	json_decref(product);
}

static void
colours_without_a_pattern_and_patterns_alone(void **state)
{
	json_t *product = product_of("colour dark blue", NULL);
	the_field_is(product, NULL, NULL, "color", "\"dark blue\"");
	the_field_is(product, NULL, NULL, "pattern", NULL);
	json_decref(product);
	product = product_of("colour tartan", NULL);
	the_field_is(product, NULL, NULL, "color", NULL);
	the_field_is(product, NULL, NULL, "pattern", "\"tartan\"");
	json_decref(product);
}

/* Our rule, since schema.org gives none: what is broken is damaged, what is worn is used. */
static void
what_is_broken_is_damaged_and_what_is_worn_is_used(void **state)
{
	static const struct {
		const char *said;
		bool damaged;
	} cases[] = {
		{"kind shirt", false},		 {"flaw none", false},
		{"flaw stain left cuff", false}, {"flaw pilling", false},
		{"flaw repair", false},		 {"flaw other", false},
		{"flaw cut tag", false},	 {"flaw small hole left cuff", true},
		{"flaw stain. flaw tear", true}, {"flaw moth hole", true},
		{"flaw missing button", true},	 {"flaw open seam", true},
	};
	for (size_t i = 0; i < COUNT(cases); i++) {
		json_t *product = product_of(cases[i].said, NULL);
		the_field_is(product, NULL, NULL, "itemCondition",
			     cases[i].damaged ? "\"https://schema.org/DamagedCondition\""
					      : "\"https://schema.org/UsedCondition\"");
		json_decref(product);
	}
}

static void
flaws_are_told_one_by_one(void **state)
{
	json_t *product = product_of("flaw small hole left cuff. flaw stain", NULL);
	json_t *list = json_object_get(product, "additionalProperty");
	assert_int_equal(json_array_size(list), 2);
	assert_string_equal(json_string_value(json_object_get(json_array_get(list, 0), "value")),
			    "small hole at the left cuff");
	assert_string_equal(json_string_value(json_object_get(json_array_get(list, 1), "value")),
			    "stain");
	json_decref(product);
	product = product_of("flaw none", NULL);
	the_field_is(product, "additionalProperty", "flaw", "value", "\"none found\"");
	json_decref(product);
}

static void
what_is_off_the_lists_is_left_out(void **state)
{
	json_t *product =
		product_of("maker other size other colour other cloth other parcel other", NULL);
	the_field_is(product, NULL, NULL, "brand", NULL);
	the_field_is(product, NULL, NULL, "size", NULL);
	the_field_is(product, NULL, NULL, "color", NULL);
	the_field_is(product, NULL, NULL, "material", NULL);
	the_field_is(product, NULL, NULL, "additionalProperty", NULL);
	json_decref(product);
}

static void
an_item_that_is_not_done_says_so_and_confirmed_values_too(void **state)
{
	struct writeup writeup = {.text = {.chars = NULL}};
	dictate_item(&record, vocabulary, "kind shirt");
	dictate_as(&record, vocabulary, "chest forty", true);
	record.state = ITEM_SET_ASIDE;
	json_t *product = jsonld_product(vocabulary, &record, &writeup, NULL);
	all_names_are_schema_orgs(product);
	the_field_is(product, "additionalProperty", "state", "value", "\"set aside\"");
	the_field_is(product, "hasMeasurement", "chest", "description",
		     "\"all round: twice the width laid flat; asked about and confirmed\"");
	the_field_is(product, NULL, NULL, "offers", NULL);
	json_decref(product);
}

static void
pictures_are_named_beside(void **state)
{
	static const char *const addresses[] = {"picture.svg", "picture.png", NULL};
	json_t *product = product_of("kind shirt", NULL);
	jsonld_add_images(product, addresses);
	all_names_are_schema_orgs(product);
	the_field_is(product, NULL, NULL, "image", "[\"picture.svg\",\"picture.png\"]");
	json_decref(product);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_lists_have_as_many_members_as_schema_orgs),
		cmocka_unit_test(a_girth_is_twice_the_flat_width_and_the_width_stands_beside),
		cmocka_unit_test(what_schema_org_has_no_name_for_is_a_property_of_its_own),
		cmocka_unit_test(each_fact_is_where_schema_org_has_it),
		cmocka_unit_test(a_group_is_a_size_group_where_schema_org_has_one),
		cmocka_unit_test(a_grade_of_colour_change_says_what_it_is_on_the_grey_scale),
		cmocka_unit_test(care_and_the_measures_of_shoes_and_of_a_set),
		cmocka_unit_test(colours_without_a_pattern_and_patterns_alone),
		cmocka_unit_test(what_is_broken_is_damaged_and_what_is_worn_is_used),
		cmocka_unit_test(flaws_are_told_one_by_one),
		cmocka_unit_test(what_is_off_the_lists_is_left_out),
		cmocka_unit_test(an_item_that_is_not_done_says_so_and_confirmed_values_too),
		cmocka_unit_test(pictures_are_named_beside),
	};
	return cmocka_run_group_tests(tests, begin, end);
}
