/* Finding items, lists of them, and handing a selection on. */
import { announce } from "./announce.js";
import { make, replace, said } from "./element.js";
import { read } from "./server.js";
import { capital, count, itemName, reasonMark } from "./wording.js";

const FIELDS = ["q", "number", "bin", "kind", "maker", "route", "state", "from", "to"];
const STATES = ["open", "done", "set aside"];
const PAGE = 50;
const MARKED_MOST = 2000;

function asked() {
	const given = new URLSearchParams(location.search);
	const kept = new URLSearchParams();
	for (const name of FIELDS)
		if (given.get(name))
			kept.set(name, given.get(name));
	return kept;
}

function choices(id, words) {
	return make("datalist", { id }, (words ?? []).map((word) => make("option", { value: word })));
}

function box(name, words, properties) {
	const input = make("input", { type: "text", id: `find-${name}`, name, autocomplete: "off", ...properties });
	return make("div", { class: "box" }, make("label", { for: `find-${name}` }, words), input);
}

function select(name, words, values, chosen) {
	const element = make("select", { id: `find-${name}`, name }, make("option", { value: "" }, "any"),
		values.map((value) => make("option", { value }, value)));
	element.value = values.includes(chosen) ? chosen : "";
	return make("div", { class: "box" }, make("label", { for: `find-${name}` }, words), element);
}

/* The lists that there are: a link for each route and state, with how many are in it. */
function listOfLists(facts) {
	const group = (title, name, counts) => {
		const entries = Object.entries(counts ?? {}).filter(([value]) => value !== "");
		if (entries.length === 0)
			return null;
		return make("div", {}, make("h3", {}, title), make("ul", { class: "links" },
			entries.map(([value, number]) => make("li", {},
				make("a", { class: "button", href: `/search?${new URLSearchParams({ [name]: value })}` },
					said(capital(value)), make("span", { class: "count" }, String(number)))))));
	};
	return make("section", { class: "sheet lists" }, make("h2", {}, "Lists"),
		group("By where they go", "route", facts.routes), group("By state", "state", facts.states));
}

export async function showSearch(main, first) {
	const query = asked();
	const [lists, answer] = await Promise.all([
		read("/api/lists"),
		first ?? read(`/api/search?limit=${PAGE}&${query}`),
	]);
	let rows = answer.rows;
	let next = answer.next;
	const marked = new Set();

	const form = make("form", { class: "sheet find", action: "/search", method: "get", role: "search" },
		make("h1", {}, "Find"),
		make("div", { class: "box wide" }, make("label", { for: "find-q" }, "Words, or an item's number"),
			make("input", { type: "search", id: "find-q", name: "q", value: query.get("q") ?? "" })),
		make("div", { class: "boxes" },
			box("number", "Number"), box("bin", "Bin", { list: "bins" }), box("kind", "Kind", { list: "kinds" }),
			box("maker", "Maker", { list: "makers" }),
			select("route", "Goes to", lists.route ?? [], query.get("route")),
			select("state", "State", STATES, query.get("state")),
			box("from", "From", { type: "date" }), box("to", "To", { type: "date" })),
		choices("bins", lists.bin), choices("kinds", lists.kind), choices("makers", lists.maker),
		make("div", { class: "row" }, make("button", { type: "submit", class: "main" }, "Find"),
			[...query].length === 0 ? null : make("a", { class: "button", href: "/search" }, "Clear")));
	for (const name of ["number", "bin", "kind", "maker", "from", "to"])
		form.elements[name].value = query.get(name) ?? "";
	/* Empty boxes do not make the address longer. */
	form.addEventListener("submit", (event) => {
		event.preventDefault();
		const given = new URLSearchParams();
		for (const name of FIELDS)
			if (form.elements[name].value.trim() !== "")
				given.set(name, form.elements[name].value.trim());
		location.href = `/search${[...given].length > 0 ? "?" : ""}${given}`;
	});

	const body = make("tbody");
	const found = make("p", { class: "soft", role: "status" });
	const hand = make("div", { class: "row hand-on" });
	const moreButton = make("button", { type: "button", onclick: more }, "Show more");

	function line(row) {
		const mark = make("input", {
			type: "checkbox", "aria-label": `Mark ${itemName(row)}, ${row.title || "untitled"}`,
			onchange: () => {
				if (mark.checked && marked.size >= MARKED_MOST) {
					mark.checked = false;
					announce(`${MARKED_MOST} are the most that can be marked.`, { wrong: true });
				} else if (mark.checked)
					marked.add(row.item);
				else
					marked.delete(row.item);
				drawHand();
			},
		});
		mark.checked = marked.has(row.item);
		return make("tr", {},
			make("td", { class: "mark-cell" }, mark),
			make("th", { scope: "row" }, make("a", { href: `/item/${row.item}` }, said(itemName(row)))),
			make("td", { class: "title-cell" }, said(row.title || "")),
			make("td", { "data-head": "Bin" }, said(row.bin ?? "")),
			make("td", { "data-head": "Goes to" }, said(row.route ?? "")),
			make("td", { "data-head": "State" }, row.state),
			make("td", { "data-head": "Day" }, row.day ?? ""),
			make("td", { class: "why-cell" }, row.reason ? reasonMark(row.reason) : null));
	}

	function drawHand() {
		const some = marked.size > 0;
		const chosen = some ? `items=${[...marked].join(",")}` : query.toString();
		replace(hand,
			make("span", {}, some ? `Hand on the ${count(marked.size, "marked item", "marked items")}:`
				: "Hand on all of these:"),
			[["csv", "Table (CSV)"], ["jsonld", "Data (JSON-LD)"], ["text", "Write-ups"]].map(([as, words]) =>
				make("a", { class: "button", href: `/export?as=${as}${chosen ? `&${chosen}` : ""}`, download: true }, words)));
	}

	function draw() {
		replace(body, rows.map(line));
		found.textContent = rows.length === 0 ? "Nothing was found." :
			`${count(rows.length, "item", "items")}${next === null ? "" : " and more"}, the newest first` +
			(answer.behind ? `; ${count(answer.behind, "item is", "items are")} still being worked out` : "");
		moreButton.hidden = next === null;
		hand.hidden = rows.length === 0;
		drawHand();
	}

	async function more() {
		try {
			const page = await read(`/api/search?limit=${PAGE}&${query}&after=${encodeURIComponent(next)}`);
			const from = rows.length;
			rows = rows.concat(page.rows);
			next = page.next;
			draw();
			body.rows[from]?.querySelector("a").focus();
		} catch (error) {
			announce(error.message, { wrong: true });
		}
	}

	const markAll = make("input", {
		type: "checkbox", "aria-label": "Mark all that are shown",
		onchange: () => {
			marked.clear();
			if (markAll.checked)
				rows.slice(0, MARKED_MOST).forEach((row) => marked.add(row.item));
			draw();
		},
	});
	const exact = answer.exact ?? null;
	replace(main, make("div", { class: "find-page" }, form,
		[...query].length === 0 ? listOfLists(lists.facts ?? {}) : null,
		make("section", { class: "sheet found", "aria-label": "Found" },
			exact === null ? null : make("p", { class: "exact" }, "That number is ",
				make("a", { href: `/item/${exact.item}` }, said(itemName(exact)), ", ", said(exact.title || ""))),
			found, hand,
			make("table", { class: "rows" },
				make("caption", { class: "unseen" }, "Items found"),
				make("thead", {}, make("tr", {}, make("td", { class: "mark-cell" }, markAll),
					["Item", "What it is", "Bin", "Goes to", "State", "Day", "Look"].map((words) =>
						make("th", { scope: "col" }, words)))),
				body),
			moreButton)));
	draw();
	document.title = "Find · lapel";

	return {
		/* What was found stays as it is until it is looked for again: only its rows follow. */
		async changed(change) {
			if (!change.more && !rows.some((row) => change.items.includes(row.item)))
				return;
			const now = await read(`/api/search?limit=${PAGE}&${query}`);
			const fresh = new Map(now.rows.map((row) => [row.item, row]));
			rows = rows.map((row) => fresh.get(row.item) ?? row);
			const focus = document.activeElement?.closest?.("tr");
			const index = focus ? [...body.rows].indexOf(focus) : -1;
			const was = document.activeElement?.tagName;
			draw();
			if (index >= 0)
				body.rows[index]?.querySelector(was === "INPUT" ? "input" : "a")?.focus();
		},
	};
}
