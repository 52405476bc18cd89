#include "jsonld.h"

#include "grade.h"
#include "length_convert.h"
#include "reading_order.h"
#include "words.h"
#include "writeup_part.h"

#include <stdio.h>
#include <string.h>

/* Measures that schema.org has a name for. */
static const struct {
	const char *measure, *name;
} wearable[] = {
	{"chest", "WearableMeasurementChestOrBust"},
	{"waist", "WearableMeasurementWaist"},
	{"hip", "WearableMeasurementHips"},
	{"length", "WearableMeasurementLength"},
	{"sleeve", "WearableMeasurementSleeve"},
	{"inseam", "WearableMeasurementInseam"},
	{"outseam", "WearableMeasurementOutsideLeg"},
	{"collar", "WearableMeasurementCollar"},
	/* Of shoes, as schema.org's own examples of the two have it. */
	{"heel", "WearableMeasurementHeight"},
	{"outsole width", "WearableMeasurementWidth"},
};

/* Flaws by which a garment is broken, and not only used: our rule, pinned by its test. */
static const char *const damages[] = {
	"hole",
	"moth hole",
	"pinhole",
	"burn",
	"tear",
	"cut",
	"loss",
	"insect damage",
	"open seam",
	"popped stitches",
	"missing button",
	"broken zip",
	"missing zip pull",
	"broken snap",
};

static void
set_text(json_t *object, const char *key, const char *text)
{
	/* Only what is UTF-8 becomes a string; nothing else is set. */
	if (text[0] != '\0')
		json_object_set_new(object, key, json_string(text));
}

static json_t *
typed(const char *type)
{
	json_t *object = json_object();
	set_text(object, "@type", type);
	return object;
}

/* A whole number as one; the others have at most four decimals, so that they come out as they went
 * in when the text is written with JSONLD_PRECISION digits. */
static json_t *
number(struct length length)
{
	if (length.numerator % length.denominator == 0)
		return json_integer(length.numerator / length.denominator);
	return json_real((double)length.numerator / length.denominator);
}

static void
set_length(json_t *object, struct length length)
{
	json_object_set_new(object, "value", number(length));
	set_text(object, "unitCode", length.unit == LENGTH_INCH ? "INH" : "CMT");
}

static const char *
wearable_name(const struct vocabulary *vocabulary, const char *measure)
{
	const char *point = reading_point(vocabulary, measure);
	for (size_t i = 0; i < sizeof wearable / sizeof *wearable; i++)
		if (strcmp(wearable[i].measure, point) == 0)
			return wearable[i].name;
	return NULL;
}

static json_t *
property(json_t *properties, const char *name)
{
	json_t *object = typed("PropertyValue");
	set_text(object, "name", name);
	json_array_append_new(properties, object);
	return object;
}

static void
add_description(json_t *object, const char *how, bool confirmed)
{
	char text[128];
	snprintf(text, sizeof text, "%s%s%s", how, how[0] != '\0' && confirmed ? "; " : "",
		 confirmed ? "asked about and confirmed" : "");
	set_text(object, "description", text);
}

static void
add_reading(const struct vocabulary *vocabulary, const struct entry *reading, json_t *measurements,
	    json_t *properties)
{
	const struct call *said = &reading->said;
	bool flat = reading_is_flat(vocabulary, said->name);
	const char *name = wearable_name(vocabulary, said->name);
	char text[CALL_NAME_MAX + 32];

	if (said->none) {
		json_t *object = property(properties, said->name);
		set_text(object, "value", "none");
		add_description(object, "the garment has no such point", reading->confirmed);
		return;
	}
	if (name != NULL) {
		json_t *object = typed("QuantitativeValue");
		set_text(object, "name", said->name);
		snprintf(text, sizeof text, JSONLD_CONTEXT "%s", name);
		set_text(object, "valueReference", text);
		set_length(object, flat ? length_doubled(said->length) : said->length);
		add_description(object, flat ? "all round: twice the width laid flat" : "",
				reading->confirmed);
		json_array_append_new(measurements, object);
	}
	if (name == NULL || flat) {
		snprintf(text, sizeof text, "%s%s", said->name, flat ? " flat" : "");
		json_t *object = property(properties, text);
		set_length(object, said->length);
		add_description(object, flat ? "laid flat, from edge to edge" : "",
				reading->confirmed);
	}
}

static void
add_readings(const struct vocabulary *vocabulary, const struct record *record, json_t *product,
	     json_t *properties)
{
	const struct entry *readings[RECORD_ENTRIES_MAX];
	int count = reading_order(record, vocabulary, readings);
	json_t *measurements = json_array();

	for (int i = 0; i < count; i++)
		add_reading(vocabulary, readings[i], measurements, properties);
	if (json_array_size(measurements) > 0)
		json_object_set(product, "hasMeasurement", measurements);
	json_decref(measurements);
}

static bool
is_damage(const struct call *flaw)
{
	for (size_t i = 0; i < sizeof damages / sizeof *damages; i++)
		if (strcmp(flaw->name, damages[i]) == 0)
			return true;
	return false;
}

static void
add_flaws(const struct record *record, json_t *product, json_t *properties)
{
	bool damaged = false;
	struct text words = {.chars = NULL};

	for (int i = 0; i < record->entry_count; i++) {
		const struct entry *entry = &record->entries[i];
		if (!entry->stands || entry->said.type != CALL_FLAW)
			continue;
		text_cut(&words, 0);
		if (entry->said.none)
			text_add(&words, "none found");
		else
			write_flaw_words(&entry->said, &words);
		json_t *object = property(properties, "flaw");
		set_text(object, "value", text_chars(&words));
		if (entry->said.side != SIDE_UNSAID)
			set_text(object, "description", "left and right are the wearer's");
		damaged = damaged || is_damage(&entry->said);
	}
	text_finish(&words);
	set_text(product, "itemCondition",
		 damaged ? JSONLD_CONTEXT "DamagedCondition" : JSONLD_CONTEXT "UsedCondition");
}

/* A colour ends in its pattern, if it has one: "blue and white striped". */
static void
add_colour(const struct vocabulary *vocabulary, const struct call *said, json_t *product)
{
	struct words words;
	char colour[CALL_NAME_MAX] = "";

	if (!words_split(&words, said->name))
		return;
	for (int at = 0, used; at < words.count; at += used) {
		int index = vocabulary_match(vocabulary, LIST_COLOUR, &words, at, &used);
		const struct term *term =
			index < 0 ? NULL : vocabulary_term(vocabulary, LIST_COLOUR, index);
		if (term != NULL && term->colour == COLOUR_PATTERN && at + used == words.count) {
			set_text(product, "pattern", term->name);
			break;
		}
		used = used > 0 ? used : 1;
		for (int i = 0; i < used; i++)
			words_append(colour, sizeof colour, words.word[at + i]);
	}
	set_text(product, "color", colour);
}

/* schema.org's material has no percentages, so each fibre has a property of its own too. */
static void
add_cloth(const struct call *said, json_t *product, json_t *properties)
{
	struct text cloth = {.chars = NULL};

	write_value(said, &cloth);
	set_text(product, "material", text_chars(&cloth));
	text_finish(&cloth);
	for (int i = 0; i < said->fibre_count; i++) {
		const struct fibre *fibre = &said->fibres[i];
		char name[64];
		snprintf(name, sizeof name, "%s%s%s", fibre->section,
			 fibre->section[0] != '\0' ? " " : "", fibre->name);
		json_t *object = property(properties, name);
		json_object_set_new(object, "value", json_integer(fibre->percent));
		set_text(object, "unitText", "percent by weight");
	}
}

static void
add_grade(const char *name, const char *ends, const struct call *said, json_t *properties)
{
	struct text grade = {.chars = NULL};
	json_t *object = property(properties, name);

	write_value(said, &grade);
	set_text(object, "value", text_chars(&grade));
	set_text(object, "description", ends);
	text_finish(&grade);
}

/* With what the grade would be on the published scale: it was judged by eye. */
static void
add_colour_change(const struct call *said, json_t *properties)
{
	char ends[160];
	int tenths = grade_colour_difference_tenths(said->grade_halves);
	snprintf(ends, sizeof ends,
		 "5 is none, 1 is severe; on the grey scale of ISO 105-A02 this grade is a colour "
		 "difference of %d.%d",
		 tenths / 10, tenths % 10);
	add_grade("colour change grade", ends, said, properties);
}

static void
add_offer(const struct money *asking, json_t *product)
{
	char amount[32];
	json_t *offer = typed("Offer");

	money_format(*asking, amount, sizeof amount);
	set_text(offer, "price", amount);
	set_text(offer, "priceCurrency", asking->currency);
	json_object_set(offer, "itemCondition", json_object_get(product, "itemCondition"));
	json_object_set_new(product, "offers", offer);
}

/* The call that stands in a slot, but not one that is off the list. */
static const struct call *
fact(const struct record *record, enum call_type type)
{
	const struct entry *entry = record_slot(record, type);
	return entry == NULL || entry->said.other ? NULL : &entry->said;
}

static void
add_brand(const struct call *said, json_t *product)
{
	struct text name = {.chars = NULL};
	json_t *brand = typed("Brand");

	write_value(said, &name);
	set_text(brand, "name", text_chars(&name));
	json_object_set_new(product, "brand", brand);
	text_finish(&name);
}

static void
add_weight(const struct call *said, json_t *product)
{
	json_t *weight = typed("QuantitativeValue");
	json_object_set_new(weight, "value", json_integer(said->grams));
	set_text(weight, "unitCode", "GRM");
	json_object_set_new(product, "weight", weight);
}

/* Groups that schema.org has a name for; its children are boys, girls or infants. */
static const struct {
	const char *group, *name;
} groups[] = {
	{"women", "WearableSizeGroupWomens"}, {"men", "WearableSizeGroupMens"},
	{"girls", "WearableSizeGroupGirls"},  {"boys", "WearableSizeGroupBoys"},
	{"baby", "WearableSizeGroupInfants"},
};

/* A size alone is a text; where a group goes with it, a specification. */
static void
add_size(const struct call *size, const struct call *group, json_t *product, json_t *properties)
{
	json_t *specification = typed("SizeSpecification");
	char iri[128] = "";

	if (group != NULL)
		set_text(property(properties, "group"), "value", group->name);
	for (size_t i = 0; group != NULL && i < sizeof groups / sizeof *groups; i++)
		if (strcmp(groups[i].group, group->name) == 0)
			snprintf(iri, sizeof iri, JSONLD_CONTEXT "%s", groups[i].name);
	set_text(specification, "sizeGroup", iri);
	if (size != NULL)
		set_text(specification, "name", size->name);
	if (iri[0] != '\0')
		json_object_set(product, "size", specification);
	else if (size != NULL)
		set_text(product, "size", size->name);
	json_decref(specification);
}

/* In the words of the write-up. */
static void
add_care(const struct vocabulary *vocabulary, const struct call *said, json_t *properties)
{
	struct text care = {.chars = NULL};
	write_care(vocabulary, said, &care);
	set_text(property(properties, "care"), "value", text_chars(&care));
	text_finish(&care);
}

static void
add_pieces(const struct call *said, json_t *properties)
{
	for (int i = 0; i < said->listed_count; i++)
		set_text(property(properties, "part of the set"), "value", said->listed[i].name);
}

static void
add_facts(const struct vocabulary *vocabulary, const struct record *record, json_t *product,
	  json_t *properties)
{
	const struct call *said;

	if ((said = fact(record, CALL_ITEM)) != NULL)
		set_text(product, "sku", said->label);
	if ((said = fact(record, CALL_KIND)) != NULL)
		set_text(product, "category", said->name);
	if ((said = fact(record, CALL_MAKER)) != NULL)
		add_brand(said, product);
	add_size(fact(record, CALL_SIZE), fact(record, CALL_GROUP), product, properties);
	if ((said = fact(record, CALL_PART)) != NULL)
		add_pieces(said, properties);
	if ((said = fact(record, CALL_CARE)) != NULL)
		add_care(vocabulary, said, properties);
	if ((said = fact(record, CALL_COLOUR)) != NULL)
		add_colour(vocabulary, said, product);
	if ((said = fact(record, CALL_CLOTH)) != NULL)
		add_cloth(said, product, properties);
	if ((said = fact(record, CALL_WEIGHT)) != NULL)
		add_weight(said, product);
	if ((said = fact(record, CALL_PILLING)) != NULL)
		add_grade("pilling grade", "5 is none, 1 is severe", said, properties);
	if ((said = fact(record, CALL_COLOUR_CHANGE)) != NULL)
		add_colour_change(said, properties);
}

json_t *
jsonld_product(const struct vocabulary *vocabulary, const struct record *record,
	       const struct writeup *writeup, const struct money *asking)
{
	json_t *product = typed("Product");
	json_t *properties = json_array();

	set_text(product, "name", text_chars(&writeup->title));
	set_text(product, "description", text_chars(&writeup->description));
	add_facts(vocabulary, record, product, properties);
	add_readings(vocabulary, record, product, properties);
	add_flaws(record, product, properties);
	if (record->state != ITEM_DONE)
		set_text(property(properties, "state"), "value",
			 record->state == ITEM_OPEN ? "still open" : "set aside");
	if (json_array_size(properties) > 0)
		json_object_set(product, "additionalProperty", properties);
	json_decref(properties);
	if (asking != NULL)
		add_offer(asking, product);
	return product;
}

void
jsonld_add_images(json_t *product, const char *const *addresses)
{
	json_t *images = json_array();
	for (; *addresses != NULL; addresses++)
		json_array_append_new(images, json_string(*addresses));
	json_object_set_new(product, "image", images);
}
