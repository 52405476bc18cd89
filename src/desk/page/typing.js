/* Boxes to type into: a value, what a note says, an off-list word, the item of a loose call. While
 * one is open nothing else on the page takes it away. */
import { announce } from "./announce.js";
import { perform } from "./doing.js";
import { make } from "./element.js";
import { Refusal, read } from "./server.js";
import { capital } from "./wording.js";

let counter = 0;
let lists = null;

async function suggestions(list) {
	if (!list)
		return [];
	lists ??= read("/api/lists").catch(() => {
		lists = null;
		return {};
	});
	const words = (await lists)[list];
	return Array.isArray(words) ? words : [];
}

/* What a value of this type may look like. */
const HINTS = {
	measure: "As you would say it: 21 1/2, 54.6 cm, or none. Empty strikes it.",
	flaw: "Size, flaw, place: small hole, left cuff. Empty strikes it.",
	cloth: "60 % wool, 40 % silk",
	price: "18.50",
	cost: "9.05",
	pilling: "5 is best: 5, 4-5, 4, down to 1",
	"colour change": "5 is best: 5, 4-5, 4, down to 1",
	weight: "340 g, or 1 lb 2 oz",
	part: "All pieces of the set: jacket, trousers",
	care: "wash thirty, do not bleach",
	mending: "new zip 30 minutes, fix hem, materials 4.50",
};

/* A form in `place` with one box. `send(text)` writes it: it resolves with { done: true }, or with
 * what is wrong ({ wrong: sentence }), or with neither when the box is to stay. `closed(done)` is
 * called as the form goes, and is to put the focus somewhere. Gives { close, tell }: `tell` shows a
 * line beside the box. */
function openBox(place, { label, hint, value, rows, list, most, save, send, closed }) {
	const id = `box-${++counter}`;
	const box = rows
		? make("textarea", { id, rows, maxlength: most })
		: make("input", { type: "text", id, maxlength: most, autocomplete: "off", spellcheck: "false" });
	box.value = value;
	box.dir = "auto";
	const note = make("p", { class: "soft", id: `${id}-hint` }, hint ?? "");
	const wrong = make("p", { class: "wrong", id: `${id}-wrong`, role: "alert" });
	box.setAttribute("aria-describedby", `${id}-hint ${id}-wrong`);
	const saveButton = make("button", { type: "submit", class: "main" }, save ?? "Write it",
		rows ? null : make("kbd", { "aria-hidden": "true" }, "Enter"));
	const form = make("form", { class: "typing", novalidate: true },
		make("label", { for: id }, label), box, hint ? note : null, wrong,
		make("div", { class: "row" }, saveButton,
			make("button", { type: "button", onclick: () => close(false) }, "Leave it",
				make("kbd", { "aria-hidden": "true" }, "Esc"))));

	if (list)
		suggestions(list).then((words) => {
			if (words.length === 0)
				return;
			form.append(make("datalist", { id: `${id}-list` },
				words.map((word) => make("option", { value: word }))));
			box.setAttribute("list", `${id}-list`);
		});

	function close(done) {
		form.remove();
		closed(done);
	}

	function tell(sentence) {
		wrong.textContent = sentence;
		box.toggleAttribute("aria-invalid", sentence !== "");
	}

	let busy = false;
	form.addEventListener("submit", async (event) => {
		event.preventDefault();
		if (busy)
			return;
		busy = true;
		tell("");
		try {
			const result = await send(box.value.trim());
			if (result.done)
				close(true);
			else {
				if (result.wrong)
					tell(result.wrong);
				box.focus();
			}
		} catch (error) {
			if (!(error instanceof Refusal))
				throw error;
			tell(error.message);
			box.focus();
		} finally {
			busy = false;
		}
	});
	form.addEventListener("keydown", (event) => {
		if (event.key === "Escape" && !event.isComposing) {
			event.preventDefault();
			event.stopPropagation();
			close(false);
		}
		if (rows && event.key === "Enter" && (event.ctrlKey || event.metaKey)) {
			event.preventDefault();
			form.requestSubmit();
		}
	});
	place.append(form);
	box.focus();
	if (box.select && !rows)
		box.select();
	return { close, tell, has: () => box.value };
}

export function fieldLabel(field) {
	if (field.field === "flaw:new")
		return "Another flaw";
	return capital(field.name);
}

/* A value of an item. `written(answer)` is given the answer once it is written. `settles` is the
 * call that it answers, or null. */
export function typeValue(place, { item, field, settles, written, closed }) {
	let expect = field.entry ?? 0;
	return openBox(place, {
		label: fieldLabel(field),
		hint: HINTS[field.type] ?? null,
		value: field.value ?? "",
		most: 500,
		list: field.list,
		closed,
		async send(text) {
			const body = { item, field: field.field, value: text, expect };
			if (settles)
				body.settles = settles;
			const answer = await perform("edit", body, { typed: text });
			if (answer === null)
				return {};
			if (answer.unwritten) {
				expect = answer.expect;
				return { wrong: "It was changed meanwhile. Writing yours again replaces what stands now." };
			}
			written(answer);
			return { done: true };
		},
	});
}

/* What is heard in a note. `note` is { call, text, written_call }. */
export function typeNote(place, { item, note, written, closed }) {
	let expect = note.written_call ?? 0;
	const now = (answer) => {
		const found = answer.item?.notes?.find((one) => one.call === note.call);
		return { shown: found?.text || "nothing", expect: found?.written_call ?? 0 };
	};
	return openBox(place, {
		label: "What the note says",
		hint: "Ctrl and Enter write it too.",
		value: note.text ?? "",
		rows: 4,
		most: 4000,
		closed,
		async send(text) {
			const answer = await perform("write-out", { call: note.call, item, text, expect },
				{ typed: text, now });
			if (answer === null)
				return {};
			if (answer.unwritten) {
				expect = answer.expect;
				return { wrong: "It was written out meanwhile. Writing yours again replaces that." };
			}
			written(answer);
			return { done: true };
		},
	});
}

/* A word that is on no list yet. */
export function typeWord(place, { matter, written, closed }) {
	const what = (matter.field ?? "word").split(":")[0];
	return openBox(place, {
		label: `The ${what} that was said`,
		hint: "It joins your list, and can be said from the next start of the station on.",
		value: "",
		most: 60,
		list: ["kind", "maker", "colour", "size", "parcel", "route", "flaw"].includes(what) ? what : null,
		closed,
		async send(text) {
			if (text === "")
				return { wrong: "Type the word, or leave it." };
			const answer = await perform("learn",
				{ call: matter.call, word: text, expect: matter.entry ?? 0 }, { typed: text });
			if (answer === null || answer.unwritten)
				return {};
			written(answer);
			return { done: true };
		},
	});
}

/* Which item a call belongs to that was said when none was open; `chosen(row)` does the rest and
 * gives what `send` gives. */
export function typeItem(place, { suggested, chosen, closed }) {
	return openBox(place, {
		label: "Number of the item that it belongs to",
		value: suggested ?? "",
		most: 40,
		save: "Write it there",
		closed,
		async send(text) {
			if (text === "")
				return { wrong: "Type an item's number." };
			const found = await read(`/api/search?limit=1&number=${encodeURIComponent(text)}`);
			const row = found.exact ?? found.rows[0];
			if (!row)
				return { wrong: `There is no item ${text}.` };
			return chosen(row);
		},
	});
}

export function tellChanged(box, field) {
	box.tell(`Meanwhile it was changed to ${field.written || field.value || "nothing"}.`);
	announce(`${capital(field.name)} was changed meanwhile.`);
}
