/* What is asked of the server and told to it. Errors of both kinds carry a sentence to show. */

export class Refusal extends Error {
	constructor(status, answer) {
		super(answer.error ?? "The desk answered with something else than its answer.");
		this.status = status;
		this.answer = answer;
	}
}

async function answerOf(response) {
	let answer;
	try {
		answer = await response.json();
	} catch {
		answer = {};
	}
	if (!response.ok)
		throw new Refusal(response.status, answer);
	return answer;
}

async function ask(address, options) {
	let response;
	try {
		response = await fetch(address, options);
	} catch {
		throw new Refusal(0, {
			error: "The desk does not answer: is lapel desk still running? Nothing was changed.",
		});
	}
	return answerOf(response);
}

export function read(address) {
	return ask(address, { headers: { Accept: "application/json" } });
}

/* Who sits at the desk: told with every change, shown in the history. */
export function who() {
	try {
		return localStorage.getItem("who") ?? "";
	} catch {
		return "";
	}
}

export function setWho(name) {
	try {
		localStorage.setItem("who", name.trim().slice(0, 60));
	} catch {
		/* Then nobody is told. */
	}
}

export function write(action, body) {
	const name = who();
	return ask(`/api/${action}`, {
		method: "POST",
		headers: { "Content-Type": "application/json", Accept: "application/json" },
		body: JSON.stringify(name === "" ? body : { ...body, who: name }),
	});
}

/* What the server put into the page beside it, once; null where there is none. */
export function firstAnswer() {
	const data = document.getElementById("data");
	if (data === null)
		return null;
	data.remove();
	try {
		return JSON.parse(data.textContent);
	} catch {
		return null;
	}
}

/* Follows the records: `changed({ items, more })` for each change, by whomever; `following(bool)`
 * as the line comes and goes. What happened while it was down is told as "more". */
export function follow(changed, following) {
	const events = new EventSource("/events");
	let version = null;
	events.addEventListener("hello", (event) => {
		const before = version;
		version = JSON.parse(event.data).version;
		following(true);
		if (before !== null && before !== version)
			changed({ items: [], more: true });
	});
	events.addEventListener("change", (event) => changed(JSON.parse(event.data)));
	events.addEventListener("error", () => following(false));
	window.addEventListener("pagehide", () => events.close());
}
