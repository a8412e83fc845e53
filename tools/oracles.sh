#!/bin/sh
# Installs the outside programs that tests check against, where they are
# missing and this is a Debian machine with root. Elsewhere it lists them.
set -eu
missing=""
need() { command -v "$1" >/dev/null 2>&1 || missing="$missing $2"; }
need ngspice ngspice
need cadical cadical
need minisat minisat
need units units
need pdftotext poppler-utils
need zbarimg zbar-tools
need chromium chromium
need firefox-esr firefox-esr
need node nodejs
# The page's types are checked by tsc, from the npm registry where npm is.
if ! command -v tsc >/dev/null 2>&1 && command -v npm >/dev/null 2>&1 && [ "$(id -u)" = 0 ]; then
	npm install --global --no-audit --no-fund typescript@5
fi
[ -z "$missing" ] && exit 0
if command -v apt-get >/dev/null 2>&1 && [ "$(id -u)" = 0 ]; then
	echo "installing outside checks:$missing"
	DEBIAN_FRONTEND=noninteractive
	export DEBIAN_FRONTEND
	apt-get update -q
	# shellcheck disable=SC2086
	apt-get install -y -q --no-install-recommends $missing
else
	echo "not installed, so not checked against (on Debian: apt-get install$missing)"
	[ "${CI:-}" = true ] && exit 1
	exit 0
fi
