// Finding, lists, handing on, figures.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { atDesk } from "./desk.mjs";

const lines = (page) => page.locator(".rows tbody tr");

async function find(page, box, text) {
	await page.fill(`#find-${box}`, text);
	await page.keyboard.press("Enter");
	await page.waitForURL((url) => url.searchParams.has(box));
	await page.waitForSelector("main[data-ready]");
}

atDesk("an item is found by its number, its maker, and words of its write-up", async ({ page, go }) => {
	await go("/search");
	await find(page, "q", "401");
	assert.match(await page.innerText(".exact"), /Item 401/);
	await go("/search");
	await find(page, "maker", "hallowick");
	assert.ok(await lines(page).count() > 0);
	for (const row of await lines(page).all())
		assert.match(await row.innerText(), /hallowick/i);
	await go("/search");
	await find(page, "q", "small stain left cuff");
	assert.match(await page.innerText(".rows"), /Item 401/);
	await go("/search");
	await find(page, "q", "zeppelin");
	assert.match(await page.innerText(".found"), /Nothing was found/);
});

atDesk("there is a list for each route, and one of what is set aside", async ({ page, go }) => {
	await go("/search");
	await page.getByRole("link", { name: /^Mending/ }).click();
	await page.waitForURL(/route=mending/);
	await page.waitForSelector("main[data-ready]");
	for (const row of await lines(page).all())
		assert.match(await row.innerText(), /mending/);
	await go("/search");
	await page.getByRole("link", { name: /^Set aside/ }).click();
	await page.waitForURL(/state=set/);
	await page.waitForSelector("main[data-ready]");
	assert.match(await page.innerText(".rows"), /Item 401/);
});

atDesk("a marked selection is handed on, and nothing else", async ({ page, go }) => {
	await go("/search?maker=hallowick");
	const marks = page.getByLabel(/^Mark Item/);
	const numbers = [];
	for (const at of [0, 2]) {
		await marks.nth(at).check();
		numbers.push(/Mark Item (\d+)/.exec(await marks.nth(at).getAttribute("aria-label"))[1]);
	}
	const [download] = await Promise.all([
		page.waitForEvent("download"), page.getByRole("link", { name: "Table (CSV)" }).click(),
	]);
	const rows = readFileSync(await download.path(), "utf8").trim().split("\r\n");
	assert.equal(rows.length, 3);
	assert.deepEqual(rows.slice(1).map((row) => row.split(",")[0]).sort(), numbers.sort());
});

atDesk("the figures of a day are told", async ({ page, go }) => {
	await go("/figures");
	const text = await page.innerText("main");
	assert.match(text, /Figures of the day/);
	assert.match(text, /Readings\s+\d+/);
	assert.match(text, /Done\s+\d+/);
});
