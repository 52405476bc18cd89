/* The page of one item. */
import { announce } from "./announce.js";
import { perform, settled, tellRefusal } from "./doing.js";
import { make, mark, replace, said } from "./element.js";
import { makeField } from "./field.js";
import { itemHeading, makeItemView, sameItem } from "./item_view.js";
import { addKeys } from "./keys.js";
import { makeReview } from "./review.js";
import { read } from "./server.js";
import { play } from "./sound.js";
import { fieldLabel, typeNote } from "./typing.js";
import { capital, dayAndMoment, itemName, moment, otherChoices } from "./wording.js";

function callsTable(item) {
	const rows = item.calls ?? [];
	return make("details", { class: "calls sheet" },
		make("summary", {}, `All that was said and done (${rows.length})`),
		make("ol", {}, rows.map((call) => make("li", { class: "call" },
			make("span", { class: "call-when" }, moment(call.at)),
			make("span", { class: "call-words" }, call.text ? said(call.text, { class: "words" }) : "(no words)",
				call.written ? [" → ", said(call.written)] : null),
			make("span", { class: "soft" }, [call.source, call.verdict, call.who].filter(Boolean).join(", ")),
			call.sound === null && call.note === null ? null : make("button", {
				type: "button", class: "small", "aria-label": `Play ${call.text || "the call"}`,
				onclick: () => play(call.note ?? call.sound),
			}, mark("play"), "Play")))));
}

export async function showItem(main, first) {
	const number = Number(location.pathname.split("/")[2]);
	let item = first ?? await read(`/api/item/${number}`);

	const heading = make("h1", { class: "item-heading", tabindex: "-1" });
	const links = make("nav", { class: "row", "aria-label": "Other items" });
	const states = make("div", { class: "row", role: "group", "aria-label": "State" });
	const list = make("ol", { class: "fields" });
	const empty = make("div", { class: "add row", role: "group", "aria-label": "Write what was not said" });
	const emptyTyping = make("ol", { class: "fields adding" });
	const notes = make("section", { class: "notes" });
	const calls = make("div", {});
	const view = makeItemView();
	const rows = new Map(); /* by field: what makeField gave */
	const noteRows = new Map();

	const written = (answer) => {
		if (answer.item)
			update(answer.item);
		if (answer.said)
			announce(answer.theirs ? "What stood was kept." : `${capital(answer.said)}.`);
	};

	async function act(action, body, conflict) {
		try {
			const answer = await perform(action, body, conflict);
			if (answer !== null)
				written(answer);
		} catch (error) {
			tellRefusal(error);
		}
	}

	const fieldHost = {
		written,
		struck: (field) => act("strike", { item: item.item, field: field.field, expect: field.entry },
			{ typed: "" }),
		chose: (field, choice) => act("choose", {
			call: field.call, item: item.item, choice: choice.choice, expect: field.entry,
		}, { typed: choice.choice }),
		closed: () => update(item),
	};

	/* The row that the focus is in; the keys are for it then, and not for the matter. */
	function focused() {
		const row = document.activeElement?.closest?.("[data-field]");
		return row ? rows.get(row.dataset.field) ?? null : null;
	}

	const review = makeReview({
		load: async (subject) => subject.item === item.item ? item : read(`/api/item/${subject.item}`),
		leave(direction) {
			const to = direction > 0 ? item.after : item.before;
			settled().then(() => {
				location.href = to === null ? "/queue" : `/item/${to}`;
			});
		},
		changed: (answer) => {
			if (answer.item)
				update(answer.item);
		},
		undone: (answer) => {
			if (answer.item?.item !== item.item)
				return;
			const before = item.matters;
			update(answer.item);
			review.show(item, "same", before);
		},
		field: () => focused()?.field() ?? null,
		correctField: (field) => rows.get(field.field)?.open(),
		chooseField(field, index) {
			const choice = otherChoices(field.choices, field.value)[index - 1];
			if (choice)
				fieldHost.chose(field, choice);
			else
				announce(`There is no choice ${index}.`);
		},
	});

	function drawFields() {
		const seen = new Set();
		const shown = [];
		const left = [];
		for (const field of item.fields) {
			seen.add(field.field);
			let row = rows.get(field.field);
			const bare = !field.written && !field.missing && !field.doubt && (field.history ?? []).length === 0;
			if (bare && !(row?.isOpen() ?? false)) {
				left.push(field);
				rows.delete(field.field);
				continue;
			}
			if (row === undefined) {
				row = makeField(fieldHost);
				rows.set(field.field, row);
			}
			row.show(item, field);
			shown.push(row);
		}
		for (const [name, row] of rows)
			if (!seen.has(name)) {
				row.element.remove();
				rows.delete(name);
			}
		/* Moved only where the order is another: what holds the focus stays where it is. */
		let at = list.firstElementChild;
		for (const row of shown) {
			if (row.element.parentElement === emptyTyping)
				continue;
			if (row.element === at)
				at = at.nextElementSibling;
			else
				list.insertBefore(row.element, at);
		}
		while (at !== null) {
			const after = at.nextElementSibling;
			at.remove();
			at = after;
		}
		const focus = empty.contains(document.activeElement) ? document.activeElement.dataset.field : null;
		replace(empty, left.length === 0 ? null : make("span", { class: "soft" }, "Not said:"),
			left.map((field) => make("button", {
				type: "button", class: "small", "data-add": field.field, onclick: () => add(field),
			}, fieldLabel(field))));
		if (focus)
			empty.querySelector(`[data-add="${CSS.escape(focus)}"]`)?.focus();
	}

	/* A value of which nothing was said gets a row as it is typed. */
	function add(field) {
		const row = makeField({
			...fieldHost,
			closed() {
				row.element.remove();
				rows.delete(field.field);
				update(item);
				(rows.get(field.field)?.element.querySelector("[data-focus=correct]") ??
					empty.querySelector(`[data-add="${CSS.escape(field.field)}"]`) ??
					empty.querySelector("button") ?? heading).focus();
			},
		});
		rows.set(field.field, row);
		row.show(item, field);
		emptyTyping.append(row.element);
		row.open();
		drawFields();
	}

	function noteRow(note) {
		const text = make("div", {});
		const typing = make("div", { class: "typing-place" });
		const button = make("button", { type: "button", class: "small" }, "Write it out");
		const element = make("li", { class: "note" }, text, typing);
		let box = null, now = note, drawn = "";
		button.addEventListener("click", () => {
			if (box !== null)
				return;
			box = typeNote(typing, {
				item: item.item, note: now, written,
				closed() {
					box = null;
					button.focus();
				},
			});
		});
		function show(newNote) {
			const changed = now.written_call !== newNote.written_call;
			now = newNote;
			if (box !== null && changed)
				box.tell(`Meanwhile it was written out: ${now.text}`);
			if (JSON.stringify(now) === drawn)
				return;
			drawn = JSON.stringify(now);
			const had = element.contains(document.activeElement) && box === null
				? document.activeElement.className : null;
			button.textContent = now.text ? "Correct" : "Write it out";
			replace(text,
				make("p", { class: "soft" }, "Said at ", dayAndMoment(now.at)),
				now.text ? make("p", { class: "note-text" }, said(now.text)) : null,
				now.written_at ? make("p", { class: "soft" }, "Written out ", now.who ? ["by ", said(now.who), " "] : null,
					dayAndMoment(now.written_at)) : null,
				make("div", { class: "row" },
					now.note ? make("button", {
						type: "button", class: "small", onclick: () => play(now.note),
					}, mark("play"), "Play the note") : make("span", { class: "soft" }, "Its sound is no longer kept."),
					button));
			if (had !== null)
				button.focus();
		}
		show(note);
		return { element, show };
	}

	function drawNotes() {
		notes.hidden = item.notes.length === 0;
		const place = notes.querySelector("ol") ?? make("ol", {});
		if (place.parentElement === null)
			notes.append(make("h2", {}, "Notes"), place);
		for (const note of item.notes) {
			const row = noteRows.get(note.call);
			if (row)
				row.show(note);
			else {
				noteRows.set(note.call, noteRow(note));
				place.append(noteRows.get(note.call).element);
			}
		}
	}

	function drawStates() {
		const focus = states.contains(document.activeElement);
		replace(states, ["done", "set aside"].filter((state) => state !== item.state).map((state) => make("button", {
				type: "button", class: "small",
				onclick: () => act("state", { item: item.item, state, expect: item.state }),
			}, state === "done" ? "Close it as done" : "Set it aside")));
		if (focus)
			states.querySelector("button")?.focus();
	}

	function update(newItem, at = "same") {
		const open = calls.querySelector("details")?.open ?? false;
		item = newItem;
		document.title = `${itemName(item)} · lapel`;
		replace(heading, itemHeading(item));
		replace(links,
			item.before === null ? null : make("a", { class: "button", href: `/item/${item.before}` }, "Item before"),
			item.after === null ? null : make("a", { class: "button", href: `/item/${item.after}` }, "Item after"),
			make("a", { class: "button", href: "/queue" }, "Back to the queue"));
		drawStates();
		review.show(item, at);
		drawFields();
		view.show(item);
		drawNotes();
		replace(calls, callsTable(item));
		calls.querySelector("details").open = open;
	}

	replace(main, make("div", { class: "item-page" },
		make("div", { class: "item-top" }, heading, make("div", { class: "row spread" }, states, links)),
		make("div", { class: "item-work" },
			make("section", { class: "sheet", "aria-label": "What wants a look" }, review.element),
			make("section", { class: "sheet" }, make("h2", {}, "What is written"), list, emptyTyping, empty),
			notes, calls),
		make("div", { class: "item-side sheet" }, view.element)));
	notes.classList.add("sheet");
	update(item, "first");
	addKeys("This item", [
		{ key: "q", words: "back to the queue", run: () => { location.href = "/queue"; } },
	]);

	return {
		async changed(change) {
			if (!change.more && !change.items.includes(item.item))
				return;
			const now = await read(`/api/item/${item.item}`);
			if (!sameItem(now, item))
				update(now);
		},
	};
}
