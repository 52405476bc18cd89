/* Changes: one after the other, each can be undone, and each is told. */
import { announce } from "./announce.js";
import { askConflict, askDoubt } from "./asking.js";
import { Refusal, write } from "./server.js";

const UNDO_MOST = 200;
const KEPT_AS = "undo";

let last = Promise.resolve();

/* Handles of what was done in this tab, the newest last: { call, said, item }. */
function done() {
	try {
		return JSON.parse(sessionStorage.getItem(KEPT_AS)) ?? [];
	} catch {
		return [];
	}
}

function keep(list) {
	try {
		sessionStorage.setItem(KEPT_AS, JSON.stringify(list.slice(-UNDO_MOST)));
	} catch {
		/* Then it cannot be undone from here; the history can. */
	}
	for (const watcher of watchers)
		watcher(list.at(-1) ?? null);
}

const watchers = new Set();

/* Tells the newest thing that can be undone, or null, now and whenever that changes. */
export function watchUndo(watcher) {
	watchers.add(watcher);
	watcher(done().at(-1) ?? null);
}

function inTurn(work) {
	const result = last.then(work);
	last = result.catch(() => {});
	return result;
}

/* What a conflict's answer says of the value as it stands now. */
function fieldNow(answer) {
	const field = answer.field;
	return {
		shown: field ? field.written || field.value || "nothing" : "something else",
		expect: field?.entry ?? 0,
	};
}

/* Resolves when all that was asked for is written, or was refused. */
export function settled() {
	return last;
}

/* Sends it until it is written or given up; asks where it must. */
async function send(action, body, { typed = null, now = fieldNow } = {}) {
	for (;;) {
		try {
			return await write(action, body);
		} catch (refusal) {
			if (!(refusal instanceof Refusal))
				throw refusal;
			const answer = refusal.answer;
			if (answer.doubt) {
				const choice = await askDoubt(answer);
				if (choice === null)
					return null;
				if (choice === "sure") {
					body = { ...body, sure: true };
				} else if (action === "edit") {
					body = { ...body, value: answer.second.value, sure: true };
				} else {
					action = "choose";
					body = { ...body, choice: answer.second.choice, sure: true };
				}
			} else if (answer.conflict && typed !== null) {
				const theirs = now(answer);
				const choice = await askConflict(answer.error, theirs.shown, typed);
				if (choice === null)
					return { unwritten: true, item: answer.item ?? null, expect: theirs.expect };
				if (choice === "theirs")
					return { theirs: true, item: answer.item ?? null };
				body = { ...body, expect: theirs.expect };
			} else {
				throw refusal;
			}
		}
	}
}

/* Does it when what came before is done. `conflict.typed` is what is shown beside another's value
 * when there is one; without it a conflict is a refusal. Resolves with the answer (`item` is the
 * item as it then is; `theirs`: the other's value was kept; `unwritten`: neither was chosen), or
 * null when it was given up. Rejects with a Refusal. */
export function perform(action, body, conflict = {}) {
	return inTurn(async () => {
		const answer = await send(action, body, conflict);
		if (answer !== null && answer.call)
			keep([...done(), {
				call: answer.call, said: answer.said, item: answer.item?.item ?? body.item ?? null,
			}]);
		return answer;
	});
}

/* Takes the newest back. Resolves with { item, undone } or null when there is nothing. */
export function undo() {
	return inTurn(async () => {
		const list = done();
		const newest = list.pop();
		if (newest === undefined) {
			announce("Nothing to undo.");
			return null;
		}
		try {
			const answer = await write("undo", { call: newest.call });
			keep(list);
			return { item: answer.item ?? null, number: newest.item, undone: newest.said };
		} catch (refusal) {
			/* What cannot be undone any more must not block what came before it. */
			if (refusal instanceof Refusal && refusal.status !== 0 && refusal.status !== 503)
				keep(list);
			throw refusal;
		}
	});
}

/* Shows what went wrong; anything but a refusal is a mistake of ours and goes on. */
export function tellRefusal(error) {
	if (!(error instanceof Refusal))
		throw error;
	announce(error.message, { wrong: true });
}
