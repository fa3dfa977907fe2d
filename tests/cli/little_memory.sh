#!/bin/sh
# little_memory.sh QUELL ROOT: whatever memory the system gives, a report is whole or ends with 3 and a message. What draws on paper
# ends the program where it gets none, in threads of its own: so every limit is tried several times.
set -eu
quell=$1
root=$2
# A program under the address sanitizer reserves terabytes.
(ulimit -v 4000000 && "$quell" --version >/dev/null 2>&1) || { echo "skipped: this build needs more than any limit"; exit 77; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
whole=0
refused=0
for limit in 20000 44000 80000 120000 140000 150000 200000 210000 240000 350000 380000 400000 600000; do
    for try in 1 2; do
        status=0
        (ulimit -v $limit && exec "$quell" report "$root/tests/cli/flats.json" --catalogue "$root/tests/cli/valves.json" \
            -o "$work/r.pdf") >"$work/out" 2>"$work/said" || status=$?
        case $status in
        0) whole=$((whole + 1)) && tail -c 6 "$work/r.pdf" | grep -q '%%EOF' || { echo "$limit: half a file"; exit 1; } ;;
        3) refused=$((refused + 1)) && grep -q 'quell: out of memory' "$work/said" || { echo "$limit: said $(cat "$work/said")"; exit 1; } ;;
        127) [ $limit -lt 40000 ] || { echo "$limit: $(cat "$work/said")"; exit 1; } ;; # the loader itself
        *) echo "$limit kB, try $try: status $status: $(tail -1 "$work/said")"; exit 1 ;;
        esac
        rm -f "$work/r.pdf"
    done
done
echo "$whole whole, $refused refused"
[ $whole -gt 0 ] && [ $refused -gt 0 ]
