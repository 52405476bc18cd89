/* The figures of a day. */
import { make, replace } from "./element.js";
import { read } from "./server.js";
import { capital, duration } from "./wording.js";

function table(caption, rows) {
	return make("table", { class: "figures" }, make("caption", {}, caption),
		make("tbody", {}, rows.filter((row) => row !== null).map(([words, value]) => make("tr", {},
			make("th", { scope: "row" }, words), make("td", {}, String(value))))));
}

function share(part, whole) {
	return whole > 0 ? `${part} (${Math.round(100 * part / whole)} %)` : String(part);
}

export async function showFigures(main, first) {
	const wanted = new URLSearchParams(location.search).get("day");
	let figures = first ?? await read(`/api/figures${wanted ? `?day=${encodeURIComponent(wanted)}` : ""}`);
	document.title = "Figures · lapel";

	const place = make("div", { class: "figures-place" });
	const pick = make("select", { id: "day", onchange: () => choose(pick.value) });

	function draw() {
		const items = figures.items ?? {};
		if (!figures.day) {
			replace(place, make("p", {}, "Nothing was dictated yet."));
			return;
		}
		const prices = figures.prices ?? {};
		const worked = figures.worked_ms ?? 0;
		const routes = Object.entries(figures.routes ?? {});
		replace(place,
			table("Items", [
				["Opened", items.opened ?? 0], ["Done", items.done ?? 0], ["Set aside", items["set aside"] ?? 0],
				["Looked over at the desk", figures.looked ?? 0],
			]),
			table("Said", [
				["Calls", figures.calls], ["Doubted", share(figures.doubted, figures.calls)],
				["Refused", share(figures.refused, figures.calls)], ["Taken back", figures.struck],
				["Readings", figures.readings], ["Flaws", figures.flaws],
				["Changes at the desk", figures.desk?.calls ?? 0],
			]),
			table("Time", [
				["Dictated", duration(worked)],
				items.done > 0 && worked > 0 ? ["For each item done", duration(worked / items.done)] : null,
			]),
			routes.length === 0 ? null : table("Where they go",
				routes.map(([route, number]) => [route === "" ? "Not said yet" : capital(route), number])),
			table("Prices", [
				["Items with a price", prices.items ?? 0], ["Sum wanted", prices.sum ?? "none"],
				["Sum of costs", prices.cost ?? "none"],
			]));
	}

	async function choose(day) {
		figures = await read(`/api/figures?day=${encodeURIComponent(day)}`);
		history.replaceState(null, "", `/figures?day=${encodeURIComponent(day)}`);
		draw();
	}

	replace(pick, (figures.days ?? []).map((day) => make("option", { value: day }, day)));
	if (figures.day)
		pick.value = figures.day;
	replace(main, make("div", { class: "sheet figures-page" },
		make("div", { class: "row spread" }, make("h1", {}, "Figures of the day"),
			(figures.days ?? []).length === 0 ? null :
				make("div", { class: "row" }, make("label", { for: "day" }, "Day"), pick)),
		place,
		make("p", { class: "soft" },
			"Figures of somebody's work are theirs first: whether they may be looked at is regulated in many places.")));
	draw();

	return {
		async changed() {
			figures = await read(`/api/figures?day=${encodeURIComponent(figures.day ?? "")}`);
			draw();
		},
	};
}
