/* Both ends of a headset, worked by lines on standard input, for the tests that play the room:
 *   listen            opens the microphone and tells what is heard
 *   say TEXT | hush   on the ear-piece
 *   again             lets both ends go and takes them up, until that succeeds
 *   quit
 * Told on standard output: "listening", "level N" (root mean square of each tenth of a second),
 * "lost N", "narrow", "microphone gone", "ear-piece gone", "said", "again". */
#include "sound_source.h"
#include "voice.h"

#include <math.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum { LEVEL_SAMPLES = 1600 };

struct probe {
	struct speech *speech;
	struct cues *cues;
	struct voice *voice;
	struct sound_source *source;
	bool saying, narrow, ear_gone;
	double sum;
	int64_t count;
	int64_t retry_ms; /* when the ends are tried again; 0: not wanted */
};

static int64_t
now_ms(void)
{
	struct timespec now;
	clock_gettime(CLOCK_MONOTONIC, &now);
	return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static void
hear(struct probe *probe)
{
	int16_t samples[160];
	struct sound_piece piece;
	enum sound_news news;
	while ((news = sound_source_next(probe->source, samples, 160, &piece)) == SOUND_SOME) {
		if (piece.lost > 0)
			printf("lost %lld\n", (long long)piece.lost);
		if (piece.narrow && !probe->narrow)
			puts("narrow");
		probe->narrow = piece.narrow;
		for (int64_t i = 0; i < piece.count; i++) {
			probe->sum += (double)samples[i] * samples[i];
			if (++probe->count < LEVEL_SAMPLES)
				continue;
			printf("level %d\n", (int)sqrt(probe->sum / LEVEL_SAMPLES));
			probe->sum = 0;
			probe->count = 0;
		}
	}
	if (news != SOUND_GONE)
		return;
	puts("microphone gone");
	sound_source_close(probe->source);
	probe->source = NULL;
}

static bool
listen_now(struct probe *probe)
{
	struct problem problem = {""};
	sound_source_close(probe->source);
	probe->source = sound_source_headset_open(getenv("PROBE_DEVICE"), 0, &problem);
	puts(probe->source != NULL ? "listening" : problem.text);
	return probe->source != NULL;
}

static void
try_again(struct probe *probe)
{
	sound_source_close(probe->source);
	probe->source = NULL;
	voice_let_go(probe->voice);
	bool both = voice_take_up(probe->voice, NULL) && listen_now(probe);
	probe->retry_ms = both ? 0 : now_ms() + 200;
	probe->ear_gone = !both;
	if (both)
		puts("again");
}

static bool
obey(struct probe *probe, const char *line)
{
	struct problem problem = {""};
	if (strcmp(line, "listen") == 0)
		listen_now(probe);
	else if (strncmp(line, "say ", 4) == 0)
		probe->saying = voice_say(probe->voice, now_ms(), NULL, line + 4, &problem);
	else if (strcmp(line, "hush") == 0)
		voice_hush(probe->voice, now_ms());
	else if (strcmp(line, "again") == 0)
		probe->retry_ms = 1;
	if (problem.text[0] != '\0')
		puts(problem.text);
	return strcmp(line, "quit") != 0;
}

static bool
read_commands(struct probe *probe, int wait_ms)
{
	char line[512];
	struct pollfd input = {.fd = STDIN_FILENO, .events = POLLIN};
	if (poll(&input, 1, wait_ms) <= 0)
		return true;
	if (fgets(line, sizeof line, stdin) == NULL)
		return false;
	line[strcspn(line, "\n")] = '\0';
	return obey(probe, line);
}

static void
work(struct probe *probe)
{
	if (probe->source != NULL)
		hear(probe);
	if (probe->voice != NULL && !probe->ear_gone && voice_gone(probe->voice)) {
		puts("ear-piece gone");
		probe->ear_gone = true;
	}
	if (probe->retry_ms > 0 && now_ms() >= probe->retry_ms)
		try_again(probe);
	if (probe->saying && voice_done_ms(probe->voice) <= now_ms()) {
		puts("said");
		probe->saying = false;
	}
}

int
main(void)
{
	struct problem problem = {""};
	struct probe probe = {.speech = speech_open("slt", 1.0, &problem),
			      .cues = cues_parse("none", "", &problem)};
	int wait_ms = 5;
	setvbuf(stdin, NULL, _IONBF, 0);
	setvbuf(stdout, NULL, _IOLBF, 0);
	if (probe.speech != NULL && probe.cues != NULL)
		probe.voice = voice_open_headset(getenv("PROBE_DEVICE"), 0, probe.speech,
						 probe.cues, NULL, &problem);
	puts(probe.voice != NULL ? "open" : problem.text);
	while (probe.voice != NULL && read_commands(&probe, wait_ms)) {
		work(&probe);
		wait_ms = voice_work(probe.voice, now_ms(), &problem) ? 0 : 5;
	}
	sound_source_close(probe.source);
	voice_close(probe.voice, 0, NULL);
	cues_destroy(probe.cues);
	speech_close(probe.speech);
	return 0;
}
