/* How the records are put into words on the page. */
import { make, mark, said } from "./element.js";

/* Why something wants a look, the most urgent first. Each has a mark and words of its own. */
export const REASONS = {
	doubt: { mark: "doubt", word: "Doubt", tone: "doubt" },
	confirmed: { mark: "doubt", word: "Said to be so", tone: "doubt" },
	implausible: { mark: "unlikely", word: "Unlikely", tone: "doubt" },
	missing: { mark: "missing", word: "Not measured", tone: "plain" },
	note: { mark: "note", word: "Note", tone: "plain" },
	word: { mark: "word", word: "Off the list", tone: "plain" },
	refused: { mark: "near", word: "Near call", tone: "plain" },
	rest: { mark: "open", word: "Not looked over", tone: "plain" },
	looked: { mark: "fine", word: "Looked over", tone: "good" },
};

export function reasonRank(reason) {
	const rank = Object.keys(REASONS).indexOf(reason);
	return rank < 0 ? 99 : rank;
}

export function reasonMark(reason) {
	const known = REASONS[reason] ?? { mark: "open", word: reason, tone: "plain" };
	return make("span", { class: `reason ${known.tone}` }, mark(known.mark), known.word);
}

const SHAPES = {
	flat: "flat",
	straight: "straight",
	round: "round",
};

/* How the tape lies: a shape and a word, not a colour. */
export function shapeMark(shape) {
	if (!(shape in SHAPES))
		return null;
	return make("span", { class: "shape" }, mark(shape), SHAPES[shape]);
}

const hours = new Intl.DateTimeFormat(undefined, {
	hour: "2-digit", minute: "2-digit", second: "2-digit", hourCycle: "h23",
});
const days = new Intl.DateTimeFormat(undefined, { day: "numeric", month: "short", year: "numeric" });

export function moment(at) {
	if (!at)
		return null;
	const date = new Date(at);
	if (Number.isNaN(date.getTime()))
		return null;
	return make("time", { datetime: at, title: `${days.format(date)}, ${hours.format(date)}` },
		hours.format(date));
}

export function dayAndMoment(at) {
	const date = new Date(at);
	return make("time", { datetime: at }, `${days.format(date)}, ${hours.format(date)}`);
}

/* "61 % sure": never more than 99, since nothing that was heard is certain. */
export function sureness(confidence) {
	if (typeof confidence !== "number")
		return null;
	return `${Math.min(99, Math.round(confidence * 100))} % sure`;
}

/* What was heard, how sure that is, and when. */
export function heardLine(words, confidence, at) {
	const sure = sureness(confidence);
	const time = moment(at);
	return make("p", { class: "heard" },
		words ? ["Heard ", said(words, { class: "words" })] : "Words were not understood",
		sure ? [make("span", { class: "dot", "aria-hidden": "true" }, " · "), sure] : null,
		time ? [make("span", { class: "dot", "aria-hidden": "true" }, " · "), "at ", time] : null);
}

export function itemName(item) {
	return item.number ? `Item ${item.number}` : "Item without a number";
}

export function capital(text) {
	return text === "" ? text : text[0].toUpperCase() + text.slice(1);
}

/* What it may have been besides what stands; no more than there are keys for. */
export function otherChoices(choices, value) {
	return (choices ?? []).filter((choice) => choice.value !== value).slice(0, 5);
}

/* "1 item", "3 items". */
export function count(number, one, many) {
	return `${number} ${number === 1 ? one : many}`;
}

/* "1 h 12 min" of milliseconds. */
export function duration(ms) {
	const minutes = Math.round(ms / 60000);
	const whole = Math.floor(minutes / 60);
	return whole === 0 ? `${minutes} min` : `${whole} h ${minutes % 60} min`;
}
