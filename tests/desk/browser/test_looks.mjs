// Looks: WCAG 2.2 AA as far as axe-core can tell, in both themes and at both widths; room, targets
// and focus besides.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { axeSource, itemOf, openTab, startDesk } from "./desk.mjs";

const axe = readFileSync(axeSource, "utf8");
const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
const WIDTHS = [[360, 740], [1920, 1080]];

async function complaints(page) {
	await page.evaluate(axe);
	const found = await page.evaluate((rules) => window.axe.run(document, { runOnly: rules }), RULES);
	assert.ok(found.passes.length > 10, "axe looked at the page");
	return found.violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.html.slice(0, 120)).join(" | ")}`);
}

// Controls that are smaller than 24 by 24 and are not links in a line of text (WCAG 2.5.8).
const smallOnes = (page) => page.evaluate(() =>
	[...document.querySelectorAll("a, button, input, select, textarea, summary")].filter((element) => {
		const box = element.getBoundingClientRect();
		if (box.width === 0 || element.matches(".skip") || getComputedStyle(element).display === "inline")
			return false;
		return box.width < 24 || box.height < 24;
	}).map((element) => element.outerHTML.slice(0, 100)));

// Goes round all that Tab reaches: each shows that it has the focus, and none is covered.
async function walk(page) {
	const faults = [];
	for (let i = 0; i < 60; i++) {
		await page.keyboard.press("Tab");
		const fault = await page.evaluate(() => {
			const element = document.activeElement;
			if (element === document.body)
				return "end";
			const style = getComputedStyle(element);
			const box = element.getBoundingClientRect();
			if (style.outlineStyle === "none" || parseFloat(style.outlineWidth) < 2)
				return `no focus to be seen: ${element.outerHTML.slice(0, 100)}`;
			const x = Math.min(Math.max(box.left + box.width / 2, 1), innerWidth - 1);
			const y = Math.min(Math.max(box.top + Math.min(box.height / 2, 20), 1), innerHeight - 1);
			const there = document.elementFromPoint(x, y);
			return there === null || !(element.contains(there) || there.contains(element) ||
				element.labels?.[0]?.contains(there)) ? `covered: ${element.outerHTML.slice(0, 100)}` : null;
		});
		if (fault === "end")
			break;
		if (fault !== null)
			faults.push(fault);
	}
	return faults;
}

for (const colorScheme of ["light", "dark"])
	for (const [width, height] of WIDTHS)
		test(`the pages are fit for all, ${colorScheme}, ${width} px wide`, async () => {
			const desk = await startDesk();
			try {
				const tab = await openTab(desk,
					{ viewport: { width, height }, colorScheme, bypassCSP: true, reducedMotion: "reduce" });
				const { page } = tab;
				const item = await itemOf(page, 401);
				for (const path of ["/queue", `/item/${item}`, "/search", "/search?maker=hallowick", "/figures", "/help"]) {
					await tab.go(path);
					assert.deepEqual(await complaints(page), [], path);
					assert.deepEqual(await smallOnes(page), [], `${path}: targets`);
					const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
					assert.ok(wide <= 0, `${path} runs ${wide} px past the window`);
					assert.deepEqual(await walk(page), [], path);
				}
				// With a box open, and with dialogs.
				await tab.go(`/item/${item}`);
				await page.locator("[data-field='measure:chest']").getByRole("button", { name: /^Correct/ }).click();
				await page.locator(".typing input").fill("54");
				assert.deepEqual(await complaints(page), [], "a box");
				await page.keyboard.press("Enter");
				await page.waitForSelector("dialog[open]");
				assert.deepEqual(await complaints(page), [], "a question");
				await page.keyboard.press("Escape");
				await page.locator(".typing input").press("Escape");
				await page.keyboard.press("?");
				await page.waitForSelector("dialog[open]");
				assert.deepEqual(await complaints(page), [], "settings");
				assert.deepEqual(tab.errors, []);
				await tab.context.close();
			} finally {
				await desk.stop();
			}
		});

test("the switch changes the looks, and they stay so", async () => {
	const desk = await startDesk();
	try {
		const tab = await openTab(desk, { colorScheme: "light" });
		const paper = () => tab.page.evaluate(() => getComputedStyle(document.body).backgroundColor);
		const light = await paper();
		await tab.page.getByRole("button", { name: "Dark looks" }).click();
		const dark = await paper();
		assert.notEqual(light, dark);
		await tab.go("/figures");
		assert.equal(await paper(), dark);
		await tab.page.getByRole("button", { name: "Light looks" }).click();
		assert.equal(await paper(), light);
		await tab.context.close();
	} finally {
		await desk.stop();
	}
});

test("measures are told apart by shape and word, without colour", async () => {
	const desk = await startDesk();
	try {
		const tab = await openTab(desk, { forcedColors: "active" });
		await tab.go(`/item/${await itemOf(tab.page, 401)}`);
		const shapes = await tab.page.locator(".shape").evaluateAll((all) =>
			all.map((one) => [one.querySelector("use").getAttribute("href").split("#")[1], one.textContent]));
		assert.ok(shapes.length >= 3);
		for (const [shape, word] of shapes)
			assert.equal(shape, word);
		assert.ok(new Set(shapes.map(([shape]) => shape)).size >= 2);
		await tab.context.close();
	} finally {
		await desk.stop();
	}
});
