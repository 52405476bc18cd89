/* What grammars/station.gram lets be said, call by call. */
#include "station_fixture.h"

static void
what_the_trade_says_is_in_the_grammar(void **state)
{
	static const struct {
		enum station_place place;
		const char *text;
	} SAID[] = {
		{STATION_ITEM, "kind jacket"},
		{STATION_ITEM, "kind t shirt"},
		{STATION_ITEM, "kind other"},
		{STATION_ITEM, "chest twenty one and a half"},
		{STATION_ITEM, "chest twenty one and a half inches length twenty eight"},
		{STATION_ITEM, "waist thirty two point two five"},
		{STATION_ITEM, "waist thirty two point oh five centimetres"},
		{STATION_ITEM, "sleeve none"},
		{STATION_ITEM, "outseam a hundred and four centimetres"},
		{STATION_ITEM, "outseam one oh four"},
		{STATION_ITEM, "outseam one twenty four"},
		{STATION_ITEM, "front rise eleven and three quarters"},
		{STATION_ITEM, "front rise eleven three quarters"},
		{STATION_ITEM, "collar fifteen and five eighths"},
		{STATION_ITEM, "hem half an inch"},
		{STATION_ITEM, "hem three quarters of an inch"},
		{STATION_ITEM, "chest twenty one no twenty two"},
		{STATION_ITEM, "no twenty two"},
		{STATION_ITEM, "chest twenty one no"},
		{STATION_ITEM, "chest thirteen no waist thirty"},
		{STATION_ITEM, "bin four eighty two no four ninety two"},
		{STATION_ITEM, "flaw small hole left cuff"},
		{STATION_ITEM, "flaw stain half an inch right front pocket"},
		{STATION_ITEM, "flaw hole back"},
		{STATION_ITEM, "flaw none"},
		{STATION_ITEM, "flaw other left sleeve"},
		{STATION_ITEM, "flaw stain left cuff no right cuff"},
		{STATION_ITEM, "item two seven one five"},
		{STATION_ITEM, "item twenty seven fifteen"},
		{STATION_ITEM, "item one thousand five"},
		{STATION_ITEM, "bin thirteen oh seven"},
		{STATION_ITEM, "bin six hundred"},
		{STATION_ITEM, "maker orlscombe and daughters"},
		{STATION_ITEM, "maker other"},
		{STATION_ITEM, "size thirty two by thirty"},
		{STATION_ITEM, "size extra large"},
		{STATION_ITEM, "size fourteen"},
		{STATION_ITEM, "colour dark blue and white striped"},
		{STATION_ITEM, "cloth sixty percent cotton forty percent linen"},
		{STATION_ITEM,
		 "cloth shell a hundred percent wool lining a hundred percent viscose"},
		{STATION_ITEM, "cloth ninety eight cotton two elastane"},
		{STATION_ITEM, "pilling four"},
		{STATION_ITEM, "pilling three to four"},
		{STATION_ITEM, "colour change five"},
		{STATION_ITEM, "weight four hundred twenty grams"},
		{STATION_ITEM, "weight three eighty"},
		{STATION_ITEM, "weight one pound two ounces"},
		{STATION_ITEM, "cost two forty"},
		{STATION_ITEM, "price eighteen fifty"},
		{STATION_ITEM, "price nine oh five"},
		{STATION_ITEM, "price twenty dollars"},
		{STATION_ITEM, "price twelve point five"},
		{STATION_ITEM, "parcel padded bag"},
		{STATION_ITEM, "route return to owner"},
		{STATION_ITEM, "note"},
		{STATION_ITEM, "keep bin four eighty two"},
		{STATION_ITEM, "keep maker marlock"},
		{STATION_ITEM, "keep nothing"},
		{STATION_ITEM, "next"},
		{STATION_ITEM, "previous"},
		{STATION_ITEM, "repeat"},
		{STATION_ITEM, "strike that"},
		{STATION_ITEM, "strike chest"},
		{STATION_ITEM, "strike flaw left cuff"},
		{STATION_ITEM, "restore"},
		{STATION_ITEM, "read it all"},
		{STATION_ITEM, "what is missing"},
		{STATION_ITEM, "where am i"},
		{STATION_ITEM, "open item four eighty two"},
		{STATION_ITEM, "hand over to rosalind"},
		{STATION_ITEM, "set aside"},
		{STATION_ITEM, "these belong to item nineteen"},
		{STATION_ITEM, "ask me"},
		{STATION_ITEM, "stop asking"},
		{STATION_ITEM, "pause"},
		{STATION_ITEM, "resume"},
		{STATION_ITEM, "help"},
		{STATION_ITEM, "help measures"},
		{STATION_ASKED, "twenty one and a half"},
		{STATION_ASKED, "none"},
		{STATION_ASKED, "twenty one no twenty two"},
		{STATION_ASKED, "twenty one waist nineteen"},
		{STATION_ASKED, "waist nineteen"},
		{STATION_ASKED, "next"},
		{STATION_QUESTION, "first"},
		{STATION_QUESTION, "second"},
		{STATION_QUESTION, "yes"},
		{STATION_QUESTION, "no"},
		{STATION_QUESTION, "thirteen"},
		{STATION_QUESTION, "no thirty"},
		{STATION_QUESTION, "chest thirty"},
		{STATION_PAUSED, "resume"},
	};
	const struct station *station = *state;

	for (size_t i = 0; i < COUNT(SAID); i++) {
		struct meaning meaning;
		const struct automaton *place = station->places[SAID[i].place];
		if (!automaton_standing(place, SAID[i].text).complete)
			fail_msg("%s: \"%s\" cannot be said", place_names[SAID[i].place],
				 SAID[i].text);
		if (!understood(station, SAID[i].text, "USD", &meaning))
			fail_msg("\"%s\" is not understood", SAID[i].text);
	}
}

static void
what_is_no_call_is_not_in_the_grammar(void **state)
{
	static const struct {
		enum station_place place;
		const char *text;
	} NONSENSE[] = {
		{STATION_ITEM, ""},
		{STATION_ITEM, "twenty one"},
		{STATION_ITEM, "none"},
		{STATION_ITEM, "no"},
		{STATION_ITEM, "first"},
		{STATION_ITEM, "chest"},
		{STATION_ITEM, "chest twenty three eighths"},
		{STATION_ITEM, "chest twenty one half"},
		{STATION_ITEM, "chest twenty one thirty"},
		{STATION_ITEM, "chest point"},
		{STATION_ITEM, "pilling six"},
		{STATION_ITEM, "pilling five to six"},
		{STATION_ITEM, "flaw cuff"},
		{STATION_ITEM, "bin"},
		{STATION_ITEM, "keep note"},
		{STATION_ITEM, "keep next"},
		{STATION_ITEM, "keep maker other"},
		{STATION_ITEM, "the quick brown fox"},
		{STATION_ASKED, "four eighty two oh one"},
		{STATION_ASKED, "twenty one twenty two"},
		{STATION_ASKED, "chest waist"},
		{STATION_QUESTION, "third"},
		{STATION_QUESTION, "maybe"},
		{STATION_PAUSED, "next"},
		{STATION_PAUSED, "resume resume"},
		{STATION_PAUSED, "chest twenty one"},
	};
	const struct station *station = *state;

	for (size_t i = 0; i < COUNT(NONSENSE); i++)
		if (automaton_standing(station->places[NONSENSE[i].place], NONSENSE[i].text)
			    .complete)
			fail_msg("%s: \"%s\" can be said", place_names[NONSENSE[i].place],
				 NONSENSE[i].text);
}

static void
another_call_that_may_follow_does_not_lengthen(void **state)
{
	static const struct {
		const char *text;
		bool complete, lengthens;
	} CASES[] = {
		{"next", true, false},
		{"chest", false, true},
		{"chest twenty", true, true},
		{"chest twenty one and", false, true},
		{"chest twenty one inches", true, false},
		{"chest twenty one and a half centimetres", true, false},
		{"chest none", true, false},
		{"chest twenty one no", true, true},
		{"bin four eighty two", true, true},
		{"flaw hole left knee", true, false},
		{"flaw hole left cuff", true, true}, /* "cuff edge" */
		{"flaw hole", true, true},
		{"cloth sixty percent cotton", true, true},
		{"pilling five", true, false},
		{"note", true, false},
		{"help", true, true},
		{"help measures", true, false},
	};
	const struct station *station = *state;

	for (size_t i = 0; i < COUNT(CASES); i++) {
		struct standing standing =
			automaton_standing(station->places[STATION_ITEM], CASES[i].text);
		if (!standing.possible || standing.complete != CASES[i].complete ||
		    standing.lengthens != CASES[i].lengthens || !standing.longer)
			fail_msg("\"%s\": possible %d, complete %d, longer %d, lengthens %d",
				 CASES[i].text, standing.possible, standing.complete,
				 standing.longer, standing.lengthens);
	}
}

int
main(void)
{
	static const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_the_trade_says_is_in_the_grammar),
		cmocka_unit_test(what_is_no_call_is_not_in_the_grammar),
		cmocka_unit_test(another_call_that_may_follow_does_not_lengthen),
	};
	return cmocka_run_group_tests(tests, open_station, close_station);
}
