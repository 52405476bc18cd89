/* Single keys: dead while something is typed, with a modifier, in a dialog, and when they were
 * turned off. */

const KEPT_AS = "single keys";

let tables = [];

export function keysAreOn() {
	try {
		return localStorage.getItem(KEPT_AS) !== "off";
	} catch {
		return true;
	}
}

export function turnKeys(on) {
	try {
		if (on)
			localStorage.removeItem(KEPT_AS);
		else
			localStorage.setItem(KEPT_AS, "off");
	} catch {
		/* Without storage they stay as they are. */
	}
	showKeys();
}

/* The keys beside the words of buttons are hidden while they do nothing. */
export function showKeys() {
	document.documentElement.dataset.keys = keysAreOn() ? "on" : "off";
}

/* Adds to what keys do: rows of { key, words, run }. `key` is as KeyboardEvent.key has it, in lower
 * case; `words` tell the list of keys what it does (null: it is told in another row); without `run`
 * it is only in the list. */
export function addKeys(title, rows) {
	tables.push({ title, rows });
}

export function keyTables() {
	return tables;
}

function takesText(target) {
	if (!(target instanceof Element))
		return false;
	if (target.closest("textarea, select, [contenteditable]") !== null)
		return true;
	const input = target.closest("input");
	return input !== null && !["checkbox", "radio", "button", "submit"].includes(input.type);
}

function find(key) {
	for (const table of tables)
		for (const row of table.rows)
			if (row.key === key && row.run !== undefined)
				return row;
	return null;
}

export function listenForKeys() {
	showKeys();
	window.addEventListener("storage", showKeys);
	document.addEventListener("keydown", (event) => {
		if (event.ctrlKey || event.altKey || event.metaKey || event.isComposing || event.repeat ||
		    event.defaultPrevented)
			return;
		if (takesText(event.target) || document.querySelector("dialog[open]") !== null)
			return;
		const row = find(event.key.toLowerCase());
		if (row === null || !keysAreOn())
			return;
		event.preventDefault();
		row.run();
	});
}
