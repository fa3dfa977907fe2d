#!/bin/sh
# pdf.sh QUELL TEST_REPORT ROOT: reports as PDF, read back with poppler's tools, which know nothing of us.
set -eu
quell=$1
test_report=$2
root=$3
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
fail=0
complain() {
    echo "$1"
    fail=1
}
export SOURCE_DATE_EPOCH=1769860800

# The figures of --json, in print.
"$quell" report "$root/tests/cli/flats.json" --catalogue "$root/tests/cli/valves.json" -o "$work/a.pdf"
pdftotext -layout "$work/a.pdf" "$work/a.txt"
"$test_report" figures "$work/a.txt" || complain "figures differ"
pdfinfo "$work/a.pdf" | grep -q '^Tagged: *yes' || complain "the PDF is not tagged"
pdfinfo "$work/a.pdf" | grep -q '^Page size: *612 x 792' || complain "US pages are not Letter"
[ "$(wc -c <"$work/a.pdf")" -lt 1000000 ] || complain "the PDF is over 1 MB"

# Same input, same bytes; nothing is left behind beside it.
"$quell" report "$root/tests/cli/flats.json" --catalogue "$root/tests/cli/valves.json" -o "$work/b.pdf"
cmp "$work/a.pdf" "$work/b.pdf" || complain "the same input gave other bytes"
[ "$(ls -A "$work" | wc -l)" -eq 3 ] || complain "something is left behind: $(ls -A "$work")"

# SI comes on A4, in Spanish if asked for.
"$quell" report "$root/tests/cli/flats.json" --units si --language es -o "$work/c.pdf"
pdfinfo "$work/c.pdf" | grep -q 'A4' || complain "SI pages are not A4"
pdftotext "$work/c.pdf" - | grep -q 'Hoja de puesta en servicio' || complain "no Spanish"

# 40 outlets run on to the next page with the heads again; odd names do no harm and are whole.
"$test_report" survey >"$work/odd.json"
"$quell" report "$work/odd.json" -o "$work/d.pdf"
pdftotext "$work/d.pdf" "$work/d.txt"
pdftotext -layout "$work/d.pdf" "$work/e.txt"
for i in 1 20 40; do
    grep -q "outlet number $i of" "$work/e.txt" || complain "outlet $i is missing"
done
[ "$(grep -c 'height above the station' "$work/e.txt")" -ge 2 ] || complain "heads are not repeated"
[ "$(tr -d '\n \f' <"$work/d.txt" | grep -o 'NameNameNm' | wc -l)" -ge 14 ] || complain "the name is cut"
"$quell" report "$work/odd.json" -o "$work/d.html"
if grep -q '<script' "$work/d.html"; then complain "a name got into the page"; fi

# A write that fails leaves the old file whole and ends with 3.
ln -s /dev/full "$work/full.pdf"
status=0
"$quell" report "$root/tests/cli/flats.json" -o "$work/full.pdf" 2>"$work/said" || status=$?
[ "$status" -eq 3 ] || complain "a full disk ends with $status"
grep -q 'No space left on device' "$work/said" || complain "said of a full disk: $(cat "$work/said")"
cp "$work/a.pdf" "$work/old.pdf"
status=0
(ulimit -f 8 && trap '' XFSZ && exec "$quell" report "$root/tests/cli/flats.json" -o "$work/old.pdf") \
    2>"$work/said" || status=$?
[ "$status" -eq 3 ] || complain "a disk that fills up ends with $status: $(cat "$work/said")"
cmp "$work/a.pdf" "$work/old.pdf" || complain "the old file is not whole"

# The real thing, where root may mount a small disk.
mkdir "$work/small"
if mount -t tmpfs -o size=64k tmpfs "$work/small" 2>/dev/null; then
    printf 'old' >"$work/small/r.pdf"
    status=0
    "$quell" report "$root/tests/cli/flats.json" -o "$work/small/r.pdf" 2>"$work/said" || status=$?
    [ "$status" -eq 3 ] || complain "a small disk ends with $status"
    [ "$(cat "$work/small/r.pdf")" = old ] || complain "the old file on the small disk is gone"
    [ "$(ls -A "$work/small")" = r.pdf ] || complain "left behind: $(ls -A "$work/small")"
    umount "$work/small"
fi
exit "$fail"
