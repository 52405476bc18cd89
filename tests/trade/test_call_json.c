#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "call_json.h"
#include "lists.h"
#include "meaning.h"
#include "random_call.h"

#include <string.h>

static const struct meaning_setting inches = {LENGTH_INCH, "USD"};
static struct vocabulary *lists;

static int
read_lists(void **state)
{
	(void)state;
	lists = lists_read();
	return lists == NULL;
}

static int
drop_lists(void **state)
{
	(void)state;
	vocabulary_destroy(lists);
	return 0;
}

/* The fields that the contract names, and ours. */
static void
a_call_has_the_fields_of_the_contract(void **state)
{
	static const struct {
		const char *heard, *json;
	} rows[] = {
		{"chest twenty one and a half",
		 "{'type':'measure','measure':'chest','value':'21 1/2','unit':'in','um':546100}"},
		{"chest twenty one point five centimetres",
		 "{'type':'measure','measure':'chest','value':'21.5','unit':'cm','um':215000,"
		 "'unit_said':true}"},
		{"twenty one",
		 "{'type':'measure','measure':null,'value':'21','unit':'in','um':533400}"},
		{"collar none", "{'type':'measure','measure':'collar','none':true}"},
		{"flaw small hole left inside cuff",
		 "{'type':'flaw','flaw':'hole','size':'small','side':'left','face':'inside',"
		 "'part':'cuff'}"},
		{"flaw tear half an inch",
		 "{'type':'flaw','flaw':'tear','value':'1/2','unit':'in','um':12700,"
		 "'unit_said':true}"},
		{"flaw none", "{'type':'flaw','flaw':'none'}"},
		{"flaw other seat", "{'type':'flaw','flaw':'other','other':true,'part':'seat'}"},
		{"kind tee shirt", "{'type':'kind','name':'t shirt'}"},
		{"maker hallowick", "{'type':'maker','name':'hallowick'}"},
		{"maker other", "{'type':'maker','name':'other','other':true}"},
		{"maker spell hotel alfa lima", "{'type':'maker','name':'hal','spelled':true}"},
		{"group children", "{'type':'group','name':'children'}"},
		{"care wash thirty dry flat", "{'type':'care','care':['wash thirty','dry flat']}"},
		{"mending new zip thirty minutes fix hem materials twelve fifty",
		 "{'type':'mending','mends':[{'mend':'new zip','minutes':30},{'mend':'fix hem'}],"
		 "'minor':1250,'currency':'USD'}"},
		{"part jacket", "{'type':'part','name':'jacket','parts':[]}"},
		{"flaw snag times four", "{'type':'flaw','flaw':'snag','count':4}"},
		{"size thirty two by thirty", "{'type':'size','name':'32x30'}"},
		{"colour dark blue", "{'type':'colour','name':'dark blue'}"},
		{"route sale", "{'type':'route','name':'sale'}"},
		{"parcel flat box", "{'type':'parcel','name':'flat box'}"},
		{"item four eighty two", "{'type':'item','label':'482'}"},
		{"bin four eighty two", "{'type':'bin','label':'482'}"},
		{"price eighteen fifty", "{'type':'price','minor':1850,'currency':'USD'}"},
		{"price two forty",
		 "{'type':'price','minor':240,'currency':'USD','or_minor':24000}"},
		{"cost four", "{'type':'cost','minor':400,'currency':'USD'}"},
		{"cloth sixty percent cotton forty percent linen",
		 "{'type':'cloth','fibres':[{'percent':60,'fibre':'cotton'},"
		 "{'percent':40,'fibre':'linen'}]}"},
		{"cloth lining hundred percent silk",
		 "{'type':'cloth','fibres':[{'percent':100,'fibre':'silk','section':'lining'}]}"},
		{"pilling five", "{'type':'pilling','grade':'5'}"},
		{"colour change three to four", "{'type':'colour change','grade':'3-4'}"},
		{"weight four twenty", "{'type':'weight','g':420}"},
		{"note", "{'type':'note'}"},
		{"next", "{'type':'order','order':'next'}"},
		{"strike that", "{'type':'order','order':'strike that'}"},
		{"strike chest", "{'type':'order','order':'strike','measure':'chest'}"},
		{"strike flaw left cuff",
		 "{'type':'order','order':'strike','flaw':null,'side':'left','part':'cuff'}"},
		{"open item nine", "{'type':'order','order':'open item','label':'9'}"},
		{"these belong to item nine",
		 "{'type':'order','order':'these belong to item','label':'9'}"},
		{"help flaws", "{'type':'order','order':'help','topic':'flaws'}"},
		{"keep bin nine", "{'type':'keep','what':{'type':'bin','label':'9'}}"},
		{"keep nothing", "{'type':'keep','what':null}"},
		{"second", "{'type':'answer','choice':2}"},
		{"no twenty one",
		 "{'type':'measure','measure':null,'value':'21','unit':'in','um':533400,"
		 "'correction':true}"},
	};
	(void)state;
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct words words;
		struct meaning meaning;
		struct call back;
		char text[512];
		strcpy(text, rows[i].json);
		for (char *quote = text; (quote = strchr(quote, '\'')) != NULL;)
			*quote = '"';
		json_t *want = json_loads(text, 0, NULL);
		assert_non_null(want);
		assert_true(words_split(&words, rows[i].heard));
		assert_true(meaning_read(lists, &inches, &words, &meaning));
		json_t *got = call_to_json(&meaning.calls[0]);
		if (!json_equal(got, want))
			fail_msg("'%s'", rows[i].heard);
		assert_true(call_from_json(got, &back));
		assert_true(call_same(&back, &meaning.calls[0]));
		assert_int_equal(back.unit_said, meaning.calls[0].unit_said);
		json_decref(got);
		json_decref(want);
	}
}

static void
any_call_goes_there_and_back(void **state)
{
	uint32_t seed = 8259;
	(void)state;
	for (int i = 0; i < 20000; i++) {
		struct call call = random_call(lists, &seed), back;
		call.correction = draw(&seed, 4) == 0;
		json_t *json = call_to_json(&call);
		char *text = json_dumps(json, JSON_COMPACT);
		json_t *again = json_loads(text, 0, NULL);
		if (!call_from_json(again, &back) || !call_same(&back, &call))
			fail_msg("%s", text);
		json_decref(again);
		free(text);
		json_decref(json);
	}
}

static void
what_is_no_call_is_refused(void **state)
{
	static const char *const rows[] = {
		"[]",
		"{}",
		"{'type':1}",
		"{'type':'lamp'}",
		"{'type':'kind'}",
		"{'type':'kind','name':''}",
		"{'type':'kind','name':3}",
		"{'type':'piece','name':'cuff'}",
		"{'type':'care','care':[]}",
		"{'type':'care','care':['']}",
		"{'type':'care','care':'wash thirty'}",
		"{'type':'care','care':[30]}",
		"{'type':'mending','mends':[{'mend':'new zip','minutes':0}]}",
		"{'type':'mending','mends':[{'mend':'new zip','minutes':1000}]}",
		"{'type':'mending','mends':[{'minutes':10}]}",
		"{'type':'mending','mends':[{'mend':'new zip'}],'minor':450}",
		"{'type':'part','name':'','parts':[]}",
		"{'type':'flaw','flaw':'hole','count':1}",
		"{'type':'measure','measure':'chest'}",
		"{'type':'measure','measure':'chest','value':'x','unit':'in'}",
		"{'type':'measure','measure':'chest','value':'21'}",
		"{'type':'measure','measure':'chest','value':'21','unit':'ft'}",
		"{'type':'measure','measure':'chest','value':21,'unit':'in'}",
		"{'type':'measure','measure':'chest','value':'21','unit':'in','none':true}",
		"{'type':'flaw','flaw':'hole','side':'upper'}",
		"{'type':'flaw','flaw':'hole','size':'huge'}",
		"{'type':'flaw','flaw':'hole','part':'a part with a name far too long for it'}",
		"{'type':'item'}",
		"{'type':'item','label':482}",
		"{'type':'item','label':'123456789012345678901234'}",
		"{'type':'cloth'}",
		"{'type':'cloth','fibres':[]}",
		"{'type':'cloth','fibres':['cotton']}",
		"{'type':'cloth','fibres':[{'percent':101,'fibre':'cotton'}]}",
		"{'type':'cloth','fibres':[{'percent':50}]}",
		"{'type':'cloth','fibres':[1,2,3,4,5,6,7,8,9]}",
		"{'type':'pilling','grade':'0'}",
		"{'type':'pilling','grade':'6'}",
		"{'type':'pilling','grade':'5-6'}",
		"{'type':'pilling','grade':'3-5'}",
		"{'type':'pilling','grade':'3-'}",
		"{'type':'pilling','grade':'33'}",
		"{'type':'pilling','grade':4}",
		"{'type':'weight','g':-1}",
		"{'type':'weight','g':4.5}",
		"{'type':'weight','g':99999999999}",
		"{'type':'price','minor':1850}",
		"{'type':'price','minor':1850,'currency':'DOLLARS'}",
		"{'type':'price','minor':'1850','currency':'USD'}",
		"{'type':'price','minor':240,'currency':'USD','or_minor':'x'}",
		"{'type':'keep'}",
		"{'type':'keep','what':'bin'}",
		"{'type':'keep','what':{'type':'keep','what':null}}",
		"{'type':'keep','what':{'type':'bin'}}",
		"{'type':'order'}",
		"{'type':'order','order':'dance'}",
		"{'type':'order','order':'strike','flaw':3}",
		"{'type':'answer','choice':3}",
		"{'type':'answer'}",
	};
	(void)state;
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct call call;
		char text[256];
		strcpy(text, rows[i]);
		for (char *quote = text; (quote = strchr(quote, '\'')) != NULL;)
			*quote = '"';
		json_t *json = json_loads(text, 0, NULL);
		assert_non_null(json);
		if (call_from_json(json, &call))
			fail_msg("%s", rows[i]);
		json_decref(json);
	}
	struct call call;
	assert_false(call_from_json(NULL, &call));
}

static void
names_of_types_orders_and_places_go_there_and_back(void **state)
{
	(void)state;
	for (int type = 0; type < CALL_TYPES; type++)
		assert_int_equal(call_type_parse(call_type_name((enum call_type)type)), type);
	for (int order = 0; order < ORDERS; order++)
		assert_int_equal(order_parse(order_name((enum order)order)), order);
	for (int i = 0; i <= SIDE_RIGHT; i++)
		assert_int_equal(side_parse(side_name((enum side)i)), i);
	for (int i = 0; i <= FACE_OUTSIDE; i++)
		assert_int_equal(face_parse(face_name((enum face)i)), i);
	for (int i = 0; i <= SIZE_LARGE; i++)
		assert_int_equal(flaw_size_parse(flaw_size_name((enum flaw_size)i)), i);
	assert_int_equal(call_type_parse("lamp"), CALL_TYPES);
	assert_int_equal(call_type_parse(NULL), CALL_TYPES);
	assert_int_equal(order_parse("strike t"), ORDERS);
	assert_int_equal(side_parse("front"), SIDE_UNSAID);
	assert_int_equal(face_parse(""), FACE_UNSAID);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_call_has_the_fields_of_the_contract),
		cmocka_unit_test(any_call_goes_there_and_back),
		cmocka_unit_test(what_is_no_call_is_refused),
		cmocka_unit_test(names_of_types_orders_and_places_go_there_and_back),
	};
	return cmocka_run_group_tests(tests, read_lists, drop_lists);
}
