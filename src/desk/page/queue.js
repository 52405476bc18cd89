/* The queue: what needs a look, one item after the other. Its order stays as it was read, so that
 * nothing moves under the hands; what is dealt with keeps its place, ticked off. */
import { announce } from "./announce.js";
import { make, replace, said } from "./element.js";
import { itemHeading, makeItemView, sameItem, valuesTable } from "./item_view.js";
import { addKeys } from "./keys.js";
import { makeReview } from "./review.js";
import { read } from "./server.js";
import { count, itemName, reasonMark, reasonRank } from "./wording.js";

const PAGE = 50;
const KEPT_AS = "queue at";

/* What is most urgent in an item. */
function reasonOf(row) {
	const matters = row.matters ?? [];
	if (matters.length > 0)
		return matters.map((matter) => matter.reason)
			.reduce((one, other) => reasonRank(one) <= reasonRank(other) ? one : other);
	return row.looked ? "looked" : "rest";
}

/* The call that matters of no item are shown as: an item that is none. */
function looseRow(matters) {
	return { item: null, number: null, title: "Said when no item was open", matters, looked: false };
}

function keptPlace() {
	try {
		return JSON.parse(sessionStorage.getItem(KEPT_AS));
	} catch {
		return null;
	}
}

function keepPlace(item) {
	try {
		sessionStorage.setItem(KEPT_AS, JSON.stringify(item));
	} catch {
		/* Then it begins at the top the next time. */
	}
}

export async function showQueue(main, first) {
	let answer = first ?? await read(`/api/queue?limit=${PAGE}`);
	let rows = [];		     /* in the order of the list */
	let more = null;	     /* the cursor of what comes after them */
	let at = 0;		     /* the current one's index */
	let started = 0;	     /* how many moves there were: an answer that comes late is told by it */
	const whole = new Map();     /* by item: all of it, as last read */
	const drawn = new Map();     /* by item: its line in the list, and what it was drawn from */

	const heading = make("h1", { class: "item-heading", tabindex: "-1" });
	const open = make("a", { class: "button small" }, "Open the item",
		make("kbd", { "aria-hidden": "true", class: "key" }, "O"));
	open.setAttribute("aria-keyshortcuts", "o");
	const view = makeItemView();
	const values = make("div", { class: "values-place" });
	const side = make("div", { class: "queue-side sheet" }, view.element);
	const list = make("ol", { class: "entries" });
	const tally = make("p", { class: "soft tally" });
	const moreButton = make("button", { type: "button", onclick: () => readMore() }, "Show more");

	function take(newRows) {
		const known = new Set(rows.map((row) => row.item));
		rows.push(...newRows.filter((row) => !known.has(row.item)));
	}

	const review = makeReview({
		load: wholeOf,
		leave: (direction) => move(direction),
		changed(result, subject, about) {
			if (result.item)
				tookIn(result.item);
			if (subject.item === null) {
				const row = rows.find((one) => one.item === null);
				row.matters = row.matters.filter((matter) => matter !== about);
				if (rows[at] === row)
					review.show({ ...row }, "same");
				drawList();
			}
		},
		undone(result) {
			const item = result.item?.item ?? result.number;
			const before = rows.find((row) => row.item === item)?.matters ?? [];
			if (result.item)
				tookIn(result.item);
			if (rows.some((row) => row.item === null) || item === null)
				reload();
			const index = rows.findIndex((row) => row.item === item);
			if (index < 0 || item === null)
				return;
			if (index !== at)
				goTo(index);
			review.show(whole.get(item) ?? rows[index], "same", before);
		},
	});

	async function wholeOf(subject) {
		const kept = whole.get(subject.item);
		if (kept)
			return kept;
		const item = await read(`/api/item/${subject.item}`);
		whole.set(subject.item, item);
		return item;
	}

	/* An item as it now is: into its row, and onto the page if it is the one shown. */
	function tookIn(item) {
		whole.set(item.item, item);
		const row = rows.find((one) => one.item === item.item);
		if (row === undefined) {
			insert({ ...item });
		} else {
			Object.assign(row, { number: item.number, title: item.title, matters: item.matters,
				looked: item.looked, state: item.state });
			if (rows[at] === row)
				showCurrent("same");
		}
		drawList();
	}

	/* Something new goes where it belongs, but never before what is being looked at. */
	function insert(row) {
		const rank = reasonRank(reasonOf(row));
		let index = at + 1;
		while (index < rows.length && reasonRank(reasonOf(rows[index])) <= rank)
			index++;
		rows.splice(Math.min(index, rows.length), 0, row);
		if (rows.length === 1)
			goTo(0);
	}

	function showCurrent(where) {
		const row = rows[at];
		if (row === undefined)
			return;
		const item = row.item === null ? null : whole.get(row.item);
		replace(heading, row.item === null ? make("span", { class: "title" }, row.title) : itemHeading(item ?? row));
		open.hidden = row.item === null;
		side.hidden = row.item === null;
		if (row.item !== null)
			open.href = `/item/${row.item}`;
		review.show(item ?? row, where);
		if (item) {
			view.show(item);
			replace(values, valuesTable(item));
		} else if (row.item === null) {
			replace(values);
		}
	}

	async function fill(row, turn) {
		if (row === undefined || row.item === null)
			return;
		try {
			await wholeOf(row);
		} catch (error) {
			announce(error.message, { wrong: true });
			return;
		}
		if (turn === started && rows[at] === row)
			showCurrent("same");
	}

	function goTo(index, where = "first") {
		if (index < 0 || index >= rows.length)
			return;
		at = index;
		const turn = ++started;
		keepPlace(rows[at].item);
		showCurrent(where);
		drawList();
		review.playIfWished();
		fill(rows[at], turn).then(() => {
			/* The next one is read ahead, so that it stands there at once. */
			const next = rows[at + 1];
			if (turn === started && next && next.item !== null && !whole.has(next.item))
				wholeOf(next).catch(() => {});
		});
		if (rows.length - at < 10 && more !== null)
			readMore();
	}

	function move(direction) {
		const index = at + direction;
		if (index >= rows.length && more !== null) {
			readMore().then(() => {
				if (index < rows.length)
					move(direction);
			});
			return;
		}
		if (index < 0) {
			announce("This is the first one.");
			return;
		}
		if (index >= rows.length) {
			announce("That was the last one. The queue is through.");
			drawList();
			return;
		}
		goTo(index, direction < 0 ? "last" : "first");
		const row = rows[at];
		const matter = review.matter();
		announce(`${row.item === null ? row.title : itemName(row)}. ${matter === null ? row.title : matter.question}`);
	}

	let reading = null;

	function readMore() {
		reading ??= read(`/api/queue?limit=${PAGE}&after=${encodeURIComponent(more)}`).then((next) => {
			take(next.rows);
			more = next.next;
			drawList();
		}).catch((error) => announce(error.message, { wrong: true })).finally(() => {
			reading = null;
		});
		return reading;
	}

	function line(row, index) {
		const reason = reasonOf(row);
		const matters = (row.matters ?? []).length;
		const button = make("button", {
			type: "button", class: "entry", "data-item": row.item, onclick: () => goTo(rows.indexOf(row)),
		},
			make("span", { class: "entry-name" }, row.item === null ? "No item" : said(itemName(row))),
			make("span", { class: "entry-title" }, said(row.title || "nothing said of it yet")),
			make("span", { class: "entry-why" }, reasonMark(reason),
				matters > 1 ? make("span", { class: "soft" }, `and ${matters - 1} more`) : null));
		return make("li", { class: `line ${reason === "looked" ? "is-done" : ""}` }, button);
	}

	function drawList() {
		let place = list.firstElementChild;
		rows.forEach((row, index) => {
			const from = JSON.stringify([row.number, row.title, row.matters, row.looked]);
			let kept = drawn.get(row.item);
			if (kept === undefined || kept.from !== from) {
				const element = line(row, index);
				if (kept !== undefined) {
					const had = kept.element.contains(document.activeElement);
					if (place === kept.element)
						place = element;
					kept.element.replaceWith(element);
					if (had)
						element.querySelector("button").focus();
				}
				kept = { element, from };
				drawn.set(row.item, kept);
			}
			const button = kept.element.querySelector("button");
			if (index === at)
				button.setAttribute("aria-current", "true");
			else
				button.removeAttribute("aria-current");
			if (kept.element === place)
				place = place.nextElementSibling;
			else
				list.insertBefore(kept.element, place);
		});
		while (place !== null) {
			const after = place.nextElementSibling;
			place.remove();
			place = after;
		}
		const open = rows.filter((row) => reasonOf(row) !== "looked").length;
		tally.textContent = rows.length === 0 ? "" :
			`${open}${more === null ? "" : " and more"} to look over, ${rows.length - open} looked over just now` +
			(answer.looked ? `, ${answer.looked} before` : "") +
			(answer.behind ? `; ${count(answer.behind, "item is", "items are")} still being worked out` : "");
		moreButton.hidden = more === null;
		showLine();
	}

	/* The line of what is looked at, where the list moves by itself. */
	function showLine() {
		const place = list.parentElement, line = drawn.get(rows[at]?.item)?.element;
		if (!place || !line || place.scrollHeight <= place.clientHeight)
			return;
		const room = place.getBoundingClientRect(), box = line.getBoundingClientRect();
		if (box.top < room.top + 60 || box.bottom > room.bottom - 60)
			place.scrollTop += box.top - room.top - room.height / 3;
	}

	/* What came in while something else was looked at. */
	async function reload() {
		const now = await read(`/api/queue?limit=${PAGE}`);
		answer = now;
		for (const row of now.rows) {
			const known = rows.find((one) => one.item === row.item);
			whole.delete(row.item);
			if (known)
				Object.assign(known, row);
			else
				insert(row);
		}
		takeLoose(now.loose ?? []);
		drawList();
		if (rows[at] !== undefined)
			fill(rows[at], started);
	}

	function takeLoose(matters) {
		const known = rows.find((row) => row.item === null);
		if (known) {
			known.matters = matters;
			if (rows[at] === known)
				review.show({ ...known }, "same");
		} else if (matters.length > 0) {
			insert(looseRow(matters));
		}
	}

	if ((answer.loose ?? []).length > 0)
		rows.push(looseRow(answer.loose));
	take(answer.rows);
	more = answer.next;

	if (rows.length === 0) {
		replace(main, make("div", { class: "sheet nothing" },
			make("h1", {}, "Nothing needs a look"),
			make("p", {}, "What is dictated appears here by itself.")));
	} else {
		build();
	}

	function build() {
		replace(main, make("div", { class: "queue-page" },
			make("div", { class: "queue-work" },
				make("section", { class: "sheet current", "aria-label": "Looked at now" },
					make("div", { class: "current-top" }, heading, open), review.element),
				make("section", { class: "sheet values-sheet", "aria-label": "What is written" }, values)),
			side,
			make("section", { class: "queue-list", "aria-label": "The queue" },
				make("h2", {}, "Queue"), tally, list, moreButton)));
		const kept = keptPlace();
		const index = rows.findIndex((row) => row.item === kept);
		goTo(index < 0 ? 0 : index);
	}

	addKeys("The queue", [
		{ key: "o", words: "open the item", run: () => {
			if (!open.hidden)
				location.href = open.href;
		} },
	]);

	return {
		async changed(change) {
			if (change.more || rows.length === 0) {
				const was = rows.length;
				await reload();
				if (was === 0 && rows.length > 0)
					build();
				return;
			}
			for (const number of change.items) {
				const kept = whole.get(number);
				const item = await read(`/api/item/${number}`);
				if (kept === undefined || !sameItem(kept, item))
					tookIn(item);
			}
		},
	};
}
