/* Reads a JSGF 1.0 grammar and checks it before anything else sees it: header, rules, weights,
 * optional parts, groups, + and *, comments, tags (ignored), <NULL> and <VOID>. No imports. */
#ifndef LAPEL_GRAMMAR_JSGF_H
#define LAPEL_GRAMMAR_JSGF_H

#include "problem.h"

#include <stddef.h>

struct jsgf; /* opaque; owns its rules */

/* Parses `text`; `file` only names it in the problem ("FILE, line N: what is wrong"). Refuses bad
 * text, undefined rules, a rule defined twice, recursion that is not at the right end (right
 * recursion is a loop and is allowed), and a grammar without a public rule. */
struct jsgf *jsgf_parse(const char *file, const char *text, struct problem *problem);
void jsgf_destroy(struct jsgf *jsgf); /* NULL is allowed */

/* The words of the grammar, each once, in order of first appearance, as written (lower-cased). */
int jsgf_word_count(const struct jsgf *jsgf);
const char *jsgf_word(const struct jsgf *jsgf, int index);

#endif
