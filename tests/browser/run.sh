#!/bin/sh
# run.sh QUELL ROOT MODULES [--shots DIR]: page.mjs where Chromium is found; ends with 77, skipped, where it is not.
# ./dev browser installs what is missing.
set -eu
quell=$1
root=$2
modules=$3
skip() {
    echo "skipped: $1; ./dev browser installs it"
    exit 77
}
CHROMIUM=$(command -v chromium || command -v chromium-browser || true)
[ -n "$CHROMIUM" ] || skip "there is no chromium"
export CHROMIUM
command -v node >/dev/null || skip "there is no node"
command -v pdftotext >/dev/null || skip "there is no pdftotext (poppler-utils)"
[ -d "$modules/node_modules/axe-core" ] || skip "there is no axe-core in $modules"
if [ "${4:-}" = --shots ]; then
    mkdir -p "$5"
    exec node "$root/tests/browser/page.mjs" "$modules" "$quell" "$root" "$5" --shots
fi
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
node "$root/tests/browser/page.mjs" "$modules" "$quell" "$root" "$work"
