/* Light or dark, before anything is painted. A classic script in the head, not a module: modules
 * run too late for that. The switch of the header tells it through window.deskTheme. */
(function () {
	"use strict";

	const system = window.matchMedia("(prefers-color-scheme: dark)");

	/* "light", "dark", or null: as the system has it. */
	function chosen() {
		try {
			const kept = localStorage.getItem("theme");
			return kept === "light" || kept === "dark" ? kept : null;
		} catch {
			return null;
		}
	}

	let choice = chosen();

	function show() {
		document.documentElement.dataset.theme = choice ?? (system.matches ? "dark" : "light");
	}

	system.addEventListener("change", show);
	window.addEventListener("storage", (event) => {
		if (event.key === "theme") {
			choice = chosen();
			show();
		}
	});
	window.deskTheme = {
		choice: () => choice ?? "system",
		choose(theme) {
			choice = theme === "light" || theme === "dark" ? theme : null;
			try {
				if (choice === null)
					localStorage.removeItem("theme");
				else
					localStorage.setItem("theme", choice);
			} catch {
				/* It holds for this page, then. */
			}
			show();
		},
	};
	show();
})();
