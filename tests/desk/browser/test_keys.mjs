// Single keys, where they must not act and how they are turned off (WCAG 2.1.4), and where the focus
// goes.
import assert from "node:assert/strict";
import { api, atDesk, said } from "./desk.mjs";

const changes = (page) => page.evaluate(() => (JSON.parse(sessionStorage.getItem("undo")) ?? []).length);

atDesk("keys do nothing while something is typed", async ({ page, go }) => {
	await go("/search");
	const looked = (await api(page, "/api/queue")).looked;
	await page.focus("#find-q");
	await page.keyboard.type("pcesnbu12?/o");
	assert.equal(await page.inputValue("#find-q"), "pcesnbu12?/o");
	assert.equal(await page.locator("dialog").count(), 0);
	await go("/queue");
	await page.keyboard.press("/");
	await page.waitForURL(/search/);
	assert.equal((await api(page, "/api/queue")).looked, looked);
});

atDesk("keys do nothing with a modifier", async ({ page }) => {
	const heading = await page.textContent(".current h1");
	for (const key of ["Control+c", "Alt+n", "Meta+s", "Control+e"])
		await page.keyboard.press(key);
	assert.equal(await page.textContent(".current h1"), heading);
	assert.equal(await changes(page), 0);
	assert.equal(await page.locator(".typing").count(), 0);
});

atDesk("keys can be turned off, by keyboard, and stay off", async ({ page, go }) => {
	await page.keyboard.press("?");
	await page.waitForSelector("dialog[open]");
	await page.getByLabel("Single keys").focus();
	await page.keyboard.press("Space");
	await page.keyboard.press("Escape");
	await page.waitForSelector("dialog", { state: "detached" });
	const heading = await page.textContent(".current h1");
	for (const key of ["n", "c", "s", "e", "?"])
		await page.keyboard.press(key);
	assert.equal(await page.textContent(".current h1"), heading);
	assert.equal(await page.locator(".typing, dialog").count(), 0);
	assert.ok(!(await page.isVisible(".bar .key")), "no button names a key that is off");
	await go("/queue");
	await page.keyboard.press("n");
	assert.equal(await page.textContent(".current h1"), heading);
	// All of it is reached by Tab and Enter all the same.
	await page.getByRole("button", { name: "Next", exact: true }).focus();
	await page.keyboard.press("Enter");
	await page.waitForFunction((was) => document.querySelector(".current h1").textContent !== was ||
		document.querySelector("#said p") !== null, heading);
});

atDesk("keys do nothing behind a dialog", async ({ page }) => {
	await page.keyboard.press("?");
	await page.waitForSelector("dialog[open]");
	await page.keyboard.press("n");
	await page.keyboard.press("s");
	assert.equal(await changes(page), 0);
	await page.keyboard.press("Escape");
});

atDesk("the focus comes back from a box that is left", async ({ page }) => {
	for (let i = 0; i < 60; i++) {
		if (await page.getAttribute("button[aria-keyshortcuts=e]", "aria-disabled") === null)
			break;
		await page.keyboard.press("n");
		await page.waitForTimeout(30);
	}
	await page.keyboard.press("e");
	await page.waitForSelector(".typing");
	await page.keyboard.press("Escape");
	assert.equal(await page.evaluate(() => document.activeElement.getAttribute("aria-keyshortcuts")), "e");
});

atDesk("what an action did is announced", async ({ page }) => {
	assert.equal(await page.getAttribute("#said", "role"), "status");
	await page.keyboard.press("b");
	await page.waitForFunction(() => document.querySelector("#said p") !== null);
	assert.equal(await said(page), "This is the first one.");
});

atDesk("the secret does not stay in the address", async ({ page }) => {
	assert.ok(!page.url().includes("key="), page.url());
});
