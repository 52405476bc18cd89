/* What one desk keeps for itself, in the browser. */

export function playsByItself() {
	try {
		return localStorage.getItem("plays by itself") === "on";
	} catch {
		return false;
	}
}

export function setPlaysByItself(on) {
	try {
		if (on)
			localStorage.setItem("plays by itself", "on");
		else
			localStorage.removeItem("plays by itself");
	} catch {
		/* Then it stays silent until P is pressed. */
	}
}
