#include "pulse_watch.h"

#include <stddef.h>
#include <stdint.h>

#ifndef LAPEL_WITH_PULSE

struct pulse_watch *
pulse_watch_open(enum audio_end end)
{
	return NULL;
}

void
pulse_watch_close(struct pulse_watch *watch)
{
}

bool
pulse_watch_moved(struct pulse_watch *watch)
{
	return false;
}

bool
pulse_usual_device(enum audio_end end, char name[PULSE_NAME_MAX])
{
	name[0] = '\0';
	return false;
}

#else

#include <pulse/pulseaudio.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum { PATIENCE_MS = 333 };

/* PulseAudio calls a recording a source output, and what plays a sink input. */
struct pulse_watch {
	enum audio_end end;
	pa_mainloop *loop;
	pa_context *context;
	char process[16]; /* our process id, as the server knows its clients by */
	bool subscribed;  /* the server was asked to tell of changes */
	uint32_t device;  /* that we began with; PA_INVALID_INDEX: not known yet */
	uint32_t stream;  /* ours */
	bool moved;
};

static void
note(struct pulse_watch *watch, pa_proplist *properties, uint32_t stream, uint32_t device)
{
	const char *process = pa_proplist_gets(properties, PA_PROP_APPLICATION_PROCESS_ID);
	if (process == NULL || strcmp(process, watch->process) != 0)
		return;
	if (watch->device == PA_INVALID_INDEX) {
		watch->device = device;
		watch->stream = stream;
	} else if (stream == watch->stream && device != watch->device) {
		watch->moved = true;
	}
}

static void
on_recording(pa_context *context, const pa_source_output_info *info, int end, void *user)
{
	if (end == 0 && info != NULL)
		note(user, info->proplist, info->index, info->source);
}

static void
on_playing(pa_context *context, const pa_sink_input_info *info, int end, void *user)
{
	if (end == 0 && info != NULL)
		note(user, info->proplist, info->index, info->sink);
}

static void
let_go(pa_operation *operation)
{
	if (operation != NULL)
		pa_operation_unref(operation);
}

static void
ask(struct pulse_watch *watch)
{
	if (watch->end == AUDIO_MICROPHONE)
		let_go(pa_context_get_source_output_info_list(watch->context, on_recording, watch));
	else
		let_go(pa_context_get_sink_input_info_list(watch->context, on_playing, watch));
}

/* A stream that ends is no matter: only a device that changes or goes counts. */
static void
on_change(pa_context *context, pa_subscription_event_type_t type, uint32_t index, void *user)
{
	struct pulse_watch *watch = user;
	unsigned devices = watch->end == AUDIO_MICROPHONE ? PA_SUBSCRIPTION_EVENT_SOURCE
							  : PA_SUBSCRIPTION_EVENT_SINK;
	bool device = (type & PA_SUBSCRIPTION_EVENT_FACILITY_MASK) == devices;
	bool gone = (type & PA_SUBSCRIPTION_EVENT_TYPE_MASK) == PA_SUBSCRIPTION_EVENT_REMOVE;
	if (device && gone && index == watch->device)
		watch->moved = true;
	else
		ask(watch);
}

void
pulse_watch_close(struct pulse_watch *watch)
{
	if (watch == NULL)
		return;
	if (watch->context != NULL) {
		pa_context_set_subscribe_callback(watch->context, NULL, NULL);
		pa_context_disconnect(watch->context);
		pa_context_unref(watch->context);
	}
	if (watch->loop != NULL)
		pa_mainloop_free(watch->loop);
	free(watch);
}

static struct pulse_watch *
connect_to_server(enum audio_end end)
{
	struct pulse_watch *watch = calloc(1, sizeof *watch);
	if (watch == NULL)
		return NULL;
	snprintf(watch->process, sizeof watch->process, "%ld", (long)getpid());
	watch->end = end;
	watch->device = watch->stream = PA_INVALID_INDEX;
	watch->loop = pa_mainloop_new();
	if (watch->loop != NULL)
		watch->context = pa_context_new(pa_mainloop_get_api(watch->loop), "lapel");
	if (watch->context != NULL &&
	    pa_context_connect(watch->context, NULL, PA_CONTEXT_NOAUTOSPAWN, NULL) >= 0)
		return watch;
	pulse_watch_close(watch);
	return NULL;
}

static void
subscribe(struct pulse_watch *watch)
{
	pa_subscription_mask_t mask =
		watch->end == AUDIO_MICROPHONE
			? PA_SUBSCRIPTION_MASK_SOURCE | PA_SUBSCRIPTION_MASK_SOURCE_OUTPUT
			: PA_SUBSCRIPTION_MASK_SINK | PA_SUBSCRIPTION_MASK_SINK_INPUT;
	watch->subscribed = true;
	pa_context_set_subscribe_callback(watch->context, on_change, watch);
	let_go(pa_context_subscribe(watch->context, mask, NULL, NULL));
	ask(watch);
}

bool
pulse_watch_moved(struct pulse_watch *watch)
{
	enum { STEPS_MAX = 16 }; /* a talkative server is heard out the next time */
	if (watch == NULL)
		return false;
	for (int i = 0; i < STEPS_MAX && pa_mainloop_iterate(watch->loop, 0, NULL) > 0; i++)
		continue;
	pa_context_state_t state = pa_context_get_state(watch->context);
	if (state == PA_CONTEXT_READY && !watch->subscribed)
		subscribe(watch);
	/* The server itself has gone, and the stream with it. */
	if (watch->device != PA_INVALID_INDEX && !PA_CONTEXT_IS_GOOD(state))
		watch->moved = true;
	return watch->moved;
}

static int64_t
now_ms(void)
{
	struct timespec now;
	clock_gettime(CLOCK_MONOTONIC, &now);
	return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

/* Waits for what the server has to say, for a moment at most; false when it is no use. */
static bool
step(struct pulse_watch *watch)
{
	enum { STEP_US = 20000 };
	return PA_CONTEXT_IS_GOOD(pa_context_get_state(watch->context)) &&
	       pa_mainloop_prepare(watch->loop, STEP_US) >= 0 &&
	       pa_mainloop_poll(watch->loop) >= 0 && pa_mainloop_dispatch(watch->loop) >= 0;
}

struct pulse_watch *
pulse_watch_open(enum audio_end end)
{
	struct pulse_watch *watch = connect_to_server(end);
	int64_t until_ms = now_ms() + PATIENCE_MS;
	while (watch != NULL && watch->device == PA_INVALID_INDEX && now_ms() < until_ms &&
	       step(watch))
		pulse_watch_moved(watch);
	return watch;
}

struct usual {
	enum audio_end end;
	char *name;
	bool known;
};

static void
on_server(pa_context *context, const pa_server_info *info, void *user)
{
	struct usual *usual = user;
	const char *name = NULL;
	if (info != NULL)
		name = usual->end == AUDIO_MICROPHONE ? info->default_source_name
						      : info->default_sink_name;
	usual->known = true;
	snprintf(usual->name, PULSE_NAME_MAX, "%s", name == NULL ? "" : name);
}

bool
pulse_usual_device(enum audio_end end, char name[PULSE_NAME_MAX])
{
	struct usual usual = {end, name, false};
	struct pulse_watch *server = connect_to_server(end);
	int64_t until_ms = now_ms() + PATIENCE_MS;
	bool asked = false;
	name[0] = '\0';
	while (server != NULL && !usual.known && now_ms() < until_ms) {
		pa_context_state_t state = pa_context_get_state(server->context);
		if (state == PA_CONTEXT_READY && !asked) {
			let_go(pa_context_get_server_info(server->context, on_server, &usual));
			asked = true;
		}
		if (!step(server))
			break;
	}
	pulse_watch_close(server);
	return usual.known;
}

#endif
