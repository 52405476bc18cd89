/* Keys and settings: in a dialog over any page, and on the help page. */
import { announce } from "./announce.js";
import { make } from "./element.js";
import { keysAreOn, keyTables, turnKeys } from "./keys.js";
import { setWho, who } from "./server.js";
import { playsByItself, setPlaysByItself } from "./settings.js";

let counter = 0;

function check(words, on, turned) {
	const id = `setting-${++counter}`;
	const box = make("input", { type: "checkbox", id, onchange: () => turned(box.checked) });
	box.checked = on;
	return make("div", { class: "check" }, box, make("label", { for: id }, words));
}

function themeChoice() {
	const themes = { system: "As the system has it", light: "Light", dark: "Dark" };
	const name = `theme-${++counter}`;
	return make("fieldset", {}, make("legend", {}, "Looks"),
		Object.entries(themes).map(([theme, words]) => {
			const id = `${name}-${theme}`;
			const radio = make("input", {
				type: "radio", id, name, value: theme,
				onchange: () => {
					window.deskTheme.choose(theme);
					document.dispatchEvent(new Event("theme"));
				},
			});
			radio.checked = window.deskTheme.choice() === theme;
			return make("div", { class: "check" }, radio, make("label", { for: id }, words));
		}));
}

export function settings() {
	const id = `who-${++counter}`;
	const name = make("input", { type: "text", id, maxlength: 60, autocomplete: "off" });
	name.value = who();
	name.addEventListener("change", () => setWho(name.value));
	return make("div", { class: "settings" },
		make("div", {}, make("label", { for: id }, "Who sits here"), name,
			make("p", { class: "soft" }, "Told in the history of each value that is changed from here.")),
		check("Single keys", keysAreOn(), (on) => {
			turnKeys(on);
			announce(on ? "Single keys are on." : "Single keys are off.");
		}),
		check("Play each call as it comes", playsByItself(), setPlaysByItself),
		themeChoice());
}

export function keyList() {
	return keyTables().map((table) => make("table", { class: "keys" },
		make("caption", {}, table.title),
		make("tbody", {}, table.rows.filter((row) => row.words !== null).map((row) => make("tr", {},
			make("th", { scope: "row" }, make("kbd", {}, row.key.toUpperCase())),
			make("td", {}, row.words))))));
}

export function showSettings() {
	const dialog = make("dialog", { class: "settings-dialog", "aria-labelledby": "settings-heading" },
		make("div", { class: "row spread" },
			make("h2", { id: "settings-heading" }, "Keys and settings"),
			make("button", {
				type: "button", class: "main", autofocus: true, onclick: () => dialog.close(),
			}, "Close")),
		settings(), keyList(),
		make("p", { class: "soft" }, "Single keys do nothing while you type, and with Ctrl or Alt."));
	dialog.addEventListener("close", () => dialog.remove());
	document.body.append(dialog);
	dialog.showModal();
}
