#!/bin/sh
# check_page.sh ROOT: the page knows nothing of plumbing. Its sources hold no number with a unit of the trade, and no number
# above 2 but in a constant that says by its name what of the screen, the clock, the store or the wire it is.
set -eu
cd "$1"

# found FILE...: lines that break the rule.
found() {
    grep -nHEi '[0-9] ?(psi|kpa|bar|mpa|gpm|gal|l/s|l/min|m3|ft|in\b|mm|dn ?[0-9]|°)' "$@" | grep -vE ':[0-9]+: *(/\*|\*|//)' || true
    grep -nHE '\b([3-9]|[0-9]{2,}|[0-9]+\.[0-9]+)\b' "$@" | grep -vE ':[0-9]+: *(/\*|\*|//)' |
        grep -vE 'const [A-Z_]*(_MS|_BYTES|_STATUS|_MINUTES|SECONDS|SECONDS_A_MINUTE|_AT_MOST|_LETTERS|SHOWN_CAUSES|HOLD_QUICKENS) = ' |
        grep -vE '"SHA-256"|toISOString\(\)\.slice\(0, 16\)|Math\.round\(share \* 100\)|rows=\{3\}' || true
}

planted=$(mktemp --suffix=.ts)
trap 'rm -f "$planted"' EXIT
printf 'const TEXT = "set it to 60 psi";\nconst RATIO = 3;\nconst PAUSE_MS = 120;\nconst one = 1;\n' >"$planted"
[ "$(found "$planted" | wc -l)" -eq 3 ] || {
    echo "planted numbers were not found:"
    found "$planted"
    exit 1
}
sources=$(find web/src -name '*.ts' -o -name '*.tsx')
# shellcheck disable=SC2086  # one word a file
lines=$(found $sources)
[ -z "$lines" ] || {
    echo "$lines"
    exit 1
}
echo "$(echo "$sources" | wc -l) files of the page, no number of plumbing"
