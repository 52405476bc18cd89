#include "json.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

json_t *
json_words(const char *text)
{
	json_t *json = json_string(text == NULL ? "" : text);
	if (json != NULL)
		return json;
	char *plain = strdup(text);
	for (char *byte = plain; byte != NULL && *byte != '\0'; byte++)
		if ((unsigned char)*byte >= 0x80)
			*byte = '?';
	json = json_string(plain == NULL ? "" : plain);
	free(plain);
	return json;
}

json_t *
json_said(const char *text)
{
	return text == NULL || text[0] == '\0' ? json_null() : json_words(text);
}

json_t *
json_time(int64_t unix_ms)
{
	char text[64], whole[40];
	time_t seconds = (time_t)(unix_ms / 1000);
	struct tm tm;
	if (unix_ms == 0 || gmtime_r(&seconds, &tm) == NULL)
		return json_null();
	strftime(whole, sizeof whole, "%Y-%m-%dT%H:%M:%S", &tm);
	snprintf(text, sizeof text, "%s.%03dZ", whole, (int)(unix_ms % 1000));
	return json_string(text);
}

json_t *
json_row(int64_t row)
{
	return row == 0 ? json_null() : json_integer(row);
}

const char *
json_member_text(const json_t *object, const char *name)
{
	return json_string_value(json_object_get(object, name));
}

int64_t
json_member_number(const json_t *object, const char *name, int64_t otherwise)
{
	const json_t *member = json_object_get(object, name);
	return json_is_integer(member) ? json_integer_value(member) : otherwise;
}

bool
json_member_true(const json_t *object, const char *name)
{
	return json_is_true(json_object_get(object, name));
}
