#!/bin/sh
# run.sh QUELL THERE ROOT: the same bytes in any locale, from the program and from a program that has chosen the locale before it
# asks the library (THERE): a decimal comma, letters without the English pair of i and I, a mark of more than one byte. What the
# system says of a file it says in its own words, so no file is missing here.
set -eu
quell=$1
there=$2
root=$3
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
for name in de_DE.UTF-8 tr_TR.UTF-8 ps_AF.UTF-8; do
    localedef -i "${name%.*}" -f UTF-8 "$work/$name" 2>"$work/log" || [ -d "$work/$name" ] || { cat "$work/log"; exit 1; }
done
export LOCPATH="$work"
cd "$root/examples"

# ask PROGRAM FOLDER: what it says and writes, and how it ends.
ask() {
    program=$1
    into=$work/$2
    mkdir -p "$into"
    number=0
    while IFS= read -r line; do
        number=$((number + 1))
        ended=0
        # shellcheck disable=SC2086  # one word per argument
        (cd "$into" && eval "\"$program\" $line") </dev/null >"$into/$number.said" 2>"$into/$number.problems" || ended=$?
        echo "$line: $ended" >>"$into/$number.said"
        [ "$ended" -ne 99 ] || { cat "$into/$number.problems"; exit 1; }
    done <"$work/commands"
    # A PDF says when it was made.
    for pdf in "$into"/*.pdf; do
        LC_ALL=C sed 's/CreationDate ([0-9Z]*)/CreationDate ()/' "$pdf" >"$into/undated"
        mv "$into/undated" "$pdf"
    done
}

cat >"$work/commands" <<END
demand "$root/examples/house/survey.json"
demand --units si --language es "$root/examples/metered/survey.json"
check "$root/examples/hillside/survey.json"
check --json "$root/examples/slam/survey.json"
design --json "$root/examples/house/survey.json"
report "$root/examples/house/survey.json" --of demand --date 2026-03-01 -o house.html
report "$root/examples/house/survey.json" --date 2026-03-01 --units si -o house.pdf
log --units si "$root/examples/pressure-log/night-rise.csv"
log --json "$root/examples/pressure-log/night-rise.csv"
listen --language es "$root/examples/recordings/squeal.flac"
diagnose "$root/examples/night-creep/case.json"
catalogue import "$root/examples/own-catalogue/valves.csv"
catalogue fit --json "$root/examples/own-catalogue/capacity.csv"
catalogue list --units si
describe survey
calc velocity "flow=12,5 gpm" "bore=1 in"
calc velocity "flow=12.5 GPM" "bore=1.25 IN"
calc velocity "FLOW=12.5 gpm" "Bore=1 in"
END
for survey in "$root"/tests/refused/survey/*.json; do
    echo "check --json \"$survey\""
done | awk 'NR % 7 == 1' >>"$work/commands"
LC_ALL=C ask "$quell" plain
failed=0
# look FOLDER: what differs.
look() {
    diff -r "$work/plain" "$work/$1" >"$work/differs" && return
    echo "$1:"
    head -20 "$work/differs"
    failed=1
}
for locale in de_DE.UTF-8:, tr_TR.UTF-8:, ps_AF.UTF-8:٫; do
    export LC_ALL="${locale%:*}"
    ask "$quell" "program.$LC_ALL"
    look "program.$LC_ALL"
    export QUELL_TEST_MARK="${locale#*:}"
    ask "$there" "there.$LC_ALL"
    look "there.$LC_ALL"
done
exit "$failed"
