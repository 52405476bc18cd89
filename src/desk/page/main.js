/* The table of the pages, and what all of them have. */
import { announce } from "./announce.js";
import { make, replace } from "./element.js";
import { showFigures } from "./figures.js";
import { showHelp } from "./help.js";
import { showItem } from "./item.js";
import { addKeys, listenForKeys } from "./keys.js";
import { showQueue } from "./queue.js";
import { showSearch } from "./search.js";
import { Refusal, firstAnswer, follow } from "./server.js";
import { showSettings } from "./settings_view.js";
import { startPlayer } from "./sound.js";

/* Each shows itself in `main`, from the answer that came with the page or one that it asks for, and
 * gives { changed(change) }, which is called as the records change. */
const PAGES = [
	{ path: /^\/(queue)?$/, show: showQueue, link: "/queue", title: "Queue" },
	{ path: /^\/item\/\d+$/, show: showItem, link: null, title: "Item" },
	{ path: /^\/search$/, show: showSearch, link: "/search", title: "Find" },
	{ path: /^\/figures$/, show: showFigures, link: "/figures", title: "Figures" },
	{ path: /^\/help$/, show: showHelp, link: "/help", title: "Help" },
];

/* The secret has done its work: it is not left in the address, nor in what is copied from it. */
function forgetSecret() {
	const address = new URL(location.href);
	if (!address.searchParams.has("key"))
		return;
	address.searchParams.delete("key");
	history.replaceState(history.state, "", address.pathname + address.search + address.hash);
}

function showThemeButton() {
	const button = document.getElementById("theme");
	const dark = document.documentElement.dataset.theme === "dark";
	button.textContent = dark ? "Light" : "Dark";
	button.setAttribute("aria-label", dark ? "Light looks" : "Dark looks");
}

function startHeader(page) {
	for (const link of document.querySelectorAll("header nav a"))
		if (link.getAttribute("href") === page.link)
			link.setAttribute("aria-current", "page");
	const theme = document.getElementById("theme");
	theme.addEventListener("click", () => {
		const dark = document.documentElement.dataset.theme === "dark";
		window.deskTheme.choose(dark ? "light" : "dark");
		showThemeButton();
	});
	document.addEventListener("theme", showThemeButton);
	showThemeButton();
	document.getElementById("keys").addEventListener("click", showSettings);
}

function showFollowing(on) {
	replace(document.getElementById("following"),
		make("span", { class: `pin ${on ? "on" : "off"}`, "aria-hidden": "true" }),
		on ? "Following" : "Not connected");
}

function showFailure(main, error) {
	replace(main, make("div", { class: "sheet nothing" }, make("h1", {}, "That did not work"),
		make("p", { class: "wrong" }, error.message),
		make("p", {}, make("a", { href: "/queue" }, "Back to the queue"))));
}

/* Changes come in bursts while somebody dictates; they are gathered, and taken one by one. */
function makeGatherer(take) {
	let items = new Set(), more = false, running = false;

	async function run() {
		running = true;
		while (items.size > 0 || more) {
			const change = { items: [...items], more };
			items = new Set();
			more = false;
			try {
				await take(change);
			} catch (error) {
				if (!(error instanceof Refusal))
					throw error;
				if (error.status !== 404)
					announce(error.message, { wrong: true });
			}
		}
		running = false;
	}

	return (change) => {
		change.items.forEach((item) => items.add(item));
		more ||= change.more;
		if (!running)
			run().finally(() => {
				running = false;
			});
	};
}

function goFind() {
	const box = document.getElementById("find-q");
	if (box !== null)
		box.focus();
	else
		location.href = "/search";
}

async function start() {
	forgetSecret();
	const main = document.getElementById("main");
	const page = PAGES.find((one) => one.path.test(location.pathname)) ?? PAGES[0];
	document.title = `${page.title} · lapel`;
	startHeader(page);
	startPlayer();
	listenForKeys();
	addKeys("Everywhere", [
		{ key: "/", words: "find", run: goFind },
		{ key: "?", words: "keys and settings", run: showSettings },
	]);
	try {
		const shown = await page.show(main, firstAnswer());
		follow(makeGatherer((change) => shown.changed(change)), showFollowing);
	} catch (error) {
		if (!(error instanceof Refusal))
			throw error;
		showFailure(main, error);
	}
	main.dataset.ready = "";
}

start();
