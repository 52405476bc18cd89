#include "transcript.h"

#include "heard_json.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { WAITING_MAX = 32 };

struct transcript {
	bool json;
	const char *file;
	json_t *heard;	 /* the utterance under way, with --json */
	json_t *written; /* what was written of it */
	bool in_utterance;
	int64_t decided_us; /* on CLOCK_MONOTONIC; 0: not live */
	int answers;
	struct ears_utterance const *utterance;
	int waiting_count;
	struct {
		uint64_t token;
		int64_t at_ms;
		enum source source;
		char text[WRITE_TEXT_MAX];
	} waiting[WAITING_MAX];
};

struct transcript *
transcript_open(bool json, const char *file)
{
	struct transcript *transcript = calloc(1, sizeof *transcript);
	if (transcript == NULL)
		return NULL;
	transcript->json = json;
	transcript->file = file;
	return transcript;
}

void
transcript_close(struct transcript *transcript)
{
	if (transcript == NULL)
		return;
	json_decref(transcript->heard);
	json_decref(transcript->written);
	free(transcript);
}

static void
print_time(int64_t at_ms)
{
	int64_t tenths = (at_ms + 50) / 100;
	printf("%3lld:%02lld.%lld  ", (long long)(tenths / 600), (long long)(tenths / 10 % 60),
	       (long long)(tenths % 10));
}

void
transcript_begin_heard(struct transcript *transcript, const struct ears_utterance *utterance)
{
	transcript->in_utterance = true;
	transcript->utterance = utterance;
	transcript->answers = 0;
	if (!transcript->json)
		return;
	transcript->heard = heard_json(transcript->file, utterance, false);
	transcript->written = json_array();
}

void
transcript_stored(struct transcript *transcript, const struct write *write)
{
	if (transcript->waiting_count == WAITING_MAX) {
		memmove(transcript->waiting, transcript->waiting + 1,
			sizeof *transcript->waiting * (WAITING_MAX - 1));
		transcript->waiting_count--;
	}
	int last = transcript->waiting_count++;
	transcript->waiting[last].token = write->token;
	transcript->waiting[last].at_ms = write->at_ms;
	transcript->waiting[last].source = write->source;
	snprintf(transcript->waiting[last].text, sizeof transcript->waiting[last].text, "%s",
		 write->text);
}

static void
print_answer(struct transcript *transcript, const struct effect *answer, int64_t at_ms,
	     enum source source, const char *text)
{
	if (!transcript->json) {
		print_time(at_ms);
		printf("%-9s%-44s%s%s\n", verdict_name(answer->verdict), text,
		       answer->text[0] != '\0' ? "  " : "", answer->text);
	} else if (transcript->written != NULL) {
		json_object_set_new(transcript->heard, "item",
				    answer->item != 0 ? json_integer(answer->item) : json_null());
		json_array_append_new(transcript->written, json_string(answer->text));
	} else {
		json_t *line = json_pack("{s:s, s:I, s:s, s:s, s:s}", "source", source_name(source),
					 "at_ms", (json_int_t)at_ms, "text", text, "verdict",
					 verdict_name(answer->verdict), "written", answer->text);
		json_object_set_new(line, "item",
				    answer->item != 0 ? json_integer(answer->item) : json_null());
		json_dumpf(line, stdout, JSON_COMPACT);
		putchar('\n');
		json_decref(line);
	}
}

void
transcript_answer(struct transcript *transcript, const struct effect *answer)
{
	transcript->answers++;
	for (int i = 0; i < transcript->waiting_count; i++) {
		if (transcript->waiting[i].token != answer->token)
			continue;
		print_answer(transcript, answer, transcript->waiting[i].at_ms,
			     transcript->waiting[i].source, transcript->waiting[i].text);
		transcript->waiting_count--;
		memmove(transcript->waiting + i, transcript->waiting + i + 1,
			sizeof *transcript->waiting * (size_t)(transcript->waiting_count - i));
		return;
	}
}

void
transcript_decided_at(struct transcript *transcript, int64_t clock_us)
{
	transcript->decided_us = clock_us;
}

/* By now the answer was handed to the ear-piece. */
static void
add_clock(const struct transcript *transcript)
{
	struct timespec now;
	clock_gettime(CLOCK_MONOTONIC, &now);
	int64_t now_us = (int64_t)now.tv_sec * 1000000 + now.tv_nsec / 1000;
	json_object_set_new(transcript->heard, "answered_clock_us", json_integer(now_us));
	json_object_set_new(transcript->heard, "answered_after_us",
			    json_integer(now_us - transcript->decided_us));
}

void
transcript_end_heard(struct transcript *transcript)
{
	transcript->in_utterance = false;
	if (transcript->json) {
		json_object_set(transcript->heard, "written", transcript->written);
		if (transcript->decided_us > 0)
			add_clock(transcript);
		json_dumpf(transcript->heard, stdout, JSON_COMPACT | JSON_REAL_PRECISION(6));
		putchar('\n');
		json_decref(transcript->heard);
		json_decref(transcript->written);
		transcript->heard = transcript->written = NULL;
	} else if (transcript->answers == 0) {
		print_time(transcript->utterance->start_ms);
		printf("%-9s%lld ms of speech that was not for lapel\n", "-",
		       (long long)(transcript->utterance->end_ms -
				   transcript->utterance->start_ms));
	}
	fflush(stdout);
}

void
transcript_said(struct transcript *transcript, int64_t at_ms, const char *text)
{
	if (transcript->json || text[0] == '\0')
		return;
	print_time(at_ms);
	printf("%-9s%s\n", "says", text);
}

void
transcript_summary(struct transcript *transcript, const struct store_tally *tally,
		   int64_t length_ms, double took_s)
{
	if (transcript->json)
		return;
	printf("\n%lld items; calls: %lld taken, %lld doubted, %lld refused, %lld passed over; "
	       "%lld readings, %lld flaws written\n",
	       (long long)tally->items, (long long)tally->taken, (long long)tally->doubted,
	       (long long)tally->refused, (long long)tally->passed_over, (long long)tally->readings,
	       (long long)tally->flaws);
	printf("%.1f s of sound in %.1f s\n", (double)length_ms / 1000, took_s);
}
