/* Fills a database with garments that nobody dictated, as many as there would be after years, by
 * the same writes as the station's. The same seed gives the same garments.
 * Usage: desk_fill GRAMMARS FILE.db ITEMS [SEED] [sound] */
#include "station.h"
#include "store.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ITEMS_A_DAY = 60, ITEMS_TOGETHER = 200, CALL_MS = 9000, SOUND_SAMPLES = 12000 };

struct filling {
	struct vocabulary *vocabulary;
	struct store *store;
	struct record record;
	uint64_t random, utterance;
	int64_t at_ms;
	int number;
	bool sound;
	int16_t tone[SOUND_SAMPLES];
	int64_t calls;
};

/* xorshift64* (Vigna 2016, from memory). */
static unsigned
chance(struct filling *filling, unsigned of)
{
	filling->random ^= filling->random >> 12;
	filling->random ^= filling->random << 25;
	filling->random ^= filling->random >> 27;
	return (unsigned)((filling->random * UINT64_C(2685821657736338717)) >> 33) % of;
}

static void
give_up(const char *why)
{
	fprintf(stderr, "desk_fill: %s\n", why);
	exit(1);
}

/* One call as the conversation writes it. */
static int64_t
put(struct filling *filling, const struct call *said, const char *text, enum verdict verdict,
    const struct deed *deed, enum item_change change, int64_t settles)
{
	char alternatives[300];
	snprintf(alternatives, sizeof alternatives,
		 "[{\"text\":\"%s\",\"confidence\":0.2},{\"text\":\"chest thirty\","
		 "\"confidence\":0.05}]",
		 text);
	struct utterance utterance = {.number = ++filling->utterance,
				      .start_ms = filling->at_ms,
				      .end_ms = filling->at_ms + 1500,
				      .decided_ms = filling->at_ms + 1900,
				      .decided_by = "silence",
				      .alternatives = alternatives,
				      .evidence = "{\"margin\":4.2,\"level_db\":-31.0}",
				      .score = 0.9,
				      .sound = filling->sound ? filling->tone : NULL,
				      .sound_count = filling->sound ? SOUND_SAMPLES : 0};
	struct write write = {.utterance = utterance.number,
			      .item = filling->record.item,
			      .at_ms = filling->at_ms,
			      .source = SOURCE_VOICE,
			      .verdict = verdict,
			      .confidence = verdict == VERDICT_TAKEN ? 0.95 : 0.6,
			      .has_call = true,
			      .said = *said,
			      .change = change,
			      .has_deed = deed != NULL,
			      .settles = settles,
			      .record = &filling->record};
	struct written written;
	if (deed != NULL)
		write.deed = *deed;
	snprintf(write.text, sizeof write.text, "%s", text);
	filling->at_ms += CALL_MS / 2 + chance(filling, CALL_MS);
	store_write(filling->store, &write, &utterance, &written);
	if (!written.stored)
		give_up(written.why_not);
	filling->record.item = written.item;
	if (deed != NULL)
		record_stored(&filling->record, written.call, written.first_entry);
	if (filling->sound && (said->other || said->type == CALL_NOTE) && deed != NULL)
		store_note(filling->store, written.call, filling->tone, SOUND_SAMPLES, &written);
	filling->calls++;
	return written.call;
}

static void
say(struct filling *filling, const struct call *said, const char *text)
{
	struct deed deed;
	int64_t settles = 0;
	bool doubted = said->type == CALL_MEASURE && chance(filling, 25) == 0;
	enum item_change change = filling->record.item == 0 ? ITEM_OPENED : ITEM_UNCHANGED;
	if (chance(filling, 60) == 0 && filling->record.item != 0)
		put(filling, said, text, VERDICT_REFUSED, NULL, ITEM_UNCHANGED, 0);
	if (doubted && filling->record.item != 0) {
		settles = put(filling, said, text, VERDICT_DOUBTED, NULL, ITEM_UNCHANGED, 0);
		if (chance(filling, 4) == 0)
			return; /* left to the desk */
	}
	if (record_write(&filling->record, said, settles != 0, &deed))
		put(filling, said, text, VERDICT_TAKEN, &deed, change, settles);
}

static void
say_name(struct filling *filling, enum call_type type, const char *name)
{
	struct call call = {.type = type};
	char text[128];
	snprintf(call.name, sizeof call.name, "%s", name);
	snprintf(text, sizeof text, "%s %s", call_type_name(type), name);
	say(filling, &call, text);
}

static void
say_any(struct filling *filling, enum call_type type, enum list list)
{
	int count = vocabulary_count(filling->vocabulary, list);
	if (chance(filling, 150) == 0 && type == CALL_MAKER) {
		struct call other = {.type = type, .other = true};
		say(filling, &other, "maker other");
		return;
	}
	if (count > 0)
		say_name(filling, type,
			 vocabulary_term(filling->vocabulary, list,
					 (int)chance(filling, (unsigned)count))
				 ->name);
}

static void
say_label(struct filling *filling, enum call_type type, int label)
{
	struct call call = {.type = type};
	char text[64];
	snprintf(call.label, sizeof call.label, "%d", label);
	snprintf(text, sizeof text, "%s %d", call_type_name(type), label);
	say(filling, &call, text);
}

static void
say_measure(struct filling *filling, const char *measure, int inches)
{
	struct call call = {.type = CALL_MEASURE, .has_length = true};
	char text[128];
	call.length = (struct length){2 * inches + (int)chance(filling, 2), 2, LENGTH_INCH};
	snprintf(call.name, sizeof call.name, "%s", measure);
	snprintf(text, sizeof text, "%s %d", measure, inches);
	say(filling, &call, text);
}

/* Middling lengths, so that few are out of range. */
static int
usual_inches(struct filling *filling, const char *measure)
{
	static const struct {
		const char *measure;
		int from, to;
	} usual[] = {{"chest", 18, 24},	 {"waist", 14, 19},	{"length", 26, 31},
		     {"sleeve", 22, 26}, {"shoulder", 16, 20},	{"front rise", 9, 11},
		     {"inseam", 28, 33}, {"leg opening", 7, 9}, {"collar", 15, 17},
		     {"hip", 19, 23}};
	for (size_t i = 0; i < sizeof usual / sizeof *usual; i++)
		if (strcmp(usual[i].measure, measure) == 0)
			return usual[i].from +
			       (int)chance(filling, (unsigned)(usual[i].to - usual[i].from + 1));
	return 20;
}

static void
measure_it(struct filling *filling, const struct term *kind)
{
	for (int i = 0; i < kind->wanted_count; i++) {
		const char *measure =
			vocabulary_term(filling->vocabulary, LIST_MEASURE, kind->wanted[i])->name;
		if (chance(filling, 40) != 0)
			say_measure(filling, measure, usual_inches(filling, measure));
	}
}

static void
look_it_over(struct filling *filling)
{
	for (unsigned flaws = chance(filling, 3); flaws > 0; flaws--) {
		struct call flaw = {.type = CALL_FLAW, .size = SIZE_SMALL};
		int count = vocabulary_count(filling->vocabulary, LIST_FLAW);
		int parts = vocabulary_count(filling->vocabulary, LIST_PART);
		snprintf(flaw.name, sizeof flaw.name, "%s",
			 vocabulary_term(filling->vocabulary, LIST_FLAW,
					 (int)chance(filling, (unsigned)count))
				 ->name);
		snprintf(flaw.part, sizeof flaw.part, "%s",
			 vocabulary_term(filling->vocabulary, LIST_PART,
					 (int)chance(filling, (unsigned)parts))
				 ->name);
		say(filling, &flaw, "flaw small something somewhere");
	}
	if (chance(filling, 30) == 0) {
		struct call note = {.type = CALL_NOTE};
		say(filling, &note, "note");
	}
}

static void
price_it(struct filling *filling)
{
	struct call price = {.type = CALL_PRICE, .money = {.currency = "USD"}};
	struct call cloth = {.type = CALL_CLOTH, .fibre_count = 1};
	int fibres = vocabulary_count(filling->vocabulary, LIST_FIBRE);
	price.money.minor = 450 + 50 * (int)chance(filling, 80);
	cloth.fibres[0].percent = 100;
	snprintf(cloth.fibres[0].name, sizeof cloth.fibres[0].name, "%s",
		 vocabulary_term(filling->vocabulary, LIST_FIBRE,
				 (int)chance(filling, (unsigned)fibres))
			 ->name);
	say(filling, &cloth, "cloth one hundred percent something");
	say(filling, &price, "price something");
}

/* Of the garments that usual lengths are known of: shoes, sets and the like are said less often,
 * and stand after them on the list. */
static const struct term *
any_garment(struct filling *filling)
{
	int count = vocabulary_count(filling->vocabulary, LIST_KIND), garments = 0;
	while (garments < count &&
	       strcmp(vocabulary_term(filling->vocabulary, LIST_KIND, garments)->weight, "1") == 0)
		garments++;
	return vocabulary_term(filling->vocabulary, LIST_KIND,
			       (int)chance(filling, (unsigned)garments));
}

static void
fill_item(struct filling *filling)
{
	const struct term *kind = any_garment(filling);
	record_init(&filling->record);
	say_label(filling, CALL_ITEM, ++filling->number);
	say_label(filling, CALL_BIN, 1 + (int)chance(filling, 400));
	say_name(filling, CALL_KIND, kind->name);
	say_any(filling, CALL_MAKER, LIST_MAKER);
	say_any(filling, CALL_SIZE, LIST_TAG);
	say_any(filling, CALL_COLOUR, LIST_COLOUR);
	measure_it(filling, kind);
	look_it_over(filling);
	price_it(filling);
	say_any(filling, CALL_ROUTE, LIST_ROUTE);
	struct call missing = {.type = CALL_ORDER, .order = ORDER_WHAT_IS_MISSING};
	put(filling, &missing, "what is missing", VERDICT_TAKEN, NULL, ITEM_UNCHANGED, 0);
	struct call next = {.type = CALL_ORDER, .order = ORDER_NEXT};
	put(filling, &next, "next", VERDICT_TAKEN, NULL,
	    chance(filling, 50) == 0 ? ITEM_PUT_ASIDE : ITEM_CLOSED, 0);
}

static void
fill(struct filling *filling, int items)
{
	/* The last day is today's, or the sound would be old. */
	struct problem problem = {""};
	int64_t day_ms = 86400000, now_ms = INT64_C(1795608000000);
	int64_t began_ms = now_ms - (int64_t)((items + ITEMS_A_DAY - 1) / ITEMS_A_DAY) * day_ms;
	for (int i = 0; i < items; i++) {
		if (i % ITEMS_A_DAY == 0) {
			began_ms += day_ms;
			filling->at_ms = 0;
			if (i > 0)
				store_end_together(filling->store, true, &problem);
			if (!store_begin_session(filling->store, began_ms, "mara", &problem) ||
			    !store_begin_together(filling->store, &problem))
				give_up(problem.text);
		}
		fill_item(filling);
		if (i % 5000 == 4999)
			fprintf(stderr, "%d items, %lld calls\n", i + 1, (long long)filling->calls);
	}
	if (items > 0 && !store_end_together(filling->store, true, &problem))
		give_up(problem.text);
}

int
main(int count, char **argument)
{
	struct problem problem = {""};
	struct filling *filling = calloc(1, sizeof *filling);
	if (filling == NULL || count < 4)
		give_up("usage: desk_fill GRAMMARS FILE.db ITEMS [SEED] [sound]");
	filling->random = count > 4 ? strtoull(argument[4], NULL, 10) : 1;
	filling->random = filling->random * 0x9E3779B97F4A7C15u + 1;
	filling->sound = count > 5;
	for (int i = 0; i < SOUND_SAMPLES; i++)
		filling->tone[i] = (int16_t)(6000 * sin(i * 2 * M_PI * 330 / 16000));
	filling->vocabulary = station_vocabulary(argument[1], NULL, &problem);
	filling->store = filling->vocabulary == NULL ? NULL : store_open(argument[2], &problem);
	if (filling->store == NULL)
		give_up(problem.text);
	fill(filling, atoi(argument[3]));
	printf("%s items, %lld calls\n", argument[3], (long long)filling->calls);
	store_close(filling->store);
	vocabulary_destroy(filling->vocabulary);
	free(filling);
	return 0;
}
