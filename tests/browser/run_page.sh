#!/bin/sh
# run_page.sh QUELL ROOT: web/test, the page in Chromium as quell serves it and as one file; ends with 77, skipped, where
# ./dev web has not made it of these sources, or there is no Chromium.
set -eu
QUELL=$1
ROOT=$2
PAGE=$ROOT/build/web/quell.html
skip() {
    echo "skipped: $1"
    exit 77
}
CHROMIUM=$(command -v chromium || command -v chromium-browser || true)
[ -n "$CHROMIUM" ] || skip "there is no chromium; ./dev browser installs it"
command -v node >/dev/null || skip "there is no node"
[ -r "$PAGE" ] && [ -d "$ROOT/web/node_modules" ] || skip "there is no build/web/quell.html; ./dev web makes it"
[ -z "$(find "$ROOT/web/src" "$ROOT/src" "$ROOT/data" "$ROOT/include" -type f -newer "$PAGE" -print -quit)" ] || skip "build/web/quell.html is older than the sources"
export QUELL CHROMIUM
exec node --test "$ROOT/web/test/"
