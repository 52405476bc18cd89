// A desk to test: records of a day at Tidewrack, the program over a copy of them, and Chromium.
import assert from "node:assert/strict";
import { execFileSync, spawn } from "node:child_process";
import { copyFileSync, mkdtempSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import { after, before, test } from "node:test";

const here = dirname(fileURLToPath(import.meta.url));
const packages = createRequire(join(process.env.LAPEL_BROWSER_PACKAGES, "package.json"));
const { chromium } = packages("playwright-core");
export const axeSource = packages.resolve("axe-core/axe.min.js");

const folder = mkdtempSync(join(tmpdir(), "lapel-browser-"));
const environment = { ...process.env, XDG_CONFIG_HOME: join(folder, "config"), TZ: "UTC" };
function run(program, ...words) {
	return execFileSync(program, words, { env: environment, encoding: "utf8" });
}

// Speaks a script, and listens to it.
function listen(name, database) {
	const sound = join(folder, `${name}.wav`), presses = join(folder, `${name}.presses`);
	run(process.env.LAPEL_DICTATE, join(here, `${name}.script`), sound, presses);
	run(process.env.LAPEL, "listen", "--sound", sound, "--presses", presses, "--db", database,
		"--spoken", join(folder, `${name}.spoken.wav`));
}

export const DAY = 60;
const day = join(folder, "day.db");

// Two garments dictated, with their sound, and the rest of sixty as the filler makes them: some with
// nothing to look at, others doubted, unlikely, off the list, not measured.
function makeDay() {
	listen("morning", day);
	run(process.env.LAPEL_DESK_FILL, process.env.LAPEL_GRAMMARS, day, String(DAY - 2), "7", "sound");
}

let copies = 0;

// A desk over a copy of the day.
export async function startDesk() {
	const database = join(folder, `copy-${++copies}.db`);
	copyFileSync(day, database);
	const desk = spawn(process.env.LAPEL, ["desk", "--db", database],
		{ env: environment, stdio: ["ignore", "pipe", "inherit"] });
	const line = await new Promise((resolve, reject) => {
		createInterface({ input: desk.stdout }).once("line", resolve);
		desk.once("exit", (code) => reject(new Error(`lapel desk ended with ${code}`)));
	});
	const address = /http:\S+/.exec(line)[0];
	return {
		address,
		base: new URL(address).origin,
		database,
		// More is dictated into the same records.
		dictate() {
			listen("more", database);
		},
		stop: () => new Promise((resolve) => {
			desk.once("exit", resolve);
			desk.kill("SIGTERM");
		}),
	};
}

let browser;

before(async () => {
	makeDay();
	const root = process.getuid() === 0;
	browser = await chromium.launch({
		executablePath: process.env.LAPEL_CHROMIUM,
		args: root ? ["--no-sandbox"] : [],
	});
});

after(async () => {
	await browser?.close();
	rmSync(folder, { recursive: true, force: true });
});

// What Chromium itself writes to the console when the desk refuses something, as it should.
const REFUSALS = /Failed to load resource: the server responded with a status of (409|422)/;

// A tab at the desk, known by its cookie, that notes what goes wrong in it.
export async function openTab(desk, options = {}) {
	const context = options.context ??
		await browser.newContext({ viewport: { width: 1280, height: 800 }, ...options });
	const page = await context.newPage();
	page.setDefaultTimeout(30000);
	const errors = [];
	page.on("console", (message) => {
		if (["error", "warning"].includes(message.type()) && !REFUSALS.test(message.text()))
			errors.push(message.text());
	});
	page.on("pageerror", (error) => errors.push(error.message));
	page.on("dialog", (dialog) => {
		errors.push(`a dialog of the browser: ${dialog.message()}`);
		dialog.dismiss();
	});
	page.on("request", (request) => {
		if (!request.url().startsWith(desk.base) && !request.url().startsWith("data:"))
			errors.push(`asked for ${request.url()}`);
	});
	await page.goto(desk.address);
	await ready(page);
	return {
		page, context, errors,
		go: async (path) => {
			await page.goto(desk.base + path);
			await ready(page);
		},
	};
}

export async function ready(page) {
	await page.waitForSelector("main[data-ready]");
}

export async function said(page) {
	return (await page.textContent("#said")).trim();
}

// What the server itself says, past the page.
export function api(page, path) {
	return page.evaluate(async (where) => (await fetch(where)).json(), path);
}

export function post(page, action, body) {
	return page.evaluate(async ([where, what]) => {
		const answer = await fetch(`/api/${where}`, {
			method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(what),
		});
		return { status: answer.status, body: await answer.json() };
	}, [action, body]);
}

// The row of an item by its number.
export async function itemOf(page, number) {
	const found = await api(page, `/api/search?number=${number}`);
	const row = found.rows.find((one) => one.number === String(number));
	assert.ok(row !== undefined, `there is an item ${number}`);
	return row.item;
}

// One test at a desk of its own with one tab; no error may be on its console at the end.
export function atDesk(name, work, options) {
	test(name, async () => {
		const desk = await startDesk();
		try {
			const tab = await openTab(desk, options);
			await work(tab, desk);
			assert.deepEqual(tab.errors, [], "the console is clean");
			await tab.context.close();
		} finally {
			await desk.stop();
		}
	});
}
