/* Small pieces of JSON that many answers have. Inside desk/. */
#ifndef LAPEL_DESK_JSON_H
#define LAPEL_DESK_JSON_H

#include <jansson.h>
#include <stdbool.h>
#include <stdint.h>

/* The text; null for NULL and for "". Bytes that are no UTF-8 become question marks, so that no
 * answer fails for them. */
json_t *json_said(const char *text);
json_t *json_words(const char *text); /* "" for NULL */

/* "2026-11-25T12:00:03.250Z"; null for 0. */
json_t *json_time(int64_t unix_ms);

/* The row; null for 0. */
json_t *json_row(int64_t row);

/* Members of an object that somebody sent. NULL, or `otherwise`, when they are not there or are
 * something else. */
const char *json_member_text(const json_t *object, const char *name);
int64_t json_member_number(const json_t *object, const char *name, int64_t otherwise);
bool json_member_true(const json_t *object, const char *name);

#endif
