#!/bin/sh
# pdf.sh FOLDER: what poppler's tools, which know nothing of us, see in the PDFs of test_paper.
set -eu
cd "$1"
fail=0

# has NAME TEXT PATTERN: TEXT has a line that matches PATTERN.
has() {
    printf '%s\n' "$2" | grep -Eq -- "$3" || {
        echo "$1: no line matches \"$3\" in:"
        printf '%s\n' "$2"
        fail=1
    }
}

info=$(pdfinfo two_pages.pdf 2>&1)
has info "$info" '^Title: +Kiln Hill \(station\)$'
has info "$info" '^Tagged: +yes$'
has info "$info" '^Pages: +2$'
has info "$info" '^CreationDate: +Sat Jan 31 12:00:00 2026'

structure=$(pdfinfo -struct-text two_pages.pdf 2>&1)
for tag in Document H1 Figure Table TR TH TD Link; do
    has structure "$structure" "^ *$tag( |\$)"
done
[ "$(printf '%s\n' "$structure" | grep -c '^ *TR')" -eq 4 ] || {
    echo "structure: the table does not have its 4 rows"
    fail=1
}

for file in two_pages.pdf odd.pdf; do
    # name, type, encoding, emb, sub, uni, object: every font embedded, as a subset, with its letters.
    fonts=$(pdffonts "$file" 2>&1 | tail -n +3)
    has "fonts of $file" "$fonts" 'Inter'
    if printf '%s\n' "$fonts" | grep -v ' yes yes yes '; then
        echo "fonts of $file: not embedded"
        fail=1
    fi
    problems=$(pdftotext "$file" /dev/null 2>&1)
    [ -z "$problems" ] || {
        echo "$file: $problems"
        fail=1
    }
done

text=$(pdftotext two_pages.pdf - 2>&1)
has text "$text" '^set 58 psi$'
has text "$text" '^Settings$'
has text "$text" '^in figure two$'
exit $fail
