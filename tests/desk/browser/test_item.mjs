// The page of one item.
import assert from "node:assert/strict";
import { api, atDesk, itemOf, said } from "./desk.mjs";

const field = (page, name) => page.locator(`[data-field="${name}"]`);

async function correct(page, name, text) {
	await field(page, name).getByRole("button", { name: /^(Correct|Write)/ }).focus();
	await page.keyboard.press("Enter");
	await page.locator(".typing input").fill(text);
	await page.keyboard.press("Enter");
}

async function open(page, go, number) {
	const item = await itemOf(page, number);
	await go(`/item/${item}`);
	return item;
}

atDesk("each value stands with what was heard, how sure that is, and when", async ({ page, go }) => {
	await open(page, go, 401);
	const chest = await field(page, "measure:chest").innerText();
	assert.match(chest, /21 1\/2 in \(54\.6 cm\)/);
	assert.match(chest, /flat/);
	assert.match(chest, /chest twenty one and a half/);
	assert.match(chest, /\d\d % sure/);
	assert.match(chest, /at \d\d:\d\d:\d\d/);
	assert.match(await field(page, "measure:sleeve").innerText(), /Not measured/);
});

atDesk("any call plays", async ({ page, go }) => {
	await open(page, go, 401);
	await field(page, "measure:length").getByRole("button", { name: "Play" }).focus();
	await page.keyboard.press("Enter");
	await page.waitForFunction(() => {
		const player = document.getElementById("player");
		return player.readyState >= HTMLMediaElement.HAVE_CURRENT_DATA && player.duration > 0.5;
	});
	assert.equal(await page.evaluate(() => document.getElementById("player").error), null);
});

atDesk("a correction reaches write-up, sketch and history, with who and when", async ({ page, go }) => {
	const item = await open(page, go, 401);
	const sketch = await page.getAttribute(".sketch img", "src");
	await page.evaluate(() => localStorage.setItem("who", "Mara"));
	await correct(page, "measure:chest", "22 1/4");
	await page.waitForFunction(() => document.querySelector(".writeup-text").textContent.includes("22 1/4 in"));
	assert.match(await said(page), /22 1\/4/);
	await page.waitForFunction((was) => document.querySelector(".sketch img")?.getAttribute("src") !== was, sketch);
	await page.waitForFunction(() => document.querySelector(".sketch img").naturalWidth > 0);
	await field(page, "measure:chest").locator("summary").click();
	const history = await field(page, "measure:chest").locator(".history li").allInnerTexts();
	assert.match(history[0], /22 1\/4.*Mara.*at the desk/);
	assert.match(history.at(-1), /21 1\/2.*by voice/);
	const now = await api(page, `/api/item/${item}`);
	assert.equal(now.fields.find((one) => one.field === "measure:chest").value, "22 1/4");
});

atDesk("nonsense is refused beside the box, and stays in it", async ({ page, go }) => {
	await open(page, go, 401);
	await correct(page, "measure:chest", "a lot");
	await page.waitForSelector(".typing .wrong:not(:empty)");
	assert.equal(await page.inputValue(".typing input"), "a lot");
	assert.equal(await page.getAttribute(".typing input", "aria-invalid"), "");
	assert.ok(await page.evaluate(() => document.activeElement.matches(".typing input")));
	await page.keyboard.press("Escape");
	assert.match(await field(page, "measure:chest").innerText(), /21 1\/2/);
});

atDesk("a doubt asks as at the station, and one Enter too many writes nothing", async ({ page, go }) => {
	await open(page, go, 401);
	await correct(page, "measure:chest", "54");
	await page.waitForSelector("dialog[open]");
	assert.match(await page.innerText("dialog"), /fifty four|54/);
	await page.keyboard.press("Enter");
	await page.waitForSelector("dialog", { state: "detached" });
	assert.equal(await page.inputValue(".typing input"), "54");
	assert.match(await field(page, "measure:chest").innerText(), /21 1\/2/);
	await page.locator(".typing input").press("Enter");
	await page.waitForSelector("dialog[open]");
	await page.getByRole("button", { name: /54 cm/ }).focus();
	await page.keyboard.press("Enter");
	await page.waitForFunction(() =>
		document.querySelector("[data-field='measure:chest'] .value").textContent.includes("54 cm"));
});

atDesk("a note is heard and written out", async ({ page, go }) => {
	const item = await open(page, go, 401);
	await page.getByRole("button", { name: "Play the note" }).first().click();
	await page.waitForFunction(() => document.getElementById("player").duration > 1);
	await page.getByRole("button", { name: "Write it out" }).first().click();
	await page.keyboard.type("The lining was sewn in by hand.");
	await page.keyboard.press("Control+Enter");
	await page.waitForSelector(".note-text");
	assert.equal(await page.innerText(".note-text"), "The lining was sewn in by hand.");
	const now = await api(page, `/api/item/${item}`);
	assert.equal(now.notes[0].text, "The lining was sewn in by hand.");
});

atDesk("an off-list word is typed once, and the list has it", async ({ page, go }) => {
	await open(page, go, 401);
	for (let i = 0; i < 9 && await page.getAttribute(".matter", "data-reason") !== "word"; i++)
		await page.keyboard.press("n");
	await page.keyboard.press("e");
	await page.locator(".typing input").fill("barnacle and sons");
	await page.keyboard.press("Enter");
	await page.waitForFunction(() =>
		document.querySelector("[data-field=maker] .value")?.textContent.includes("barnacle and sons"));
	assert.deepEqual((await api(page, "/api/lists")).maker.slice(-1), ["barnacle and sons"]);
	assert.match(await page.textContent(".writeup-text") + await page.textContent(".writeup-title"),
		/barnacle and sons/i);
});

atDesk("what was not said can be written, and struck again", async ({ page, go }) => {
	await open(page, go, 402);
	await page.getByRole("button", { name: "Price", exact: true }).focus();
	await page.keyboard.press("Enter");
	await page.locator(".typing input").fill("18.50");
	await page.keyboard.press("Enter");
	await field(page, "price").locator(".value", { hasText: "18.50" }).waitFor();
	assert.ok(await page.evaluate(() => document.activeElement.closest("[data-field=price]") !== null),
		"the focus is where it was written");
	await field(page, "price").getByRole("button", { name: "Strike" }).focus();
	await page.keyboard.press("Enter");
	await page.waitForFunction(() =>
		!document.querySelector("[data-field=price] .value")?.textContent.includes("18.50"));
	await page.keyboard.press("u");
	await field(page, "price").locator(".value", { hasText: "18.50" }).waitFor();
});

atDesk("an item is set aside and closed again", async ({ page, go }) => {
	const item = await open(page, go, 3);
	await page.getByRole("button", { name: "Set it aside" }).click();
	await page.getByRole("button", { name: "Close it as done" }).waitFor();
	assert.equal((await api(page, `/api/item/${item}`)).state, "set aside");
	await page.getByRole("button", { name: "Close it as done" }).click();
	await page.getByRole("button", { name: "Set it aside" }).waitFor();
});

atDesk("an item that there is not says so", async ({ page, errors }, desk) => {
	await page.goto(`${desk.base}/item/999999`);
	assert.match(await page.innerText("body"), /no such item/i);
	errors.splice(0, errors.length, ...errors.filter((error) => !error.includes("404")));
});
