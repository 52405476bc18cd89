#include "lattice.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* Sentences are put together from their ends, always that one first which promises most: as it is
 * known how good the best way to each place was, the promise is exact, and whole sentences come out
 * in order (Soong and Huang, 1991: a tree-trellis search). */
struct piece {
	double after;	  /* nats, from here to the end */
	double promise;	  /* with the best way to here */
	int state, frame; /* what comes before ends at or before this frame, in this state */
	int word;	  /* the first of the piece; -1: none yet */
	int rest;	  /* the piece without it, or -1 */
	uint64_t words;	  /* tells pieces of the same words */
	bool whole;
};

enum { PIECES_MAX = 60000, OPENED_MAX = 4000, TIMES_MAX = 2, SEEN_SIZE = 1 << 14 };

struct seen {
	uint64_t words;
	int state, times;
};

struct reading {
	const struct lattice *lattice;
	struct piece *pieces;
	int piece_count;
	int *heap; /* numbers of pieces, the most promising first */
	int heap_count;
	struct seen *seen;
	double least; /* what promises less is left out */
};

bool
lattice_add(struct lattice *lattice, struct ending ending)
{
	if (lattice->ending_count == lattice->ending_room) {
		int room = lattice->ending_room * 2 + 1024;
		struct ending *more = realloc(lattice->endings, sizeof *more * (size_t)room);
		if (more == NULL)
			return false;
		lattice->endings = more;
		lattice->ending_room = room;
	}
	int state = lattice->strands[ending.strand].to;
	ending.earlier = lattice->latest[state];
	lattice->latest[state] = lattice->ending_count;
	lattice->endings[lattice->ending_count++] = ending;
	return true;
}

static bool
more_promising(const struct reading *reading, int one, int other)
{
	return reading->pieces[reading->heap[one]].promise >
	       reading->pieces[reading->heap[other]].promise;
}

static void
swap(struct reading *reading, int one, int other)
{
	int kept = reading->heap[one];
	reading->heap[one] = reading->heap[other];
	reading->heap[other] = kept;
}

static void
push(struct reading *reading, struct piece piece)
{
	if (reading->piece_count == PIECES_MAX || piece.promise < reading->least)
		return;
	reading->pieces[reading->piece_count] = piece;
	int at = reading->heap_count++;
	reading->heap[at] = reading->piece_count++;
	for (; at > 0 && more_promising(reading, at, (at - 1) / 2); at = (at - 1) / 2)
		swap(reading, at, (at - 1) / 2);
}

static int
pop(struct reading *reading)
{
	int top = reading->heap[0];
	reading->heap[0] = reading->heap[--reading->heap_count];
	for (int at = 0, child; (child = 2 * at + 1) < reading->heap_count; at = child) {
		if (child + 1 < reading->heap_count && more_promising(reading, child + 1, child))
			child++;
		if (!more_promising(reading, child, at))
			break;
		swap(reading, child, at);
	}
	return top;
}

/* The same words from the same state on, parted otherwise in time, are opened but a few times. */
static bool
seen_enough(struct reading *reading, const struct piece *piece)
{
	uint64_t at = (piece->words ^ ((uint64_t)piece->state * 0x9E3779B97F4A7C15u)) >> 20;
	for (int tries = 0; tries < 64; tries++) {
		struct seen *seen = &reading->seen[(at + (uint64_t)tries) % SEEN_SIZE];
		if (seen->times == 0)
			*seen = (struct seen){piece->words, piece->state, 0};
		if (seen->words == piece->words && seen->state == piece->state)
			return ++seen->times > TIMES_MAX;
	}
	return true;
}

static double
silence_between(const struct lattice *lattice, int after_frame, int to_frame)
{
	return lattice->silence[to_frame + 1] - lattice->silence[after_frame + 1];
}

/* Puts each word that may have ended in `state` before a piece. */
static void
lengthen(struct reading *reading, int number, int state, double weight)
{
	const struct lattice *lattice = reading->lattice;
	const struct piece piece = reading->pieces[number];
	for (int i = lattice->latest[state]; i >= 0; i = lattice->endings[i].earlier) {
		const struct ending *ending = &lattice->endings[i];
		if (ending->last_frame > piece.frame)
			continue;
		const struct strand *strand = &lattice->strands[ending->strand];
		double after = piece.after + weight +
			       silence_between(lattice, ending->last_frame, piece.frame);
		push(reading,
		     (struct piece){
			     .after = after + ending->score - ending->before,
			     .promise = after + ending->score,
			     .state = strand->from,
			     .frame = ending->first_frame - 1,
			     .word = strand->word,
			     .rest = number,
			     .words = (piece.words + (uint64_t)strand->word + 1) * 0x100000001B3u,
		     });
	}
	if (state == 0 && piece.word >= 0) {
		double after = piece.after + weight + silence_between(lattice, -1, piece.frame);
		struct piece whole = piece;
		whole.after = whole.promise = after;
		whole.whole = true;
		push(reading, whole);
	}
}

static void
open_piece(struct reading *reading, int number)
{
	const struct lattice *lattice = reading->lattice;
	int state = reading->pieces[number].state;
	lengthen(reading, number, state, 0);
	for (int i = 0; i < lattice->silent_count; i++) {
		const struct silent *last = &lattice->silents[i];
		if (last->to != state)
			continue;
		lengthen(reading, number, last->from, last->weight);
		for (int k = 0; k < lattice->silent_count; k++)
			if (lattice->silents[k].to == last->from)
				lengthen(reading, number, lattice->silents[k].from,
					 last->weight + lattice->silents[k].weight);
	}
}

static void
write_text(const struct reading *reading, int number, char *text, size_t size)
{
	size_t length = 0;
	for (int i = number; i >= 0 && reading->pieces[i].word >= 0; i = reading->pieces[i].rest) {
		const char *word =
			automaton_word(reading->lattice->automaton, reading->pieces[i].word);
		if (length + strlen(word) + 2 > size)
			break;
		if (length > 0)
			text[length++] = ' ';
		strcpy(text + length, word);
		length += strlen(word);
	}
	text[length] = '\0';
}

static void
keep(const struct reading *reading, int number, struct found *found)
{
	char *text = found->texts[found->count].text;
	write_text(reading, number, text, FOUND_TEXT_MAX);
	for (int i = 0; i < found->count; i++)
		if (strcmp(found->texts[i].text, text) == 0)
			return;
	found->texts[found->count++].score = reading->pieces[number].promise;
}

bool
lattice_read(const struct lattice *lattice, double margin, struct found *found)
{
	struct reading reading = {.lattice = lattice, .least = lattice->best - margin};
	reading.pieces = malloc(sizeof *reading.pieces * PIECES_MAX);
	reading.heap = malloc(sizeof *reading.heap * PIECES_MAX);
	reading.seen = calloc(SEEN_SIZE, sizeof *reading.seen);
	bool done = reading.pieces != NULL && reading.heap != NULL && reading.seen != NULL;
	found->count = 0;
	for (int state = 0; done && state < automaton_state_count(lattice->automaton); state++)
		if (automaton_final(lattice->automaton, state))
			push(&reading, (struct piece){.state = state,
						      .frame = lattice->frames - 1,
						      .promise = lattice->best,
						      .word = -1,
						      .rest = -1});
	for (int opened = 0;
	     done && reading.heap_count > 0 && opened < OPENED_MAX && found->count < FOUND_MAX;
	     opened++) {
		int number = pop(&reading);
		const struct piece *piece = &reading.pieces[number];
		if (piece->whole)
			keep(&reading, number, found);
		else if (piece->word < 0 || !seen_enough(&reading, piece))
			open_piece(&reading, number);
	}
	free(reading.pieces);
	free(reading.heap);
	free(reading.seen);
	return done;
}
