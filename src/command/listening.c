#include "listening.h"

#include "leak.h"

#include <pthread.h>
#include <stdlib.h>
#include <string.h>
#include <sys/eventfd.h>
#include <time.h>
#include <unistd.h>

enum { PIECE = LEAK_FRAME, LOOK_AGAIN_NS = 4000000 };

struct listening {
	pthread_t thread;
	pthread_mutex_t lock;	/* guards all that follows, and the ears */
	pthread_cond_t changed; /* a source was given, the news were taken, or it is to stop */
	struct ears *ears;
	struct sound_source *source;
	bool reading; /* the thread is in the source's functions, without the lock */
	bool stopping;
	bool told; /* news are waiting to be taken */
	bool narrow_told;
	struct listening_news news;
	int descriptor;
	struct played *played; /* from here on: the thread's own */
	struct leak *leak;     /* NULL: there is nothing played */
	int16_t piece[PIECE];  /* holds `count`; when it is `whole`, fed up to `at` */
	int64_t at, count;
	bool whole;
};

static void
tell(struct listening *listening)
{
	struct timespec now;
	clock_gettime(CLOCK_MONOTONIC, &now);
	listening->news.told_us = (int64_t)now.tv_sec * 1000000 + now.tv_nsec / 1000;
	listening->told = true;
	eventfd_write(listening->descriptor, 1);
}

static void
wait_a_little(struct listening *listening)
{
	struct timespec until;
	clock_gettime(CLOCK_MONOTONIC, &until);
	until.tv_nsec += LOOK_AGAIN_NS;
	if (until.tv_nsec >= 1000000000) {
		until.tv_nsec -= 1000000000;
		until.tv_sec++;
	}
	pthread_cond_timedwait(&listening->changed, &listening->lock, &until);
}

/* What is left of the piece goes to the ears, up to the first thing that happens. */
static void
feed(struct listening *listening)
{
	struct listening_news *news = &listening->news;
	listening->at += ears_feed(listening->ears, listening->piece + listening->at,
				   listening->count - listening->at, &news->event);
	news->heard = news->event.speech_began || news->event.decided || news->event.fell_silent;
	if (news->heard)
		tell(listening);
}

static void
source_has_gone(struct listening *listening)
{
	listening->at = listening->count = 0;
	listening->whole = false;
	ears_end(listening->ears, &listening->news.event);
	listening->news.heard = listening->news.event.decided;
	listening->news.gone = true;
	tell(listening);
}

/* Without the lock: nobody else touches these. */
static void
take_leak_out(struct listening *listening, bool all_taken)
{
	int16_t played[PIECE];
	if (listening->leak == NULL)
		return;
	if (all_taken && leak_silent(listening->leak) && played_keep_step(listening->played))
		leak_restart(listening->leak);
	if (listening->count < PIECE)
		return;
	if (played_take(listening->played, played, PIECE))
		leak_restart(listening->leak);
	leak_take_out(listening->leak, listening->piece, played);
}

/* The next piece of the source, read without the lock, since it may take its time. */
static void
read_source(struct listening *listening)
{
	struct sound_piece piece;
	struct sound_source *source = listening->source;
	if (listening->whole)
		listening->at = listening->count = 0;
	listening->reading = true;
	pthread_mutex_unlock(&listening->lock);
	enum sound_news read = sound_source_next(source, listening->piece + listening->count,
						 PIECE - listening->count, &piece);
	listening->count += piece.count;
	listening->whole = listening->count == PIECE || (read != SOUND_SOME && read != SOUND_NONE);
	take_leak_out(listening, read == SOUND_NONE);
	pthread_mutex_lock(&listening->lock);
	listening->reading = false;
	pthread_cond_broadcast(&listening->changed);
	listening->news.narrow = piece.narrow && !listening->narrow_told;
	listening->news.lost = piece.lost;
	if (listening->news.narrow || piece.lost > 0)
		tell(listening);
	if (listening->news.narrow)
		listening->narrow_told = true;
	if (read == SOUND_NONE)
		wait_a_little(listening);
	else if (read != SOUND_SOME)
		source_has_gone(listening);
}

static void *
listen(void *user)
{
	struct listening *listening = user;
	pthread_mutex_lock(&listening->lock);
	while (!listening->stopping) {
		if (listening->told || listening->source == NULL || listening->news.gone)
			pthread_cond_wait(&listening->changed, &listening->lock);
		else if (listening->whole && listening->at < listening->count)
			feed(listening);
		else
			read_source(listening);
	}
	pthread_mutex_unlock(&listening->lock);
	return NULL;
}

struct listening *
listening_start(struct ears *ears, struct played *played, struct problem *problem)
{
	pthread_condattr_t monotonic;
	struct listening *listening = calloc(1, sizeof *listening);
	if (listening == NULL) {
		problem_say(problem, "cannot listen: out of memory");
		return NULL;
	}
	listening->ears = ears;
	listening->played = played;
	listening->leak = played == NULL ? NULL : leak_create();
	listening->descriptor = eventfd(0, EFD_NONBLOCK | EFD_CLOEXEC);
	pthread_mutex_init(&listening->lock, NULL);
	pthread_condattr_init(&monotonic);
	pthread_condattr_setclock(&monotonic, CLOCK_MONOTONIC);
	pthread_cond_init(&listening->changed, &monotonic);
	pthread_condattr_destroy(&monotonic);
	if (listening->descriptor >= 0 &&
	    pthread_create(&listening->thread, NULL, listen, listening) == 0)
		return listening;
	problem_say(problem, "cannot listen: there can be no more threads");
	if (listening->descriptor >= 0)
		close(listening->descriptor);
	pthread_cond_destroy(&listening->changed);
	pthread_mutex_destroy(&listening->lock);
	leak_destroy(listening->leak);
	free(listening);
	return NULL;
}

void
listening_stop(struct listening *listening)
{
	if (listening == NULL)
		return;
	pthread_mutex_lock(&listening->lock);
	listening->stopping = true;
	pthread_cond_broadcast(&listening->changed);
	pthread_mutex_unlock(&listening->lock);
	pthread_join(listening->thread, NULL);
	close(listening->descriptor);
	pthread_cond_destroy(&listening->changed);
	pthread_mutex_destroy(&listening->lock);
	leak_destroy(listening->leak);
	free(listening);
}

int
listening_fd(struct listening *listening)
{
	return listening->descriptor;
}

void
listening_give(struct listening *listening, struct sound_source *source)
{
	pthread_mutex_lock(&listening->lock);
	listening->source = source;
	listening->narrow_told = false;
	listening->at = listening->count = 0;
	pthread_cond_broadcast(&listening->changed);
	pthread_mutex_unlock(&listening->lock);
}

struct sound_source *
listening_take_back(struct listening *listening)
{
	pthread_mutex_lock(&listening->lock);
	while (listening->reading)
		pthread_cond_wait(&listening->changed, &listening->lock);
	struct sound_source *source = listening->source;
	listening->source = NULL;
	pthread_mutex_unlock(&listening->lock);
	return source;
}

void
listening_hold(struct listening *listening)
{
	pthread_mutex_lock(&listening->lock);
}

void
listening_release(struct listening *listening)
{
	pthread_cond_broadcast(&listening->changed);
	pthread_mutex_unlock(&listening->lock);
}

bool
listening_next(struct listening *listening, struct listening_news *news)
{
	eventfd_t count;
	eventfd_read(listening->descriptor, &count);
	if (!listening->told)
		return false;
	*news = listening->news;
	memset(&listening->news, 0, sizeof listening->news);
	listening->told = false;
	return true;
}
