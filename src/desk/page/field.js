/* One value on the item's page: what is written, what was heard, its choices, its history. */
import { make, mark, replace, said } from "./element.js";
import { play } from "./sound.js";
import { fieldLabel, tellChanged, typeValue } from "./typing.js";
import { dayAndMoment, heardLine, moment, otherChoices, shapeMark } from "./wording.js";

const ACTS = { wrote: "written", struck: "struck", restored: "brought back", moved: "moved" };
const SOURCES = { voice: "by voice", pedal: "by pedal", desk: "at the desk" };

function history(field) {
	if ((field.history ?? []).length === 0)
		return null;
	return make("details", { class: "history" },
		make("summary", { "data-focus": "history" }, `History (${field.history.length})`),
		make("ol", {}, field.history.map((step) => make("li", {},
			make("strong", {}, said(step.value || "nothing")), ` ${ACTS[step.act] ?? step.act} `,
			step.who ? ["by ", said(step.who), ", "] : null, SOURCES[step.source] ?? step.source, ", ",
			dayAndMoment(step.at),
			step.text && step.source === "voice" ? [": ", said(step.text, { class: "words" })] : null))));
}

function choicesOf(field, choose) {
	const choices = otherChoices(field.choices, field.value);
	if (choices.length === 0)
		return null;
	return make("div", { class: "choices", role: "group", "aria-label": `${fieldLabel(field)}: or was it` },
		make("span", { class: "soft" }, "Or was it"),
		choices.map((choice, index) => make("button", {
			type: "button", class: "choice", "data-focus": `choice ${index}`, onclick: () => choose(choice),
		}, said(choice.choice), make("kbd", { "aria-hidden": "true", class: "key" }, String(index + 1)))));
}

/* `host` has edit(answer), struck(field), chose(field, choice). Gives { element, show(item, field),
 * open, choose(number), field() }. */
export function makeField(host) {
	const content = make("div", { class: "field-content" });
	const typing = make("div", { class: "typing-place" });
	const element = make("li", { class: "field" }, content, typing);
	let item = null, field = null, drawn = "", box = null, opener = null;

	function open() {
		if (box !== null)
			return;
		opener = document.activeElement;
		box = typeValue(typing, {
			item: item.item, field, settles: null,
			written: host.written,
			closed() {
				box = null;
				const again = content.querySelector("[data-focus=correct]") ?? opener;
				if (again?.isConnected)
					again.focus();
				host.closed?.(field);
			},
		});
	}

	function draw() {
		const focus = content.contains(document.activeElement)
			? document.activeElement.dataset.focus : undefined;
		const wasOpen = content.querySelector("details")?.open ?? false;
		const name = fieldLabel(field);
		const heard = field.heard;
		replace(content,
			make("div", { class: "field-name" }, make("h3", {}, name), shapeMark(field.shape)),
			make("div", { class: "field-value" },
				field.written
					? make("p", { class: "value" }, field.other ? "Not on the list; to be typed" : said(field.written))
					: make("p", { class: "value none" }, field.missing
						? make("span", { class: "reason plain" }, mark("missing"), "Not measured") : "Nothing"),
				field.doubt ? make("p", { class: "reason doubt" }, mark("unlikely"), said(field.doubt)) : null),
			make("div", { class: "field-buttons" },
				heard?.sound ? make("button", {
					type: "button", class: "small", "data-focus": "play", "aria-label": `Play ${name}`,
					onclick: () => play(heard.sound),
				}, mark("play"), "Play") : null,
				make("button", {
					type: "button", class: "small", "data-focus": "correct", "aria-label": `Correct ${name}`,
					onclick: open,
				}, field.written ? "Correct" : "Write"),
				field.entry ? make("button", {
					type: "button", class: "small", "data-focus": "strike", "aria-label": `Strike ${name}`,
					onclick: () => host.struck(field),
				}, "Strike") : null),
			make("div", { class: "field-more" },
				heard?.source === "voice" ? heardLine(heard.text, heard.confidence, heard.at)
					: heard?.source === "desk" ? make("p", { class: "heard" }, "Typed ",
						heard.who ? ["by ", said(heard.who), " "] : null, "at ", moment(heard.at)) : null,
				field.confirmed ? make("p", { class: "soft" }, "Doubted, and said to be so.") : null,
				choicesOf(field, (choice) => host.chose(field, choice)),
				history(field)));
		const details = content.querySelector("details");
		if (details !== null)
			details.open = wasOpen;
		if (focus !== undefined)
			(content.querySelector(`[data-focus="${focus}"]`) ??
				content.querySelector("[data-focus=correct]")).focus();
	}

	function show(newItem, newField) {
		const before = field;
		item = newItem;
		field = newField;
		element.dataset.field = field.field;
		element.classList.toggle("doubted", field.doubt !== null && field.doubt !== undefined);
		const now = JSON.stringify(field);
		if (now === drawn)
			return;
		drawn = now;
		draw();
		if (box !== null && before !== null && before.entry !== field.entry)
			tellChanged(box, field);
	}

	return { element, show, open, field: () => field, isOpen: () => box !== null };
}
