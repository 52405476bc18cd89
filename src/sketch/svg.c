#include "svg.h"

#include <inttypes.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

/* Characters that XML 1.0 (section 2.2) has no place for are left out. */
static void
add_escaped(struct text *to, const char *chars)
{
	for (; *chars != '\0'; chars++) {
		unsigned char byte = (unsigned char)*chars;
		if (byte == '&')
			text_add(to, "&amp;");
		else if (byte == '<')
			text_add(to, "&lt;");
		else if (byte == '>')
			text_add(to, "&gt;");
		else if (byte >= ' ' || byte == '\t' || byte == '\n')
			text_add_bytes(to, chars, 1);
	}
}

static void
add_element(struct text *to, const char *name, const char *chars)
{
	text_add_format(to, "<%s>", name);
	add_escaped(to, chars);
	text_add_format(to, "</%s>\n", name);
}

/* The bytes of an SVG, of which `at` were dealt with. */
struct rest {
	const char *svg;
	size_t count, at;
};

/* Where the word begins, from `at` on; the count when it does not come any more. */
static size_t
find(const struct rest *rest, const char *word)
{
	const char *found =
		memmem(rest->svg + rest->at, rest->count - rest->at, word, strlen(word));
	return found == NULL ? rest->count : (size_t)(found - rest->svg);
}

/* Adds the bytes up to `end`. */
static void
copy_to(struct rest *rest, size_t end, struct text *to)
{
	if (end > rest->count)
		end = rest->count;
	text_add_bytes(to, rest->svg + rest->at, end - rest->at);
	rest->at = end;
}

/* The SVG without the surfaces' numbers. */
static void
settle(const char *svg, size_t count, struct text *to)
{
	static const char word[] = " id=\"surface";
	struct rest rest = {svg, count, 0};
	while (rest.at < count) {
		copy_to(&rest, find(&rest, word) + strlen(word), to);
		while (rest.at < count && svg[rest.at] >= '0' && svg[rest.at] <= '9')
			rest.at++;
	}
}

/* Adds the rest with the prefix before each id and each reference to one. In what cairo writes
 * there is no other "#": colours are rgb(). */
static void
add_prefixed(struct rest *rest, const char *prefix, struct text *to)
{
	static const char id[] = " id=\"";
	size_t next_id = find(rest, id), next_reference = find(rest, "#");
	while (next_id < rest->count || next_reference < rest->count) {
		if (next_id < next_reference) {
			copy_to(rest, next_id + strlen(id), to);
			next_id = find(rest, id);
		} else {
			copy_to(rest, next_reference + 1, to);
			next_reference = find(rest, "#");
		}
		text_add(to, prefix);
	}
	copy_to(rest, rest->count, to);
}

/* FNV-1a of 32 bits (Fowler, Noll and Vo; draft-eastlake-fnv). */
static uint32_t
hash(const char *bytes, size_t count)
{
	uint32_t value = 2166136261u;
	for (size_t i = 0; i < count; i++)
		value = (value ^ (unsigned char)bytes[i]) * 16777619u;
	return value;
}

void
svg_finish(const char *svg, size_t count, const char *title, const char *description,
	   struct text *to)
{
	char prefix[16];
	struct text settled = {0};

	settle(svg, count, &settled);
	struct rest rest = {text_chars(&settled), settled.length, 0};
	snprintf(prefix, sizeof prefix, "s%08" PRIx32 "-", hash(rest.svg, rest.count));
	copy_to(&rest, find(&rest, "<svg "), to);
	copy_to(&rest, find(&rest, ">"), to);
	if (rest.at < rest.count)
		rest.at++;
	text_add(to, " role=\"img\">\n");
	add_element(to, "title", title);
	if (description[0] != '\0')
		add_element(to, "desc", description);
	add_prefixed(&rest, prefix, to);
	to->failed = to->failed || settled.failed;
	text_finish(&settled);
}
