#!/bin/sh
# Runs the tests of the desk's pages in Chromium; says what is missing where they cannot run.
set -eu
skip() {
	echo "skipped: $1"
	exit 77
}
command -v node >/dev/null || skip "node is not installed"
[ -x "${LAPEL_CHROMIUM:=/usr/bin/chromium}" ] || skip "chromium is not installed"
[ -d "$LAPEL_BROWSER_PACKAGES/node_modules/playwright-core" ] ||
	skip "playwright-core is not there: tests/setup fetches it with npm"
[ -d "$LAPEL_BROWSER_PACKAGES/node_modules/axe-core" ] ||
	skip "axe-core is not there: tests/setup fetches it with npm"
export LAPEL_CHROMIUM
exec node "$(dirname "$0")/all.mjs"
