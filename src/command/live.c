#include "live.h"

#include "command.h"
#include "live_part.h"
#include "wearer.h"

#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum {
	LOOK_MS = 200,	/* how often the devices are looked after when nothing happens */
	RETRY_MS = 2500 /* how often a headset that is gone is looked for */
};

static volatile sig_atomic_t signalled;

static void
on_signal(int number)
{
	signalled = number;
}

/* ---------- time ---------- */

static int64_t
clock_ms(void)
{
	struct timespec now;
	clock_gettime(CLOCK_MONOTONIC, &now);
	return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

/* A time of the session that does not go back, whatever came late. */
int64_t
live_told_ms(struct live *live, int64_t at_ms)
{
	live->told_ms = at_ms > live->told_ms ? at_ms : live->told_ms;
	return live->told_ms;
}

int64_t
live_now_ms(struct live *live)
{
	return live_told_ms(live, clock_ms() - live->start_ms);
}

/* ---------- the ears ---------- */

/* The ears count the samples that they were given; the session counts the time of the world, in
 * which there are gaps. */
static void
to_session_time(struct ears_event *event, int64_t at_ms)
{
	int64_t later_ms = at_ms - event->at_ms;
	event->at_ms = at_ms;
	if (!event->decided)
		return;
	event->utterance->start_ms += later_ms;
	event->utterance->end_ms += later_ms;
	event->utterance->decided_ms += later_ms;
}

/* Nothing is said or asked of a loss: it is held against the utterance that has the hole. */
static void
tell_lost(struct live *live, int64_t lost)
{
	live->lost += lost;
	struct effect effect;
	struct event event = {.type = EVENT_SOUND_LOST, .at_ms = live_now_ms(live)};
	session_feed(live->work.session, &event);
	while (session_next_effect(live->work.session, &effect))
		continue;
	fprintf(stderr,
		"lapel: %lld ms of sound were lost (%lld ms in all): this machine is too busy\n",
		(long long)(lost * 1000 / EARS_SAMPLE_RATE_HZ),
		(long long)(live->lost * 1000 / EARS_SAMPLE_RATE_HZ));
}

/* It is heard worse all day, so it is said aloud as well. */
static void
tell_narrow(struct live *live)
{
	fprintf(stderr,
		"lapel: the headset's link carries nothing above 4 kHz, as a telephone: use "
		"its cable or its own dongle, or another Bluetooth profile\n");
	voice_say(live->voice, live_now_ms(live), NULL,
		  "the headset's link is narrow, as a telephone's", NULL);
}

/* By voice where the ear-piece is still there; that one is let go when both are looked for anew. */
static void
headset_lost(struct live *live)
{
	sound_source_close(listening_take_back(live->listening));
	if (voice_gone(live->voice))
		voice_let_go(live->voice);
	else
		voice_say(live->voice, live_now_ms(live), "trouble", "the microphone is gone",
			  NULL);
	live->headset_there = false;
	live->retry_ms = clock_ms() + RETRY_MS;
	fprintf(stderr, "lapel: the headset is gone; plug it in again, nothing was lost that was "
			"written\n");
}

static void
hear_news(struct live *live)
{
	struct listening_news news;
	bool gone = false;
	listening_hold(live->listening);
	if (listening_next(live->listening, &news)) {
		gone = news.gone;
		if (news.lost > 0)
			tell_lost(live, news.lost);
		if (news.narrow)
			tell_narrow(live);
		if (news.heard) {
			to_session_time(&news.event, live_now_ms(live));
			transcript_decided_at(live->transcript, news.told_us);
			working_session_ears(&live->work, &news.event);
		}
	}
	listening_release(live->listening);
	if (gone && live->headset_there)
		headset_lost(live);
}

/* While a headset is out, PulseAudio's usual device is some other: the microphone of a camera, or
 * what another output plays. That is not the headset. */
static bool
is_usual_again(const struct live *live)
{
	for (int end = AUDIO_MICROPHONE; end <= AUDIO_EAR_PIECE; end++) {
		char name[PULSE_NAME_MAX];
		if (live->usual[end][0] == '\0')
			continue;
		if (!pulse_usual_device((enum audio_end)end, name) ||
		    strcmp(name, live->usual[end]) != 0)
			return false;
	}
	return true;
}

static void
look_after_headset(struct live *live)
{
	if (voice_gone(live->voice)) {
		if (live->headset_there)
			headset_lost(live);
		else
			voice_let_go(live->voice);
	}
	if (live->headset_there || clock_ms() < live->retry_ms)
		return;
	live->retry_ms = clock_ms() + RETRY_MS;
	if (!is_usual_again(live) || !live_take_headset(live, NULL))
		return;
	fprintf(stderr, "lapel: the headset is back\n");
	voice_say(live->voice, live_now_ms(live), NULL, "the headset is back", NULL);
}

/* ---------- the loop ---------- */

static int64_t
least(int64_t a, int64_t b)
{
	return a < b ? a : b;
}

/* How long the loop may sleep. */
static int64_t
patience_ms(struct live *live, bool to_render)
{
	int64_t now = clock_ms(), wait_ms = to_render ? 0 : LOOK_MS;
	int64_t work_ms = working_session_deadline_ms(&live->work);
	if (work_ms < INT64_MAX)
		wait_ms = least(wait_ms, work_ms + live->start_ms - now);
	for (int i = 0; i < PEDALS; i++) {
		int64_t due_ms = switches_deadline_ms(&live->feet[i].switches);
		if (due_ms < INT64_MAX)
			wait_ms = least(wait_ms, due_ms - now);
	}
	return wait_ms < 0 ? 0 : wait_ms;
}

/* Sleeps until something happens. Signals come through here alone, so that none is slept over. */
static void
sleep_until_something(struct live *live, int64_t wait_ms, const sigset_t *open)
{
	enum { DESCRIPTORS = 2 + PEDALS };
	struct pollfd descriptors[DESCRIPTORS] = {
		{.fd = listening_fd(live->listening), .events = POLLIN},
		{.fd = live->reader.device == NULL ? -1 : pedal_fd(live->reader.device),
		 .events = POLLIN}};
	for (int i = 0; i < PEDALS; i++)
		descriptors[2 + i] = (struct pollfd){
			.fd = live->feet[i].pedal == NULL ? -1 : pedal_fd(live->feet[i].pedal),
			.events = POLLIN};
	struct timespec wait = {wait_ms / 1000, wait_ms % 1000 * 1000000};
	ppoll(descriptors, DESCRIPTORS, &wait, open);
}

static void
run_session(struct live *live, const sigset_t *open)
{
	bool to_render = false;
	listening_hold(live->listening);
	working_session_start(&live->work, live_now_ms(live));
	listening_release(live->listening);
	while (signalled == 0 && !live->work.ended) {
		sleep_until_something(live, patience_ms(live, to_render), open);
		for (int i = 0; i < PEDALS; i++) {
			if (live->feet[i].pedal != NULL)
				live_take_presses(live, &live->feet[i]);
			live_let_switches_wait(live, &live->feet[i].switches, clock_ms());
		}
		live_take_scans(live);
		hear_news(live);
		to_render = voice_work(live->voice, live_now_ms(live), NULL);
		if (working_session_deadline_ms(&live->work) <= live_now_ms(live)) {
			listening_hold(live->listening);
			working_session_time(&live->work, live_now_ms(live));
			listening_release(live->listening);
		}
		look_after_headset(live);
		fflush(stdout);
	}
	struct problem problem = {""};
	listening_hold(live->listening);
	working_session_stop(&live->work, live_now_ms(live));
	if (!wearer_keep(live->ears, live->who, live_microphone(live), &problem))
		fprintf(stderr, "lapel: how you sound is not remembered: %s\n", problem.text);
	listening_release(live->listening);
}

/* SIGTERM and SIGINT are heard only while the loop sleeps. */
static void
hear_signals(sigset_t *open)
{
	sigset_t both;
	struct sigaction action = {.sa_handler = on_signal};
	sigemptyset(&both);
	sigaddset(&both, SIGTERM);
	sigaddset(&both, SIGINT);
	sigprocmask(SIG_BLOCK, &both, open);
	sigdelset(open, SIGTERM);
	sigdelset(open, SIGINT);
	sigaction(SIGTERM, &action, NULL);
	sigaction(SIGINT, &action, NULL);
}

int
live_listen(const struct live_options *options)
{
	struct problem problem = {""};
	struct store_tally tally = {0};
	sigset_t open;
	struct live *live = calloc(1, sizeof *live);
	hear_signals(&open);
	bool done = live != NULL;
	if (done) {
		live->options = options;
		done = live_open(live, &problem);
	}
	if (done) {
		live->start_ms = clock_ms();
		fprintf(stderr, "lapel: listening\n");
		run_session(live, &open);
		store_tally(live->store, &tally);
		transcript_summary(live->transcript, &tally, live->told_ms,
				   (double)live->told_ms / 1000);
		fprintf(stderr, "lapel: %lld ms of sound were lost in all\n",
			(long long)(live->lost * 1000 / EARS_SAMPLE_RATE_HZ));
	}
	if (live != NULL)
		live_close(live);
	free(live);
	return done ? DONE : command_failed(&problem);
}
