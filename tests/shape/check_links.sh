#!/bin/sh
# check_links.sh ROOT: every relative link and image of the pages leads to a file.
set -eu
cd "$1"
failed=0
checked=0
for page in *.md docs/*/*.md examples/*.md data/*.md fuzz/*.md; do
    folder=$(dirname "$page")
    for link in $(grep -o '](\([^)# ]*\)' "$page" | sed 's/^](//' | grep -v '^http' || true); do
        checked=$((checked + 1))
        if [ ! -e "$folder/$link" ]; then
            echo "$page: $link leads nowhere"
            failed=$((failed + 1))
        fi
    done
done
echo "$checked links, $failed broken"
[ "$checked" -gt 0 ] && [ "$failed" -eq 0 ]
