/* An item to look at: its sketch, its write-up, and in short what is written of it. */
import { make, mark, replace, said } from "./element.js";
import { capital, itemName, shapeMark } from "./wording.js";

/* Whether nothing of it changed: our own changes come back to us as everybody's do. */
export function sameItem(one, other) {
	return JSON.stringify(one) === JSON.stringify(other);
}

/* "Item 482", kind and bin, and its state. */
export function itemHeading(item) {
	const field = (name) => item[name] ?? item.fields?.find((one) => one.field === name)?.value ?? "";
	const where = [
		field("bin") ? ["bin ", said(field("bin"))] : null,
		field("route") ? ["goes to ", said(field("route"))] : null,
		item.state,
	].filter((piece) => piece !== null);
	return [
		make("span", { class: "number" }, said(itemName(item))),
		make("span", { class: "title" }, said(item.title || "nothing said of it yet")),
		make("span", { class: "where" }, where.map((piece, index) => [index > 0 ? " · " : null, piece].flat()).flat()
			.filter((piece) => piece !== null)),
	];
}

/* The sketch and the write-up, kept up to date by `show(item)`. */
export function makeItemView() {
	const picture = make("figure", { class: "sketch", hidden: true });
	const title = make("p", { class: "writeup-title" });
	const text = make("pre", { class: "writeup-text", tabindex: "0", role: "region", "aria-label": "The whole write-up" });
	const asking = make("p", { class: "asking-price" });
	const element = make("section", { class: "view", "aria-label": "Write-up" },
		picture, make("h2", {}, "Write-up"), title, text, asking);
	let sketch = null;

	function show(item) {
		if (item.sketch !== sketch) {
			sketch = item.sketch;
			replace(picture, sketch === null ? null : make("img", {
				src: sketch, alt: "Flat sketch with the measures and flaws that the write-up tells",
			}));
			picture.hidden = sketch === null;
		}
		replace(title, said(item.title || "No title yet"));
		/* The title stands above it already. */
		const lines = (item.text ?? "").split("\n");
		if (lines[0] === item.title)
			lines.shift();
		replace(text, said(lines.join("\n").trim() || "Nothing is written yet."));
		replace(asking, item.asking ? ["Asked: ", make("strong", {}, item.asking)] : null);
	}

	return { element, show };
}

/* What stands, in a table: measures by shape and word, and the facts. */
export function valuesTable(item) {
	const rows = item.fields.filter((field) =>
		field.field !== "flaw:new" && field.field !== "number" && (field.written || field.missing));
	return make("table", { class: "values" },
		make("caption", { class: "unseen" }, "What is written"),
		make("tbody", {}, rows.map((field) => make("tr", { class: field.missing && !field.written ? "missing" : null },
			make("th", { scope: "row" }, capital(field.name), field.shape ? " " : null, shapeMark(field.shape)),
			make("td", {}, field.written ? said(field.written)
				: make("span", { class: "reason plain" }, mark("missing"), "not measured"))))));
}
