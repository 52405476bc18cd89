/* The one player. Asked for what it is playing, it stops. */
import { announce } from "./announce.js";

const watchers = new Set();
let playing = null; /* the address of what is being played */

function player() {
	return document.getElementById("player");
}

function tell() {
	for (const watcher of watchers)
		watcher(playing);
}

function ended() {
	playing = null;
	tell();
}

export function startPlayer() {
	const audio = player();
	audio.addEventListener("ended", ended);
	audio.addEventListener("error", () => {
		if (playing === null)
			return;
		ended();
		announce("This sound cannot be played: it may no longer be kept.", { wrong: true });
	});
}

export function stop() {
	player().pause();
	if (playing !== null)
		ended();
}

export function play(address) {
	const audio = player();
	if (playing === address) {
		stop();
		return;
	}
	playing = address;
	audio.src = address;
	audio.play().catch((error) => {
		/* Another sound took its place, or the browser wants a key or a click first. */
		if (error.name === "AbortError" || playing !== address)
			return;
		if (error.name === "NotAllowedError")
			ended();
	});
	tell();
}

/* `watcher` is called with the address of what plays, or null, until the function that it returns
 * is called. */
export function watchPlaying(watcher) {
	watchers.add(watcher);
	watcher(playing);
	return () => watchers.delete(watcher);
}
