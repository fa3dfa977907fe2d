#!/bin/sh
# check_mutants.sh ROOT: every line that tools/mutants.txt excuses still stands in its file, and has a reason.
set -eu
cd "$1"
bad=0
count=0
while IFS= read -r entry; do
    case $entry in '' | '#'*) continue ;; esac
    count=$((count + 1))
    printf '%s\n' "$entry" | awk -F ' [|] ' '{
        file = $1
        found = 0
        while ((getline line < file) > 0) { sub(/^ */, "", line); if (line == $2) found = 1 }
        if (!found) { print "tools/mutants.txt: no line of " file " is: " $2; exit 1 }
        if ($2 == $3 || NF != 4 || length($4) < 20) { print "tools/mutants.txt: no reason or no change: " $0; exit 1 }
    }' || bad=1
done <tools/mutants.txt
[ "$count" -gt 0 ] || { echo "tools/mutants.txt has no entry"; exit 1; }
exit $bad
