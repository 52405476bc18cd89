/* The figures of a day. */
#include "answer.h"
#include "follow.h"
#include "json.h"

#include <stdio.h>
#include <string.h>

enum { DAYS_MOST = 31 };

static json_t *
days_json(char days[][11], int count)
{
	json_t *array = json_array();
	for (int i = 0; i < count; i++)
		json_array_append_new(array, json_string(days[i]));
	return array;
}

static bool
add_route(void *user, const char *route, int64_t count)
{
	json_object_set_new(user, route == NULL ? "" : route, json_integer(count));
	return true;
}

/* "210.50 USD"; several currencies one after another. */
struct amounts {
	int64_t items;
	char text[256];
};

static bool
add_amount(void *user, const char *currency, int64_t minor, int64_t items)
{
	struct amounts *amounts = user;
	struct money money = {.minor = minor};
	char figures[48];
	size_t length = strlen(amounts->text);
	snprintf(money.currency, sizeof money.currency, "%s", currency);
	money_format(money, figures, sizeof figures);
	snprintf(amounts->text + length, sizeof amounts->text - length, "%s%s %s",
		 length > 0 ? ", " : "", figures, currency);
	amounts->items += items;
	return true;
}

static json_t *
prices_json(struct desk *desk, const char *day)
{
	struct amounts prices = {.items = 0}, costs = {.items = 0};
	json_t *json = json_object();
	review_day_amounts(desk->review, day, "price", add_amount, &prices);
	review_day_amounts(desk->review, day, "cost", add_amount, &costs);
	json_object_set_new(json, "items", json_integer(prices.items));
	json_object_set_new(json, "sum", json_said(prices.text));
	json_object_set_new(json, "cost_items", json_integer(costs.items));
	json_object_set_new(json, "cost", json_said(costs.text));
	return json;
}

json_t *
figures_json(struct request *request)
{
	struct desk *desk = request->desk;
	char days[DAYS_MOST][11];
	const char *day = request_parameter(request, "day");
	struct review_day of_day;
	follow_changes(desk, 10);
	int count = review_days(desk->review, days, DAYS_MOST);
	if (day == NULL || day[0] == '\0')
		day = count > 0 ? days[0] : "";
	review_day(desk->review, day, &of_day);
	json_t *json = json_object(), *items = json_object(), *at_desk = json_object();
	json_object_set_new(json, "day", json_said(day));
	json_object_set_new(json, "days", days_json(days, count));
	json_object_set_new(items, "opened", json_integer(of_day.opened));
	json_object_set_new(items, "done", json_integer(of_day.done));
	json_object_set_new(items, "set aside", json_integer(of_day.set_aside));
	json_object_set_new(items, "open", json_integer(of_day.open));
	json_object_set_new(json, "items", items);
	json_object_set_new(json, "calls", json_integer(of_day.calls));
	json_object_set_new(json, "doubted", json_integer(of_day.doubted));
	json_object_set_new(json, "refused", json_integer(of_day.refused));
	json_object_set_new(json, "struck", json_integer(of_day.struck));
	json_object_set_new(json, "readings", json_integer(of_day.readings));
	json_object_set_new(json, "flaws", json_integer(of_day.flaws));
	json_object_set_new(json, "looked", json_integer(of_day.looked));
	json_object_set_new(at_desk, "calls", json_integer(of_day.desk_calls));
	json_object_set_new(json, "desk", at_desk);
	json_object_set_new(json, "prices", prices_json(desk, day));
	json_t *routes = json_object();
	review_day_routes(desk->review, day, add_route, routes);
	json_object_set_new(json, "routes", routes);
	return json;
}

enum MHD_Result
figures_answer(struct request *request, const char *rest)
{
	return answer_json(request, 200, figures_json(request));
}
