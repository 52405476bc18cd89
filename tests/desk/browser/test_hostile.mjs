// Values that are no harmless words: they are shown, and do nothing.
import assert from "node:assert/strict";
import { api, atDesk, itemOf, post } from "./desk.mjs";

const MARKUP = `</script><img src=x onerror="alert(1)"><b>bold</b> "quoted" 'single' & &amp;`;
const RIGHT_TO_LEFT = "\u05e9\u05dc\u05d5\u05dd \u202e\u0645\u0631\u062d\u0628\u0627 (1)";
const EMOJI = "\u{1f9e5}\u{1f468}\u200d\u{1f469}\u200d\u{1f467} A\u0301\u0323";
const VALUES = { MARKUP, RIGHT_TO_LEFT, EMOJI, LONG: "seam ".repeat(800).trim(), WIDE: "m".repeat(4000) };

async function noteOf(page) {
	const item = await itemOf(page, 401);
	const note = (await api(page, `/api/item/${item}`)).notes[0];
	return { item, note };
}

for (const [name, value] of Object.entries(VALUES))
	atDesk(`a note of ${name.toLowerCase().replaceAll("_", " ")} is text and nothing else`, async ({ page, go }) => {
		const { item, note } = await noteOf(page);
		await page.evaluate((who) => localStorage.setItem("who", who), MARKUP.slice(0, 60));
		const answer = await post(page, "write-out",
			{ call: note.call, text: value, expect: note.written_call, who: MARKUP.slice(0, 60) });
		assert.equal(answer.status, 200, JSON.stringify(answer.body));
		await go(`/item/${item}`);
		assert.equal(await page.textContent(".note-text"), value);
		assert.equal(await page.locator("main b, main img[src=x]").count(), 0);
		for (const path of [`/item/${item}`, "/queue", `/search?q=${encodeURIComponent(value.slice(0, 200))}`]) {
			await go(path);
			const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
			assert.ok(wide <= 0, `${path} runs ${wide} px past the window`);
		}
	}, { viewport: { width: 360, height: 740 } });

atDesk("ten thousand characters are refused in a sentence, or cut by the box", async ({ page, go }) => {
	const { item, note } = await noteOf(page);
	const long = "m".repeat(10000);
	const answer = await post(page, "write-out", { call: note.call, text: long, expect: note.written_call });
	assert.ok([413, 422, 400].includes(answer.status), String(answer.status));
	assert.ok(answer.body.error.length > 10);
	await go(`/item/${item}`);
	await page.locator("[data-field='measure:chest']").getByRole("button", { name: /^Correct/ }).click();
	await page.locator(".typing input").fill(long);
	await page.keyboard.press("Enter");
	await page.waitForSelector(".typing .wrong:not(:empty)");
	assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
});

atDesk("a bad value in a box is told as it was typed", async ({ page, go }) => {
	const { item } = await noteOf(page);
	await go(`/item/${item}`);
	await page.locator("[data-field=bin]").getByRole("button", { name: /^Correct/ }).click();
	await page.locator(".typing input").fill(MARKUP);
	await page.keyboard.press("Enter");
	await page.waitForSelector(".typing .wrong:not(:empty)");
	assert.equal(await page.locator("main b, main img[src=x]").count(), 0);
});

atDesk("words to be found may be anything", async ({ page, go }) => {
	for (const value of [MARKUP, RIGHT_TO_LEFT, EMOJI, "\"", "NEAR( OR *", "m".repeat(2000)]) {
		await go(`/search?q=${encodeURIComponent(value)}`);
		assert.equal(await page.inputValue("#find-q"), value);
		assert.equal(await page.locator("main b").count(), 0);
	}
});
