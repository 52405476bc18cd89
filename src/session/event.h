/* Everything that can happen to the conversation, and everything that it can ask for.
 * Times are milliseconds on the session's own time line, from its start. */
#ifndef LAPEL_SESSION_EVENT_H
#define LAPEL_SESSION_EVENT_H

#include "meaning.h"
#include "write.h"

enum event_type {
	EVENT_STARTED,	  /* found: the item left open by the last session, or item 0 */
	EVENT_SPEECH,	  /* somebody began to speak: the read-back stops */
	EVENT_HEARD,	  /* heard */
	EVENT_NOTED,	  /* a note or an off-list word has ended: by 60 s, by silence, or because
			     EFFECT_LISTEN said so; written (or NULL): whether its sound is kept */
	EVENT_PEDAL_DOWN, /* pressed: silences */
	EVENT_PEDAL_HELD, /* still down at 0.6 s: the cue that marks it */
	EVENT_GESTURE,	  /* gesture */
	EVENT_STORED,	  /* written: also when storing failed */
	EVENT_FOUND,	  /* found: answers EFFECT_FIND; item 0: there is none */
	EVENT_SPOKEN,	  /* all that was to be said has been said */
	EVENT_TIME,	  /* time has passed: at least to the deadline asked for */
	EVENT_SOUND_LOST, /* samples were lost, the utterance under way has a hole in it */
	EVENT_STOPPING	  /* the session is to end */
};

enum gesture { GESTURE_TAP, GESTURE_DOUBLE_TAP, GESTURE_HOLD, GESTURE_LONG_HOLD };

/* One reading of what was said. */
struct heard_call {
	struct call call;
	enum verdict verdict;
	double confidence;
	bool has_second; /* the runner-up with another meaning, for a question */
	struct call second;
	double second_confidence;
};

struct heard {
	uint64_t utterance; /* the listener's number; what belongs to it is stored under it. 0: not
			       spoken, but scanned by the device beside the pedal */
	int64_t start_ms, end_ms;
	const char *text; /* borrowed for the call */
	enum verdict verdict;
	double confidence;
	bool near; /* refused, but close to a call: answered by the low cue; otherwise by silence */
	int call_count;
	struct heard_call calls[MEANING_CALLS_MAX];
};

struct event {
	enum event_type type;
	int64_t at_ms;
	const struct heard *heard;     /* EVENT_HEARD: borrowed for the call */
	enum gesture gesture;	       /* EVENT_GESTURE */
	const struct written *written; /* EVENT_STORED, EVENT_NOTED: borrowed for the call */
	uint64_t token;		       /* EVENT_NOTED: EFFECT_NOTE's */
	const struct record *found;    /* EVENT_STARTED, EVENT_FOUND: borrowed for the call */
	const char *last_number;       /* EVENT_STARTED: the number given last, or NULL: borrowed */
};

enum cue {
	CUE_NONE,
	CUE_TAKEN,   /* short, rising */
	CUE_REFUSED, /* low */
	CUE_DOUBTED, /* before a question */
	CUE_HELD,    /* the pedal has been down long enough for a strike */
	CUE_PAUSED,
	CUE_RESUMED,
	CUE_STRUCK,
	CUE_TROUBLE
};

/* What the listener should expect next. */
enum place {
	PLACE_ITEM,	/* free order */
	PLACE_ASKED,	/* a measure was just asked for: measure */
	PLACE_QUESTION, /* a doubt stands: "first", "second", the call again, or any call */
	PLACE_PAUSED,	/* only "resume" */
	PLACE_NOTE	/* anything: the sound is kept */
};

enum find {
	FIND_LABEL,  /* the item of that number */
	FIND_BEFORE, /* the item before `item`, the last one for 0 */
	FIND_ITEM    /* `item` itself */
};

/* An effect that asks is the last one of its event. */
enum effect_type {
	EFFECT_SAY,    /* cue, text */
	EFFECT_HUSH,   /* stop speaking at once and forget what was still to be said */
	EFFECT_LISTEN, /* place, name: holds from the next utterance on */
	EFFECT_STORE,  /* write: answered by EVENT_STORED */
	EFFECT_FIND,   /* find, label or item: answered by EVENT_FOUND */
	EFFECT_ANSWER, /* the verdict on one call is final: token, verdict, written. Once a call */
	EFFECT_NOTE,   /* keep recording until EFFECT_LISTEN says otherwise; name is what for */
	EFFECT_ENDED   /* everything is stored and said: the session may end */
};

enum { EFFECT_TEXT_MAX = 1024 };

struct effect {
	enum effect_type type;
	enum cue cue;
	enum place place;
	enum find find;
	enum verdict verdict;
	uint64_t token; /* EFFECT_ANSWER: the write's */
	int64_t item; /* EFFECT_FIND: the item to look from; EFFECT_ANSWER: the call's item or 0 */
	int64_t call; /* EFFECT_NOTE: the stored call that the sound belongs to; EFFECT_ANSWER: the
			 call, 0 when it could not be stored */
	char label[LABEL_MAX];
	char name[CALL_NAME_MAX];
	char text[EFFECT_TEXT_MAX]; /* EFFECT_SAY: words to say; EFFECT_ANSWER: what was written */
	const struct write *write;  /* borrowed until the next session_feed */
};

#endif
