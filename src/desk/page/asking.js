/* Questions that come up when something is written: a doubt, and somebody else's change. */
import { make, said } from "./element.js";

let counter = 0;

/* Shows a dialog with `content` and one button for each of `answers` ({ words, answer, main }), the
 * first with the focus. Resolves with the answer chosen, or null (escape). */
export function askDialog(heading, content, answers) {
	return new Promise((resolve) => {
		const id = `dialog-${++counter}`;
		let answer = null;
		const dialog = make("dialog", { "aria-labelledby": id, class: "asking" },
			make("h2", { id }, heading),
			content,
			make("div", { class: "row" }, answers.map((one, index) =>
				make("button", {
					type: "button",
					autofocus: index === 0,
					class: one.main ? "main" : null,
					onclick: () => {
						answer = one.answer;
						dialog.close();
					},
				}, one.words))));
		dialog.addEventListener("close", () => {
			dialog.remove();
			resolve(answer);
		});
		document.body.append(dialog);
		dialog.showModal();
	});
}

/* A value that few garments have, or none. Resolves with "sure", "second" or null. The button that
 * writes nothing has the focus: a second Enter does not push a doubt aside. */
export function askDoubt(answer) {
	const answers = [{ words: "Go back", answer: null }];
	if (answer.second)
		answers.push({
			words: ["Write ", said(answer.second.choice ?? answer.second.value), " instead"],
			answer: "second", main: true,
		});
	answers.push({ words: "It is so: write it as it is", answer: "sure" });
	return askDialog("Is that right?", make("p", { class: "question" }, said(answer.error)), answers);
}

/* Somebody else changed the value meanwhile. Resolves with "mine", "theirs" or null (neither: what
 * was typed stays in its box). */
export function askConflict(sentence, theirs, mine) {
	return askDialog("It was changed meanwhile",
		make("div", {},
			make("p", {}, said(sentence)),
			make("dl", { class: "both" },
				make("dt", {}, "Stands now"), make("dd", {}, said(theirs)),
				make("dt", {}, "Yours"), make("dd", {}, said(mine === "" ? "nothing" : mine)))),
		[
			{ words: "Keep what stands now", answer: "theirs" },
			{ words: "Write mine", answer: "mine", main: true },
			{ words: "Go back", answer: null },
		]);
}
