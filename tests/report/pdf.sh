#!/bin/sh
# pdf.sh QUELL TEST_REPORT TEST_TABLES ROOT: reports as PDF, read back with poppler's tools, which know nothing of us.
set -eu
quell=$1
test_report=$2
test_tables=$3
root=$4
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
fail=0
complain() {
    echo "$1"
    fail=1
}
export SOURCE_DATE_EPOCH=1769860800
survey=$root/tests/cli/flats.json
valves=$root/tests/cli/valves.json

# refused NAME FILE: the report into FILE ends with status 3, on stderr and as JSON, and says why.
refused() {
    status=0
    "$quell" report "$survey" --catalogue "$valves" --json -o "$2" >"$work/told" 2>"$work/said" || status=$?
    [ "$status" -eq 3 ] || complain "$1 ends with $status: $(cat "$work/said")"
    grep -q "^quell: cannot write .*: $3" "$work/said" || complain "said of $1: $(cat "$work/said")"
    grep -q '"code": "no-file"' "$work/told" || complain "told of $1: $(cat "$work/told")"
}

# Letters of 9 pt at least in FILE, by poppler's own reading of it, at 3 dots to the point.
letters() {
    least=$(pdftohtml -xml -i -zoom 3 -stdout "$1" | sed -n 's/.*<fontspec id="[0-9]*" size="\([0-9]*\)".*/\1/p' | sort -n | head -1)
    [ "${least:-0}" -ge 27 ] || complain "letters of $1 are ${least:-0} thirds of a point"
}

# Boxes to write in are thin closed lines around nothing: how many FILE has, and how many are not 10 mm high or less
# than 8 mm wide, in points of the file.
boxes() {
    for page in $(seq 1 "$(pdfinfo "$1" | sed -n 's/^Pages: *//p')"); do
        pdftocairo -svg -f "$page" -l "$page" "$1" "$work/page.svg"
        grep -o '<path style="fill:none;stroke-width:0.85[^>]*Z' "$work/page.svg" || true
    done | sed 's/.* d="M //; s/[LZ]//g' |
        awk '{ count++; wide = $3 - $1; high = $6 - $2
               if (high < 28.34 || wide < 22.67) bad++ } END { print count + 0, bad + 0 }'
    rm -f "$work/page.svg"
}

# The figures of --json, in print, in both systems of units; what was told of the file is so.
for units in us si; do
    "$quell" report "$survey" --catalogue "$valves" --units $units -o "$work/a.pdf" --json >"$work/a.json"
    pdftotext -layout "$work/a.pdf" "$work/a.txt"
    "$test_report" figures "$work/a.txt" "$work/a.json" || complain "figures differ ($units)"
    "$quell" report "$survey" --catalogue "$valves" --units $units -o "$work/a.html"
    "$test_tables" lines "$work/a.txt" "$work/a.html" || complain "tables differ ($units)"
    grep -q "\"bytes\": $(wc -c <"$work/a.pdf")," "$work/a.json" || complain "another size is told"
    letters "$work/a.pdf"
    set -- $(boxes "$work/a.pdf")
    [ "$1" -ge 60 ] && [ "$2" -eq 0 ] || complain "$2 of $1 boxes are too small for a pen ($units)"
    pages=$(pdfinfo "$work/a.pdf" | sed -n 's/^Pages: *//p')
    grep -q "\"pages\": $pages\$" "$work/a.json" || complain "other pages are told than $pages"
    pdfinfo "$work/a.pdf" | grep -q '^Tagged: *yes' || complain "the PDF is not tagged"
    size='612 x 792'
    [ $units = us ] || size='A4'
    pdfinfo "$work/a.pdf" | grep -q "^Page size: .*$size" || complain "$units pages are not $size"
    [ "$(wc -c <"$work/a.pdf")" -lt 1000000 ] || complain "the PDF is over 1 MB"
done

# Those of a check and of a demand too, in the other language.
for of in check demand; do
    "$quell" report "$root/examples/repurposed-building/survey.json" --of $of --language es -o "$work/o.pdf"
    "$quell" report "$root/examples/repurposed-building/survey.json" --of $of --language es -o "$work/o.html"
    pdftotext -layout "$work/o.pdf" "$work/o.txt"
    "$test_tables" lines "$work/o.txt" "$work/o.html" || complain "tables of a $of differ"
done
rm "$work"/o.* "$work/a.html"

# A list's items are in the list, and tables have rows.
structure=$(pdfinfo -struct "$work/a.pdf")
printf '%s\n' "$structure" | grep -q '^    LI' || complain "items are in no list"
if printf '%s\n' "$structure" | grep -q '^  LI'; then complain "items beside a list"; fi
for tag in H1 H2 H3 P L Table Figure; do
    printf '%s\n' "$structure" | grep -q "^  $tag" || complain "no $tag in the structure"
done

# Same input, same bytes; nothing is left behind beside it.
"$quell" report "$survey" --catalogue "$valves" --units si -o "$work/b.pdf"
cmp "$work/a.pdf" "$work/b.pdf" || complain "the same input gave other bytes"
rm "$work/a.json" "$work/a.txt"
[ "$(ls -A "$work" | wc -l)" -eq 2 ] || complain "something is left behind: $(ls -A "$work")"

# In Spanish if asked for, with the fonts in it.
"$quell" report "$survey" --units si --language es -o "$work/c.pdf"
pdftotext "$work/c.pdf" - | grep -q 'Hoja de puesta en marcha' || complain "no Spanish"
if pdffonts "$work/c.pdf" | tail -n +3 | grep -v ' yes yes yes '; then complain "fonts are not embedded"; fi

# Rendered, the paper is white beyond its margins (18 mm on the left, 14 mm around) and inked within them.
ink() { # FILE PAGE X Y W H, in dots of 0.5 mm: how many dots of the page are not white
    pdftoppm -gray -r 50.8 -f "$2" -l "$2" -x "$3" -y "$4" -W "$5" -H "$6" "$1" |
        tail -n +4 | tr -d '\377' | wc -c
}
for page in $(seq 1 "$(pdfinfo "$work/c.pdf" | sed -n 's/^Pages: *//p')"); do
    left=$(ink "$work/c.pdf" "$page" 0 0 35 594)
    right=$(ink "$work/c.pdf" "$page" 393 0 27 594)
    top=$(ink "$work/c.pdf" "$page" 0 0 420 26)
    bottom=$(ink "$work/c.pdf" "$page" 0 579 420 15)
    inside=$(ink "$work/c.pdf" "$page" 36 36 348 500)
    [ "$left $right $top $bottom" = '0 0 0 0' ] || complain "page $page leaves its margins: $left $right $top $bottom"
    [ "$inside" -gt 500 ] || complain "page $page is all but empty: $inside"
done

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
"$quell" report "$work/odd.json" -o "$work/d.svg" --plot ladder
if grep -q '<script' "$work/d.svg"; then complain "a name got into the drawing"; fi

# A write that fails leaves the old file whole and ends with 3.
ln -s /dev/full "$work/full.pdf"
refused 'a full disk' "$work/full.pdf" 'No space left on device'
refused 'a missing folder' "$work/nowhere/r.pdf" 'No such file or directory'
mkdir "$work/r.pdf"
refused 'a folder' "$work/r.pdf" 'Is a directory'
cp "$work/a.pdf" "$work/old.pdf"
status=0
(ulimit -f 8 && trap '' XFSZ && exec "$quell" report "$survey" -o "$work/old.pdf") 2>"$work/said" || status=$?
[ "$status" -eq 3 ] || complain "a disk that fills up ends with $status: $(cat "$work/said")"
cmp "$work/a.pdf" "$work/old.pdf" || complain "the old file is not whole"

# Killed at any moment it leaves the old file or the new one, never half of one.
for after in 0.05 0.3 0.6 0.9 1.2; do
    "$quell" report "$survey" --catalogue "$valves" --units si -o "$work/old.pdf" &
    pid=$!
    sleep $after
    kill -9 $pid 2>/dev/null || true
    wait $pid 2>/dev/null || true
    cmp "$work/a.pdf" "$work/old.pdf" || complain "killed after $after s the file is not whole"
done

# The real thing, where root may mount a small disk.
mkdir "$work/small"
if mount -t tmpfs -o size=64k tmpfs "$work/small" 2>/dev/null; then
    printf 'old' >"$work/small/r.pdf"
    refused 'a small disk' "$work/small/r.pdf" 'No space left on device'
    [ "$(cat "$work/small/r.pdf")" = old ] || complain "the old file on the small disk is gone"
    [ "$(ls -A "$work/small")" = r.pdf ] || complain "left behind: $(ls -A "$work/small")"
    umount "$work/small"
fi
exit "$fail"
