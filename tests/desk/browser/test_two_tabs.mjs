// Two people at the desk.
import assert from "node:assert/strict";
import { api, atDesk, itemOf, openTab, post } from "./desk.mjs";

const CHEST = "measure:chest";

async function both(tab, desk) {
	const other = await openTab(desk);
	const item = await itemOf(tab.page, 401);
	await tab.go(`/item/${item}`);
	await other.go(`/item/${item}`);
	await other.page.evaluate(() => localStorage.setItem("who", "Mara"));
	return { other, item };
}

async function write(page, text) {
	await page.locator(`[data-field="${CHEST}"]`).getByRole("button", { name: /^Correct/ }).click();
	await page.locator(".typing input").fill(text);
	await page.keyboard.press("Enter");
}

const shows = (page, text) => page.locator(`[data-field="${CHEST}"] .value`, { hasText: text }).waitFor();

atDesk("a change is seen by the other, whose typing is left alone", async (tab, desk) => {
	const { other } = await both(tab, desk);
	await tab.page.locator(`[data-field="${CHEST}"]`).getByRole("button", { name: /^Correct/ }).click();
	await tab.page.locator(".typing input").fill("20 3/");
	await write(other.page, "22");
	await shows(tab.page, "22 in");
	assert.equal(await tab.page.inputValue(".typing input"), "20 3/");
	assert.ok(await tab.page.evaluate(() => document.activeElement.matches(".typing input")));
	assert.match(await tab.page.innerText(".typing .wrong"), /22 in/);
	assert.deepEqual(other.errors, []);
	await other.context.close();
});

for (const [choice, name, stands] of [["theirs", "Keep what stands now", "22 in"], ["mine", "Write mine", "20 3/4 in"]])
	atDesk(`the second of two is shown the first's value, and keeps ${choice}`, async (tab, desk) => {
		const { other, item } = await both(tab, desk);
		await tab.page.locator(`[data-field="${CHEST}"]`).getByRole("button", { name: /^Correct/ }).click();
		await tab.page.locator(".typing input").fill("20 3/4");
		await write(other.page, "22");
		await shows(other.page, "22 in");
		await tab.page.locator(".typing input").press("Enter");
		await tab.page.waitForSelector("dialog[open]");
		const question = await tab.page.innerText("dialog");
		assert.match(question, /22 in/);
		assert.match(question, /20 3\/4/);
		await tab.page.getByRole("button", { name }).focus();
		await tab.page.keyboard.press("Enter");
		await shows(tab.page, stands);
		await shows(other.page, stands);
		const chest = (await api(tab.page, `/api/item/${item}`)).fields.find((one) => one.field === CHEST);
		const history = chest.history.map((step) => step.value);
		assert.ok(history.includes("22"), "the other's value is in the history");
		assert.deepEqual(other.errors, []);
		await other.context.close();
	});

atDesk("neither is chosen, and what was typed stays", async (tab, desk) => {
	const { other, item } = await both(tab, desk);
	await tab.page.locator(`[data-field="${CHEST}"]`).getByRole("button", { name: /^Correct/ }).click();
	await tab.page.locator(".typing input").fill("20 3/4");
	await write(other.page, "22");
	await shows(other.page, "22 in");
	await tab.page.locator(".typing input").press("Enter");
	await tab.page.waitForSelector("dialog[open]");
	await tab.page.keyboard.press("Escape");
	await tab.page.waitForSelector("dialog", { state: "detached" });
	assert.equal(await tab.page.inputValue(".typing input"), "20 3/4");
	assert.equal((await api(tab.page, `/api/item/${item}`)).fields.find((one) => one.field === CHEST).value, "22");
	await other.context.close();
});

atDesk("the queue of one ticks off what the other looked over", async (tab, desk) => {
	const row = (await api(tab.page, "/api/queue")).rows.find((one) => one.reason === "rest");
	await tab.page.locator(`.line:not(.is-done) [data-item="${row.item}"]`).waitFor();
	const other = await openTab(desk);
	assert.equal((await post(other.page, "looked", { item: row.item })).status, 200);
	await tab.page.locator(`.line.is-done [data-item="${row.item}"]`).waitFor();
	await other.context.close();
});
