/* A scene: what happens, and the whole of what it must cause, as text.
 *
 * Events, a second apart: `start`, `start after NUMBER` (given last in sessions before), `start
 * again` (a new session over the same store), `speech`,
 * `hear WORDS`, where `+` parts calls, `?` marks a doubted one (`?chest thirteen/chest thirty` with
 * its second reading) and `!` a refused one; `near WORDS`, `noise`; `down`, `held`, `tap`,
 * `double tap`, `hold`, `long hold`; `spoken`, `time MS` (later), `lost`, `noted`, `noted badly`,
 * `stop`. And of the store: `disk full`, `disk free`, `slow store` (it answers only to `stored`).
 *
 * Effects, joined by "; ": `store VERDICT CHANGE +BEGAN -ENDED`, `find ...`, `answer VERDICT`,
 * `say CUE: TEXT`, `hush`, `listen PLACE`, `note WHAT`, `ended`. */
#ifndef LAPEL_TESTS_SCENE_H
#define LAPEL_TESTS_SCENE_H

#include "memory_store.h"
#include "session.h"

struct row {
	const char *event, *effects;
};

enum { SCENE_TEXT_MAX = 8192 };

struct scene {
	struct vocabulary *vocabulary;
	struct ranges ranges;
	struct session_setting setting;
	struct session *session;
	struct memory_store store;
	struct record found;
	int64_t now_ms;
	uint64_t utterances, note_token;
	bool slow;
	const struct write *pending; /* of the slow store */
	char effects[SCENE_TEXT_MAX];
};

/* What a scene has that is not there of itself. */
enum {
	SCENE_BINS = 1,	 /* a list of bins: 11 to 13 */
	SCENE_RANGES = 2 /* chest and length have ranges; what is usual ends at 30 and 40 inches,
			    what is possible at 45 and 60 */
};

/* A vocabulary of a few kinds, measures, flaws and so on. */
struct vocabulary *scene_vocabulary(int with);
void scene_ranges(struct ranges *ranges);

void scene_begin(struct scene *scene, const struct session_setting *setting, int with);
void scene_end(struct scene *scene);

/* What the event causes, as text; the scene answers what asks to be answered. */
const char *scene_play(struct scene *scene, const char *event);

/* Plays the rows, up to one without an event, and fails at the first that differs. */
void scene_check(struct scene *scene, const char *name, const struct row *rows);

/* The same from the beginning to the end. */
void scene_run(const char *name, const struct row *rows);
void scene_run_with(const struct session_setting *setting, int with, const char *name,
		    const struct row *rows);

#define SCENE(name, ...) scene_run(name, (const struct row[]){__VA_ARGS__, {NULL, NULL}})
#define SCENE_WITH(with, name, ...) \
	scene_run_with(&session_usual, with, name, (const struct row[]){__VA_ARGS__, {NULL, NULL}})

#endif
