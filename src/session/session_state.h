/* The inside of session.h: what the conversation remembers, and how its files call each other.
 *
 * A call comes in as a task and waits in line. One at a time is worked on: what it means here is
 * settled (an answer becomes the call it chose, a bare value gets its measure), then it is decided,
 * which may need something found first, and what is decided is an outcome. The outcome is stored;
 * only when the store has answered is it answered, said, and what follows from it done.
 *
 *   line -> task -> decide -(find, found)-> outcome -> store -> stored -> answer, say, then
 */
#ifndef LAPEL_SESSION_SESSION_STATE_H
#define LAPEL_SESSION_SESSION_STATE_H

#include "label.h"
#include "number.h"
#include "phrase.h"
#include "session.h"

enum {
	EFFECTS_MAX = 64,    /* of one event; the worst is a dozen */
	LINE_TASKS_MAX = 32, /* calls that wait while the store is at work */
	QUESTIONS_MAX = 8,   /* doubts that wait to be asked about */
	FIND_STEPS_MAX = 40, /* numbers tried for the next free one */
	UNFINISHED_MAX = 16  /* items set aside that are named */
};

/* One call on its way through the conversation. */
struct task {
	enum source source;
	uint64_t utterance;
	int64_t at_ms;
	bool first;	/* of its utterance */
	bool last;	/* of its utterance: what was gathered to be said is said after it */
	bool lost;	/* its utterance has a hole */
	bool ends_note; /* the gesture that ended a note */
	bool is_gesture;
	enum gesture gesture;
	enum verdict heard; /* the listener's verdict */
	bool has_call;
	struct call call; /* from the settling on: what it means here */
	bool has_second;
	struct call second;
	double confidence;
	char text[WRITE_TEXT_MAX];

	bool confirmed; /* doubted, asked about and said to be so */
	bool settles;	/* it answers a question: */
	int question;	/* its index */
	bool drops;	/* the question that stands is dropped */
	bool barred;	/* what was said cannot be, and a "yes" does not make it so */
	bool unclear;	/* a bare value, and nothing says of what */
	bool as_asked;	/* a bare value of the measure that was just asked for */
	bool withdraws; /* opens with "no": the call before it is withdrawn */
	bool is_taken;	/* another item has the number */
	int find_steps;
	char candidate[LABEL_MAX]; /* the number that is being tried for being free */
};

struct session;

/* What a task comes to. */
struct outcome {
	enum verdict verdict;
	enum cue cue;
	char text[EFFECT_TEXT_MAX];
	bool has_deed;
	struct deed deed;
	enum item_change change;
	int64_t settles;
	bool moves; /* from the item in hand into the one found; deed is that one's */
	struct deed from_deed;
	enum item_change from_change;
	/* Done once it is stored; NULL: nothing. */
	void (*then)(struct session *session, const struct written *written);
};

enum question_state {
	QUESTION_WAITS,
	QUESTION_ASKED,
	QUESTION_CUT /* speech stopped it: it is asked again */
};

struct question {
	enum question_state state;
	int64_t call; /* the store's number of the doubted call */
	struct call first, second;
	bool has_second;
	bool barred;	     /* the first cannot be: "yes" is the second, if there is one */
	int64_t deadline_ms; /* from the first asking on */
	char text[DOUBT_REASON_MAX];
};

/* How long an utterance under way holds back what is due: longer than the listener lets one be. */
enum { SPEECH_PATIENCE_MS = 20000 };

struct unfinished {
	int64_t item;
	char text[128];
};

enum waiting { WAITING_NOTHING, WAITING_STORED, WAITING_FOUND };
enum noting { NOTING_NOTHING, NOTING, NOTING_ENDS /* the sound is being kept */ };

struct session {
	const struct vocabulary *vocabulary;
	struct session_setting setting;
	int64_t now_ms;

	struct effect effects[EFFECTS_MAX];
	int effect_count, effect_at;

	struct task line[LINE_TASKS_MAX];
	int line_count, line_start;

	enum waiting waiting;
	uint64_t tokens; /* given so far */
	struct task task;
	struct outcome outcome;
	struct write write;

	/* The item in hand (item 0: nothing of it is stored yet) and what was found. */
	struct record record, found;
	struct record before; /* the item that was closed last, for comparing */
	int since;	      /* the record's deeds when it was taken in hand */
	bool revisited;	      /* an earlier item, taken up again by "previous" or "open item" */
	int64_t return_to; /* the item that was in hand before earlier ones were taken up, or 0 */
	bool last_wrote;   /* the last call wrote something, which a "no" may withdraw */
	bool warned;	   /* "next" was answered by what is missing */
	char last_number[LABEL_MAX];
	char number_before[LABEL_MAX]; /* the last one before that, should it be taken back */

	struct call kept[CALL_TYPES]; /* facts that hold for every item, and who said so */
	int64_t kept_calls[CALL_TYPES];
	int kept_count;

	struct unfinished unfinished[UNFINISHED_MAX]; /* the last one set aside last */
	int unfinished_count;

	struct question questions[QUESTIONS_MAX];
	int question_count;
	char doubt_text[DOUBT_REASON_MAX]; /* of the doubt that is being stored */

	bool paused;
	bool led;
	int asked; /* the measure that was asked for, an index into LIST_MEASURE, or -1 */
	bool ask_due;
	int asked_kind; /* whose measures are asked for, an index into LIST_KIND, or -1 */
	bool skipped[TERM_MEASURES_MAX]; /* by place among that kind's measures */

	enum noting noting;
	bool note_by_limit;
	int64_t note_call, note_deadline_ms;
	uint64_t note_token;
	char note_name[CALL_NAME_MAX];

	int64_t lost_ms;   /* when samples were last lost, -1: never */
	int64_t speech_ms; /* since when somebody speaks, -1: nobody does */

	/* What is being said, as far as it matters when it is cut short. */
	bool speaking;
	char notice[EFFECT_TEXT_MAX]; /* being said, lest it goes unheard */
	char owed[EFFECT_TEXT_MAX];   /* cut short, to be said again */
	enum cue notice_cue, owed_cue;
	enum cue reply_cue;
	char reply[EFFECT_TEXT_MAX]; /* gathered for the end of the utterance */
	bool has_reply;
	char last_said[EFFECT_TEXT_MAX];
	bool said_afresh; /* what is said next replaces last_said */

	enum place place;
	char place_name[CALL_NAME_MAX];
	bool place_told;
	int noise; /* utterances not for us since the last call */
	bool stopping, ended;
	int64_t stop_deadline_ms;
};

/* effects.c: what goes out. */
struct effect *session_effect(struct session *session, enum effect_type type);
void session_say(struct session *session, enum cue cue, const char *text);
/* Something that is asked again by itself as long as it stands, so that "repeat" need not. */
void session_say_question(struct session *session, enum cue cue, const char *text);
/* Something that is said but once, and is said again when it is cut short. */
void session_say_notice(struct session *session, enum cue cue, const char *text);
void session_reply(struct session *session, enum cue cue, const char *text); /* gathers */
void session_reply_end(struct session *session);
void session_hush(struct session *session);
void session_listen(struct session *session); /* tells the place if it has changed */
void session_find(struct session *session, enum find find, int64_t item, const char *label);

/* line.c: what comes in. */
void session_heard(struct session *session, const struct heard *heard);
void session_gesture(struct session *session, enum gesture gesture);
bool session_line_next(struct session *session, struct task *task);

/* work.c: one task after another. */
void session_work(struct session *session);
void session_stored(struct session *session, const struct written *written);
void session_found(struct session *session, const struct record *found);
/* Called when all that was said at once is answered: what is still to be asked is asked. `answered`
 * when there was a call, false after mere noise. */
void session_settle(struct session *session, bool answered);

/* For those who decide: what is said, and how. */
void session_refuse(struct session *session, const char *format, ...)
	__attribute__((format(printf, 2, 3)));
void session_answer(struct session *session, enum cue cue, const char *format, ...)
	__attribute__((format(printf, 3, 4)));

/* settling.c: what a task means here. */
void session_task_settle(struct session *session);

/* question.c */
bool session_question_stands(const struct session *session);
void session_doubt(struct session *session, const char *text); /* the task's; text or NULL */
void session_question_drop(struct session *session);	       /* decides: the first one */
void session_question_remove(struct session *session, int index);
void session_questions_to_desk(struct session *session); /* all of them, and says so */
void session_question_ask(struct session *session);
void session_question_cut(struct session *session);   /* asked again when there is quiet */
void session_question_again(struct session *session); /* and its time begins anew */
bool session_question_due(struct session *session);
/* When the one that stands is given up, unless it is answered; whoever is speaking is heard out. */
int64_t session_question_deadline_ms(const struct session *session);

/* doubt.c */
/* Whether it is doubtful by what it says, though it was heard well; then that is the outcome. */
bool session_doubtful(struct session *session, const struct call *call);

/* piece.c: the pieces of a set. */
const char *session_piece(const struct session *session); /* in hand; "" when none is */
void session_piece_settle(const struct session *session, struct call *call);
/* Whether it cannot be written since it is of no piece, or of no set; then that is the outcome. */
bool session_piece_refused(struct session *session, const struct call *call);

/* remark.c: adds what is said besides, once the call is in the record. */
void session_remark(const struct session *session, const struct call *call, char *text,
		    size_t size);

/* writing.c: calls that write into the item in hand. */
void session_write_call(struct session *session, const struct call *call);
void session_write_down(struct session *session, const struct call *call); /* doubts over */
void session_strike_that(struct session *session);
void session_strike(struct session *session);
void session_restore(struct session *session);

/* item.c: which item is in hand. */
void session_next(struct session *session, const struct record *found);
void session_previous(struct session *session, const struct record *found);
void session_open(struct session *session, const struct record *found);
void session_set_aside(struct session *session, const struct record *found);
void session_belong(struct session *session, const struct record *found);
void session_take_up(struct session *session, const struct record *record);

/* order.c */
void session_order(struct session *session, const struct record *found);

/* keep.c: facts that hold for every item. */
void session_keep(struct session *session);
/* Into an item that the deed opens; adds what that is to `text`. */
void session_keep_into(const struct session *session, struct record *record, struct deed *deed,
		       char *text, size_t size);
void session_kept_text(const struct session *session, char *text, size_t size);

/* unfinished.c: what was set aside. */
void session_unfinished_follows(struct session *session, const struct record *record);
void session_tell_unfinished(const struct session *session, char *text, size_t size);

/* led.c: the station asks. */
void session_ask_me(struct session *session, bool led);
void session_skip(struct session *session);
void session_ask(struct session *session);

/* note.c: sound kept for the desk. */
void session_note(struct session *session, const struct written *written); /* a `then` */
void session_note_end(struct session *session, bool by_limit);
void session_note_due(struct session *session);
void session_noted(struct session *session, uint64_t token, const struct written *written);

/* telling.c: texts. Each adds to `text`, and keeps it whole words when it is full. */
void session_add(char *text, size_t size, const char *gap, const char *more);
void session_tell_call(const struct session *session, const struct call *call, char *text,
		       size_t size);
void session_tell_item(const struct session *session, const struct record *record, char *text,
		       size_t size);
bool session_tell_missing(const struct session *session, const struct record *record, char *text,
			  size_t size);
void session_tell_where(const struct session *session, char *text, size_t size);
void session_tell_all(const struct session *session, char *text, size_t size);
void session_tell_deed(const struct session *session, const struct record *record,
		       const struct deed *deed, char *text, size_t size);

/* help.c */
void session_tell_help(const struct session *session, const char *topic, char *text, size_t size);

/* numbers.c: item numbers. */
bool session_number_expected(const struct session *session, const struct call *call);
void session_number_given(struct session *session, const char *label);
void session_number_taken_back(struct session *session, const char *label);
void session_number(struct session *session, const struct record *found);
bool session_number_after(const char *number, char next[LABEL_MAX]);

#endif
