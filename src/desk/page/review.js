/* Going through what wants a look, one matter of one item after the other: the card of the matter,
 * the buttons and keys, and what they do. The queue and the item's page both have one. */
import { announce } from "./announce.js";
import { perform, tellRefusal, undo, watchUndo } from "./doing.js";
import { button, make, mark, replace, said } from "./element.js";
import { addKeys } from "./keys.js";
import { play, stop, watchPlaying } from "./sound.js";
import { playsByItself } from "./settings.js";
import { typeItem, typeNote, typeValue, typeWord } from "./typing.js";
import { capital, heardLine, otherChoices, reasonMark } from "./wording.js";

export const REVIEW_KEYS = [
	{ key: "p", words: "play what was heard; again: stop" },
	{ key: "c", words: "confirm" },
	{ key: "e", words: "correct, write out, or type the word" },
	{ key: "s", words: "strike, or dismiss" },
	{ key: "n", words: "next; after an item's last matter it counts as looked over" },
	{ key: "b", words: "back" },
	{ key: "u", words: "undo the last change" },
	{ key: "1", words: "the first of the choices; 2 to 5 the others" },
];

/* The same matter, before and after something else of its item changed. */
function sameMatter(one, other) {
	return one.reason === other.reason && one.call === other.call && one.field === other.field &&
		one.question === other.question;
}

export function soundOf(matter) {
	return matter.note ?? matter.sound ?? null;
}

function choicesOf(matter) {
	return otherChoices(matter.choices, null).filter((choice) => choice.choice !== matter.written);
}

/* What is shown of one matter; buttons for its choices, numbered. */
function card(matter, choose) {
	const choices = choicesOf(matter);
	return make("div", { class: "matter", "data-reason": matter.reason },
		make("p", { class: "why" }, reasonMark(matter.reason)),
		make("p", { class: "question" }, said(matter.question)),
		matter.written && matter.written !== matter.question
			? make("p", { class: "written" },
				matter.reason === "doubt" || matter.reason === "refused" ? "Would be written: " : "Written: ",
				make("strong", {}, said(matter.written)))
			: null,
		matter.reason !== "note" && (matter.text !== null || matter.confidence !== null)
			? heardLine(matter.text, matter.confidence, matter.at) : null,
		choices.length === 0 ? null : make("fieldset", { class: "choices" },
			make("legend", {}, "Or was it"),
			choices.map((choice, index) => button(said(choice.choice),
				{ onclick: () => choose(choice), class: "choice" }, String(index + 1)))));
}

/* `subject` is an item, as the server tells it, or { item: null, matters } for what was said when
 * none was open. `host` has:
 *   load(subject)       the whole item of a row that has only its matters; a promise
 *   leave(direction)    past the last matter (1) or before the first (-1)
 *   changed(answer, subject)   something was written: { item } or, of loose ones, { matter }
 *   undone(answer)      { item, number }
 *   field()             what the focus is on instead of the matter, or null */
export function makeReview(host) {
	let subject = null;
	let current = null; /* the matter; null: none is left */
	let box = null;	    /* what is being typed into */
	const busy = new Set();

	const place = make("div", { class: "card" });
	const typing = make("div", { class: "typing-place" });
	const buttons = {
		play: button([mark("play"), make("span", {}, "Play")], { onclick: playIt, class: "play" }, "p"),
		confirm: button("Confirm", { onclick: confirm, class: "main" }, "c"),
		correct: button("Correct", { onclick: correct }, "e"),
		strike: button("Strike", { onclick: strike }, "s"),
		next: button("Next", { onclick: next }, "n"),
		back: button("Back", { onclick: back }, "b"),
		undo: button("Undo", { onclick: takeBack }, "u"),
	};
	const bar = make("div", { class: "bar", role: "group", "aria-label": "What to do with it" },
		Object.values(buttons));
	const element = make("div", { class: "review" }, place, bar, typing);

	/* Not `disabled`: the focus must not be lost as the button under it goes dead. */
	function allow(which, allowed) {
		if (allowed)
			buttons[which].removeAttribute("aria-disabled");
		else
			buttons[which].setAttribute("aria-disabled", "true");
	}

	function can(action) {
		return current !== null && (current.can ?? []).includes(action);
	}

	function typingAction() {
		return ["write-out", "learn", "correct"].find(can) ?? null;
	}

	function draw() {
		if (subject === null)
			return;
		const matters = subject.matters ?? [];
		const index = matters.indexOf(current);
		if (current === null) {
			replace(place, make("div", { class: "matter", "data-reason": subject.looked ? "looked" : "rest" },
				make("p", { class: "why" }, reasonMark(subject.looked ? "looked" : "rest")),
				make("p", { class: "question" }, subject.looked
					? "Looked over; nothing asks for more."
					: "Nothing in it asks for a look.")));
		} else {
			replace(place, card(current, choose), matters.length < 2 ? null :
				make("p", { class: "soft" }, `${index + 1} of ${matters.length} in this item`));
		}
		const words = { "write-out": "Write out", learn: "Type the word" }[typingAction()] ?? "Correct";
		buttons.correct.firstChild.textContent = words;
		buttons.strike.firstChild.textContent =
			current !== null && !["confirmed", "implausible"].includes(current.reason) ? "Dismiss" : "Strike";
		allow("play", current !== null && soundOf(current) !== null);
		allow("confirm", can("confirm"));
		allow("correct", typingAction() !== null);
		allow("strike", can("strike"));
		drawPlay();
	}

	/* Shows `what`: its first matter, its last, or (at "same") the one that was shown if it is still
	 * there and otherwise the one that took its place; given the matters `before` something was taken
	 * back, the one that this brought back. */
	function show(what, at = "first", before = null) {
		const matters = what.matters ?? [];
		const back = before === null ? undefined
			: matters.find((matter) => !before.some((one) => sameMatter(one, matter)));
		if (back !== undefined) {
			current = back;
		} else if (at === "same" && subject !== null && current !== null) {
			const was = subject.matters.indexOf(current);
			current = matters.find((matter) => sameMatter(matter, current)) ??
				matters[Math.min(Math.max(was, 0), matters.length - 1)] ?? null;
		} else {
			current = (at === "last" ? matters.at(-1) : matters[0]) ?? null;
		}
		subject = what;
		draw();
	}

	function isOpen() {
		return box !== null;
	}

	function opened(which) {
		box = which;
		element.dataset.typing = "";
	}

	/* What a box calls as it goes. */
	function boxClosed() {
		box = null;
		delete element.dataset.typing;
		buttons.correct.focus();
	}

	/* What was typed is not thrown away by a key. */
	function stillTyping() {
		if (box !== null)
			announce("Write what you typed first, or leave it.");
		return box !== null;
	}

	function sayNext() {
		if (subject === null)
			return "";
		return current === null ? " Nothing more in this item." : ` Next: ${current.question}`;
	}

	/* After something was written about `about`, a matter of `of`. */
	function after(answer, of, about, what) {
		if (answer === null || answer.unwritten)
			return;
		host.changed(answer, of, about);
		const says = answer.theirs ? "What stood was kept." : `${what}: ${answer.said}.`;
		announce(capital(says) + (subject !== null && subject.item === of.item ? sayNext() : ""));
		if (subject !== null && subject.item === of.item)
			playIfWished();
	}

	function playIfWished() {
		if (playsByItself() && current !== null && soundOf(current) !== null)
			play(soundOf(current));
	}

	async function doIt(what, of, about, work) {
		if (busy.has(about))
			return;
		busy.add(about);
		try {
			after(await work(), of, about, what);
		} catch (error) {
			tellRefusal(error);
		} finally {
			busy.delete(about);
		}
	}

	function playIt() {
		const field = host.field?.() ?? null;
		const sound = field !== null ? field.heard?.sound ?? null : current === null ? null : soundOf(current);
		if (sound === null)
			announce("There is no sound of it.");
		else
			play(sound);
	}

	/* A loose call goes into an item that has to be named first. */
	function intoItem(about, of, action, more) {
		if (stillTyping())
			return;
		const begin = async () => {
			const suggested = about.suggested_item
				? (await host.load({ item: about.suggested_item })).number : null;
			opened(typeItem(typing, {
				suggested,
				closed: boxClosed,
				async chosen(row) {
					const answer = await perform(action, { call: about.call, item: row.item, expect: 0, ...more });
					if (answer === null)
						return {};
					after(answer, of, about, "Written");
					return { done: true };
				},
			}));
		};
		begin().catch(tellRefusal);
	}

	function confirm() {
		if (!can("confirm")) {
			announce("There is nothing to confirm here.");
			return;
		}
		const about = current, of = subject;
		if (of.item === null) {
			intoItem(about, of, "confirm", {});
			return;
		}
		doIt("Confirmed", of, about, () =>
			perform("confirm", { call: about.call, item: of.item, expect: about.entry ?? 0 },
				{ typed: about.written ?? "" }));
	}

	function choose(choice) {
		const about = current, of = subject;
		if (of.item === null) {
			intoItem(about, of, "choose", { choice: choice.choice });
			return;
		}
		doIt("Written", of, about, () =>
			perform("choose", { call: about.call, item: of.item, choice: choice.choice, expect: about.entry ?? 0 },
				{ typed: choice.choice }));
	}

	function strike() {
		if (!can("strike")) {
			announce("There is nothing to strike here.");
			return;
		}
		const about = current, of = subject;
		const stands = ["confirmed", "implausible"].includes(about.reason) && about.field;
		doIt(stands ? "Struck" : "Dismissed", of, about, () => perform("strike", stands
			? { item: of.item, field: about.field, expect: about.entry ?? 0 }
			: { call: about.call }, { typed: "" }));
	}

	async function correct() {
		const field = host.field?.() ?? null;
		if (field !== null) {
			host.correctField(field);
			return;
		}
		const action = typingAction();
		if (action === null) {
			announce("There is nothing to correct here.");
			return;
		}
		if (box !== null)
			return;
		const about = current, of = subject;
		const written = (answer) => after(answer, of, about, "Written");
		if (action === "learn") {
			opened(typeWord(typing, { matter: about, written, closed: boxClosed }));
			return;
		}
		try {
			const item = of.item === null ? null : await host.load(of);
			if (box !== null || current !== about)
				return;
			if (action === "write-out") {
				const note = item?.notes?.find((one) => one.call === about.call) ??
					{ call: about.call, text: "", written_call: 0 };
				opened(typeNote(typing, { item: of.item, note, written, closed: boxClosed }));
				return;
			}
			const field = item?.fields.find((one) => one.field === about.field);
			if (!field) {
				announce("Open the item to correct this.", { wrong: true });
				return;
			}
			const answers = ["doubt", "refused"].includes(about.reason) ? about.call : null;
			opened(typeValue(typing, {
				item: of.item, field, settles: answers, written, closed: boxClosed,
			}));
		} catch (error) {
			tellRefusal(error);
		}
	}

	/* The next matter; after the last one the item counts as looked over. */
	function next() {
		if (subject === null || stillTyping())
			return;
		stop();
		const matters = subject.matters ?? [];
		const index = matters.indexOf(current);
		if (current !== null && index + 1 < matters.length) {
			current = matters[index + 1];
			draw();
			announce(current.question);
			playIfWished();
			return;
		}
		const of = subject;
		if (of.item !== null && !of.looked)
			perform("looked", { item: of.item })
				.then((answer) => host.changed(answer, of, null))
				.catch(tellRefusal);
		host.leave(1);
	}

	function back() {
		if (subject === null || stillTyping())
			return;
		stop();
		const matters = subject.matters ?? [];
		const index = matters.indexOf(current);
		if (current === null && matters.length > 0)
			current = matters.at(-1);
		else if (index > 0)
			current = matters[index - 1];
		else {
			host.leave(-1);
			return;
		}
		draw();
		announce(current.question);
	}

	async function takeBack() {
		try {
			const answer = await undo();
			if (answer === null)
				return;
			host.undone(answer);
			announce(`Undone: ${answer.undone}.`);
		} catch (error) {
			tellRefusal(error);
		}
	}

	function chooseNumber(number) {
		const field = host.field?.() ?? null;
		if (field !== null) {
			host.chooseField(field, number);
			return;
		}
		const choice = current === null ? undefined : choicesOf(current)[number - 1];
		if (choice)
			choose(choice);
		else
			announce(`There is no choice ${number}.`);
	}

	watchUndo((newest) => {
		allow("undo", newest !== null);
		buttons.undo.title = newest === null ? "" : `Takes back: ${newest.said}`;
	});
	let playing = null;

	function drawPlay() {
		const ours = current !== null && playing !== null && playing === soundOf(current);
		buttons.play.replaceChildren(mark(ours ? "stop" : "play"), make("span", {}, ours ? "Stop" : "Play"),
			make("kbd", { "aria-hidden": "true", class: "key" }, "P"));
	}

	watchPlaying((address) => {
		playing = address;
		drawPlay();
	});
	const actions = { p: playIt, c: confirm, e: correct, s: strike, n: next, b: back, u: takeBack };
	addKeys("Going through", [
		...REVIEW_KEYS.map((row) => ({ ...row, run: actions[row.key] ?? (() => chooseNumber(1)) })),
		...[2, 3, 4, 5].map((number) => ({
			key: String(number), words: null, run: () => chooseNumber(number),
		})),
	]);

	return { element, show, isOpen, playIfWished, matter: () => current, subject: () => subject };
}
