#!/bin/sh
# fuzz_coverage.sh BUILD [CORPUS]: how much of each reader its seeds, and what CORPUS holds of it, go through: lines, by gcov.
# BUILD is of the preset coverage. What is fuzzed by which target says fuzz/README.md.
set -eu
cd "$(dirname "$0")/.."
build=$1
corpus=${2:-}
sed -n 's/^| \(.*\) | `fuzz_\([a-z_]*\)\.c` |.*/\2 \1/p' fuzz/README.md | while read -r target files; do
    [ -x "$build/fuzz_$target" ] || continue
    find "$build" -name '*.gcda' -exec rm -f {} +
    set -- "fuzz/seeds/$target"
    [ -z "$corpus" ] || [ ! -d "$corpus/$target" ] || [ -z "$(ls "$corpus/$target")" ] || set -- "$@" "$corpus/$target"
    "$build/fuzz_$target" "$@" >"$build/replayed" 2>&1 || { tail -3 "$build/replayed"; exit 1; }
    inputs=$(tail -1 "$build/replayed")
    # Every file that the row names; a name without a folder is beside the last one.
    folder=""
    for file in $(echo "$files" | grep -oE '[a-z_0-9]*/?[a-z_0-9]+\.c'); do
        case $file in */*) folder=${file%/*} ;; *) file=$folder/$file ;; esac
        counts=$build/src/CMakeFiles/quell_core.dir/$file.gcda
        [ -f "$counts" ] || continue
        share=$(gcov -n "$counts" 2>/dev/null | awk -v file="/$file'" 'index($0, file) { found = 1 } found && /Lines executed/ { print; exit }')
        printf '%-16s %-12s %-34s %s\n' "$target" "$inputs" "$file" "$share"
    done
done
