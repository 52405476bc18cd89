/* What an action did: shown for a while at the foot of the page, and said by a screen reader. */
import { make } from "./element.js";

const SHOWN_MS = 8000;

let timer;

/* It lies over the page, but never over what has the focus. */
function makeWay(place) {
	place.classList.remove("above");
	const active = document.activeElement;
	if (active === null || active === document.body)
		return;
	const one = active.getBoundingClientRect(), other = place.getBoundingClientRect();
	if (one.bottom > other.top && one.top < other.bottom)
		place.classList.add("above");
}

/* `wrong` marks what did not work: it stays until the next one. */
export function announce(text, { wrong = false } = {}) {
	const place = document.getElementById("said");
	const line = make("p", { class: wrong ? "wrong" : null }, text);
	place.replaceChildren(line);
	makeWay(place);
	clearTimeout(timer);
	if (!wrong)
		timer = setTimeout(() => line.remove(), SHOWN_MS);
}
