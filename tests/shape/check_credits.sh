#!/bin/sh
# check_credits.sh ROOT PROGRAM BUILD: THIRD_PARTY.md names what the program links, what its sources include and the
# data that rows come from; it is installed; and each of its lines would be missed.
set -eu
cd "$1"
page=THIRD_PARTY.md
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# What is linked, less what sanitizers and compilers add.
: > "$work/linked"
if command -v readelf > /dev/null; then
    readelf -d "$2" 2> /dev/null | sed -n 's/.*(NEEDED).*\[\(.*\.so\).*/\1/p' | grep -vE '^lib(asan|ubsan|gcc_s|clang_rt.*)\.so|^ld-' > "$work/linked"
fi
sed -n 's/^\(<[a-z./-]*>\):.*/\1/p' src/MODULES > "$work/included"
# What the page is made of: its packages as package.json has them, and the C library that the engine is linked with.
sed -n '/"dependencies"/,/}/s/^ *"\([^"]*\)": "\([0-9.]*\)".*/\1 \2/p' web/package.json > "$work/packages"
grep -q 'wasi-libc' dev && echo 'wasi-libc ' >> "$work/packages"
# Rows under a license of others: those with the license's address.
grep -hE '(CC BY|BSD|MIT|public domain|GPL|OFL)[^"|]* http' data/*.csv | grep -v '^#' > "$work/rows"

# named SECTION: the lines of the table of that section, less its head.
named() { sed -n "/^## $1/,/^## /p" "$work/page" | grep '^| ' | sed 1d; }

trim() { echo "$1" | sed 's/^ *//; s/ *$//'; }

problems() {
    while read -r library; do
        grep -qF "\`$library\`" "$work/page" || echo "the program links $library"
    done < "$work/linked"
    while read -r header; do
        grep -qF "\`$header\`" "$work/page" || echo "the sources include $header"
    done < "$work/included"
    while read -r package version; do
        named 'In the page' | grep -iF "| $package" | grep -qF "$version" || echo "the page holds $package $version"
    done < "$work/packages"
    grep -q 'Permission to use, copy, modify' "$work/page" || echo "the text of the ISC license is missing"
    grep -q 'lettering_widths.c' "$work/page" || echo "src/report/lettering_widths.c comes from Inter"
    named Data | sed 's/^| *\([^|]*[^ |]\) *|.*/\1/' > "$work/sets"
    grep -vFf "$work/sets" "$work/rows" | sed 's/^/a row of others names no data set: /' || true
    grep -hFf "$work/sets" data/*.csv | grep -vE '^#|http' | sed 's/^/a row without its license: /' || true
    while read -r set; do
        grep -qF "$set" "$work/rows" || echo "no row comes from $set"
    done < "$work/sets"
    grep -oE 'https?://[^ ";,)]*' "$work/rows" | sort -u | while read -r address; do
        grep -qF "$address" "$work/page" || echo "rows are licensed by $address"
    done
    grep -oE 'notice [0-9]' "$work/page" | while read -r _ number; do
        grep -qE "^$number .*Copyright" "$work/page" || echo "notice $number is missing"
    done
    grep -q 'Permission is hereby granted' "$work/page" || echo "the text of the MIT license is missing"
    grep -q 'Redistribution and use in source' "$work/page" || echo "the text of the BSD license is missing"
    # CC BY-SA rows keep to files that say so, and nobody is called "open data".
    grep -lE '^[^#].*CC BY-SA' data/*.csv | while read -r table; do
        head -1 "$table" | grep -q 'CC BY-SA 4.0, https' || echo "$table is not under CC BY-SA, its rows are"
        grep -qF "\`$table\`" "$work/page" || echo "$table is under CC BY-SA"
    done
    grep -inE 'open data|open urban|repository' data/*.csv | sed 's/$/: whose?/' || true
}

# Whoever measured is named in every row, with the version and the license, as the page has them.
nameless() {
    named Data | while IFS='|' read -r _ set author version license _; do
        set=$(trim "$set")
        for fact in "$(trim "$author")" "$(trim "$version")" "$(trim "${license%%http*}")" "$(echo "$license" | grep -o 'http[^ ]*')"; do
            case $fact in
            "not noted" | "public domain"*) continue ;; # no version, or nobody's
            esac
            grep -F "$set" "$work/rows" | grep -vF "$fact" | sed "s|^|a row of $set does not name $fact: |" || true
        done
    done
}

cmake --install "$3" --prefix "$work/root" > /dev/null
installed=$(find "$work/root" -path '*/doc/*' -name "$page")
if [ -z "$installed" ] || ! cmp "$installed" "$page"; then
    echo "$page is not installed as it is"
    exit 1
fi

cp "$page" "$work/page"
{ problems && nameless; } > "$work/found"
cat "$work/found"
[ ! -s "$work/found" ] || exit 1

# A row without its author or its version is told.
sed '1,/^| data set/!s/^\(| [^|]* | \)[^|]* |/\1Nobody |/' THIRD_PARTY.md > "$work/page"
nameless > "$work/found"
named Data | while IFS='|' read -r _ set _; do
    grep -qF "a row of $(trim "$set") does not name Nobody" "$work/found" || echo "rows of $(trim "$set") could name anybody"
done > "$work/nobody"
cat "$work/nobody"
[ ! -s "$work/nobody" ] || exit 1

# Each row and each notice taken away is missed. Rows of libraries alone only where it is known what is linked.
taken=0
kept=0
grep -nE '^\| .*(http|\.so)|^[0-9] .*Copyright|Permission is hereby granted|Permission to use, copy' "$page" > "$work/lines"
while IFS=: read -r at line; do
    case $line in
    *".so\` | |"*) grep -q libpango "$work/linked" || continue ;;
    esac
    sed "${at}d" "$page" > "$work/page"
    taken=$((taken + 1))
    if [ -z "$(problems)" ]; then
        echo "$page:$at could go and nobody would miss it"
        kept=$((kept + 1))
    fi
done < "$work/lines"
echo "$(wc -l < "$work/rows") rows of others; $taken lines taken away, $kept not missed"
[ "$taken" -ge 15 ] && [ "$kept" -eq 0 ]
