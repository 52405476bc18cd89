/* Elements with their text, the only way in which anything from a record reaches the page: text
 * nodes and attributes, never markup. */

/* make("p", { class: "soft" }, "text", another) gives <p class="soft">. Of the properties, on* are
 * listeners, true and false set and leave out, null is left out. Children that are null are too. */
export function make(tag, properties, ...children) {
	const element = document.createElement(tag);
	for (const [name, value] of Object.entries(properties ?? {})) {
		if (value === null || value === undefined || value === false)
			continue;
		if (name.startsWith("on"))
			element.addEventListener(name.slice(2), value);
		else
			element.setAttribute(name, value === true ? "" : String(value));
	}
	element.append(...children.flat().filter((child) => child !== null && child !== undefined));
	return element;
}

/* Text of a record, which may run from right to left: its direction is its own. */
export function said(text, properties) {
	return make("bdi", { dir: "auto", ...properties }, text);
}

/* One of the marks in marks.svg, beside words that say the same. */
export function mark(name) {
	const space = "http://www.w3.org/2000/svg";
	const svg = document.createElementNS(space, "svg");
	svg.setAttribute("class", "mark");
	svg.setAttribute("aria-hidden", "true");
	svg.setAttribute("viewBox", "0 0 24 24");
	const use = document.createElementNS(space, "use");
	use.setAttribute("href", `/page/marks.svg#${name}`);
	svg.append(use);
	return svg;
}

/* A button with its key beside the words. `key` may be null. */
export function button(words, properties, key) {
	return make("button", { type: "button", "aria-keyshortcuts": key, ...properties },
		words, key ? make("kbd", { "aria-hidden": "true", class: "key" }, key.toUpperCase()) : null);
}

export function replace(parent, ...children) {
	parent.replaceChildren(...children.flat().filter((child) => child !== null && child !== undefined));
}
