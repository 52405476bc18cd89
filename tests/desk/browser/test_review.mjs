// Going through a day at the queue, without the mouse.
import assert from "node:assert/strict";
import { DAY, api, atDesk, said } from "./desk.mjs";

const reasonNow = (page) => page.getAttribute(".matter", "data-reason");

// What the page says after a key is about that key only once it changed.
async function press(page, key) {
	const before = await page.evaluate(() => {
		const place = document.getElementById("said");
		const line = place.firstElementChild;
		if (line !== null)
			line.dataset.old = "";
		return document.querySelector(".current h1").textContent + document.querySelector(".card").textContent;
	});
	await page.keyboard.press(key);
	await page.waitForFunction((was) => {
		const line = document.querySelector("#said p");
		return (line !== null && !("old" in line.dataset)) || document.querySelector("#main .typing, dialog") !== null ||
			document.querySelector(".current h1").textContent + document.querySelector(".card").textContent !== was;
	}, before);
}

async function type(page, text, last) {
	await page.waitForSelector(".typing :is(input, textarea)");
	assert.ok(await page.evaluate(() => document.activeElement.matches(".typing :is(input, textarea)")),
		"the box has the focus");
	await page.keyboard.press("Control+a");
	await page.keyboard.type(text);
	await page.keyboard.press(last);
	await page.waitForSelector(".typing", { state: "detached" });
}

atDesk("a day of sixty garments is gone through by keyboard alone", async ({ page }) => {
	const met = new Set();
	let steps = 0, keys = 0;
	for (; steps < 6 * DAY; steps++) {
		const reason = await reasonNow(page);
		met.add(reason);
		if (reason === "doubt") {
			await page.keyboard.press("p");
			await press(page, "e");
			await type(page, "17 1/2", "Enter");
			keys += 9;
		} else if (reason === "note") {
			await press(page, "e");
			await type(page, "The lining was sewn in by hand.", "Control+Enter");
			keys += 33;
		} else if (reason === "word") {
			await press(page, "e");
			await type(page, "barnacle and sons", "Enter");
			keys += 19;
		} else if (reason === "confirmed" || reason === "implausible") {
			await press(page, "c");
			keys++;
		} else {
			await press(page, "n");
			keys++;
			if ((await said(page)).includes("The queue is through"))
				break;
		}
	}
	assert.ok(["doubt", "confirmed", "implausible", "missing", "note", "word", "rest"].every((reason) => met.has(reason)),
		`met ${[...met].join(", ")}`);
	await page.waitForFunction(async () => {
		const queue = await (await fetch("/api/queue")).json();
		return queue.rows.length === 0 && queue.loose.length === 0;
	});
	const queue = await api(page, "/api/queue");
	assert.equal(queue.looked, DAY, "all of them count as looked over");
	assert.ok(keys < 5 * DAY, `${keys} keys, what was typed among them`);
	const found = await api(page, "/api/search?q=barnacle");
	assert.ok(found.rows.some((row) => row.number === "401"), "the word that was typed is the maker's");
	assert.equal(await page.locator(".is-done").count(), await page.locator(".line").count(),
		"each line of the queue is ticked off");
});

atDesk("each thing that was done is taken back by one key", async ({ page }) => {
	const before = await api(page, "/api/queue");
	const places = [];
	for (let i = 0; i < 6; i++) {
		places.push(await page.textContent(".current h1") + await page.textContent(".question"));
		await press(page, await reasonNow(page) === "confirmed" ? "c" : "n");
	}
	await page.waitForFunction(async (looked) => (await (await fetch("/api/queue")).json()).looked >= looked,
		before.looked + 1);
	for (let i = 0; i < 20 && await page.getAttribute("button[aria-keyshortcuts=u]", "aria-disabled") === null; i++)
		await press(page, "u");
	await press(page, "u");
	assert.equal(await said(page), "Nothing to undo.");
	const after = await api(page, "/api/queue");
	assert.deepEqual(after.rows.map((row) => [row.item, row.reason, row.looked]),
		before.rows.map((row) => [row.item, row.reason, row.looked]));
});

atDesk("a correction reaches the write-up beside it", async ({ page }) => {
	for (let i = 0; i < 3 * DAY && await reasonNow(page) !== "missing"; i++)
		await press(page, "n");
	assert.equal(await reasonNow(page), "missing");
	const question = await page.textContent(".question");
	await press(page, "e");
	await type(page, "17 3/4", "Enter");
	await page.waitForFunction(() => document.querySelector(".writeup-text").textContent.includes("17 3/4 in"));
	assert.notEqual(await page.textContent(".question"), question, "it asks for no look any more");
	assert.match(await said(page), /17 3\/4/);
	await press(page, "u");
	await page.waitForFunction(() => !document.querySelector(".writeup-text").textContent.includes("17 3/4 in"));
});

atDesk("what was heard plays, and stops", async ({ page }) => {
	for (let i = 0; i < 3 * DAY && await reasonNow(page) !== "doubt"; i++)
		await press(page, "n");
	await page.keyboard.press("p");
	await page.waitForFunction(() => {
		const player = document.getElementById("player");
		return player.readyState >= HTMLMediaElement.HAVE_CURRENT_DATA && player.currentTime > 0;
	});
	const player = await page.evaluate(() => {
		const { readyState, duration, paused, error } = document.getElementById("player");
		return { readyState, duration, paused, error };
	});
	assert.equal(player.error, null);
	assert.ok(player.duration > 0.5 && player.duration < 20, `it lasts ${player.duration} s`);
	await page.keyboard.press("p");
	await page.waitForFunction(() => document.getElementById("player").paused);
});

atDesk("what is dictated meanwhile appears, and what is typed stays", async ({ page }, desk) => {
	for (let i = 0; i < 3 * DAY && await reasonNow(page) !== "missing"; i++)
		await press(page, "n");
	await press(page, "e");
	await page.keyboard.type("12 1/");
	const before = (await api(page, "/api/search?limit=1")).rows[0].item;
	desk.dictate();
	await page.waitForFunction((newest) => [...document.querySelectorAll(".entry[data-item]")]
		.some((entry) => Number(entry.dataset.item) > newest), before);
	await page.keyboard.type("2");
	assert.equal(await page.inputValue(".typing input"), "12 1/2");
	await page.keyboard.press("Escape");
});
