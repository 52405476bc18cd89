/* How the desk is used, with its keys and settings. */
import { make, replace } from "./element.js";
import { addKeys } from "./keys.js";
import { REVIEW_KEYS } from "./review.js";
import { keyList, settings } from "./settings_view.js";
import { REASONS, reasonMark, shapeMark } from "./wording.js";

const MEANINGS = {
	doubt: "asked at the station and never answered: nothing is written",
	confirmed: "doubted at the station, and said to be so",
	implausible: "stands, though few garments are so",
	missing: "the kind calls for it, and it was not measured",
	note: "spoken, and to be written out",
	word: "a word that is on no list: typed once, the list learns it",
	refused: "close to a call, but not close enough to be taken",
	rest: "nothing asks for a look, and nobody looked yet",
	looked: "looked over, and nothing more is asked",
};

const TAPES = {
	flat: "across, from edge to edge: the way round is twice as much",
	straight: "from point to point",
	round: "all the way round",
};

function meanings(title, rows) {
	return make("section", {}, make("h2", {}, title), make("dl", { class: "meanings" },
		rows.flatMap(([term, words]) => [make("dt", {}, term), make("dd", {}, words)])));
}

export async function showHelp(main) {
	document.title = "Help · lapel";
	/* To be read here; they do nothing on this page. */
	addKeys("Going through", [...REVIEW_KEYS, { key: "o", words: "open the item" }]);
	replace(main, make("div", { class: "help-page" },
		make("section", { class: "sheet" }, make("h1", {}, "The desk"),
			make("p", {}, "The queue brings up what needs a look, one item after the other. Listen with P. " +
				"Confirm with C what is right; correct with E what is not; 1 to 5 take what else it may have " +
				"been; strike with S what should not stand. N goes on, and after the last matter of an item it " +
				"counts as looked over. U takes the last change back, as often as you like."),
			make("p", {}, "Nothing that was written is lost: what was replaced or struck stays in the history " +
				"of the value, on the item's own page.")),
		make("div", { class: "sheet" }, meanings("Why something wants a look",
			Object.keys(REASONS).map((reason) => [reasonMark(reason), MEANINGS[reason]]))),
		make("div", { class: "sheet" }, meanings("How the tape lies",
			Object.entries(TAPES).map(([shape, words]) => [shapeMark(shape), words]))),
		make("section", { class: "sheet" }, make("h2", {}, "Settings"), settings()),
		make("section", { class: "sheet" }, make("h2", {}, "Keys"), keyList(),
			make("p", { class: "soft" }, "They do nothing while you type, and with Ctrl or Alt."))));
	return { changed() {} };
}
