#!/bin/sh
# run.sh QUELL FOLDER CASE   compares what a command prints with tests/cli/CASE.case
#
# A case file is its command, its exit status and what it printed:
#     $ quell demand missing.json
#     exit 2
#     --- stdout
#     --- stderr
#     quell: cannot read ...
# The command runs in tests/cli by sh, with `quell` the program under test. With UPDATE_TRANSCRIPTS
# set in the environment the files are written anew; read the difference before you commit it.
set -u
quell=$1
folder=$2
case=$3
file=$folder/$case.case
[ -r "$file" ] || { echo "no such case: $file"; exit 1; }
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
mkdir "$work/bin" && ln -s "$quell" "$work/bin/quell" || exit 1
command=$(sed -n '1s/^\$ //p' "$file")
[ -n "$command" ] || { echo "$file: the first line must be \$ COMMAND"; exit 1; }
(cd "$folder" && PATH="$work/bin:$PATH" LC_ALL=C sh -c "$command") >"$work/out" 2>"$work/err" </dev/null
status=$?
{
    printf '$ %s\nexit %d\n--- stdout\n' "$command" "$status"
    cat "$work/out"
    printf -- '--- stderr\n'
    cat "$work/err"
} >"$work/got"
if [ -n "${UPDATE_TRANSCRIPTS:-}" ]; then
    cp "$work/got" "$file"
    exit 0
fi
[ -s "$work/out" ] || [ -s "$work/err" ] || { echo "$file: the command prints nothing, so nothing is compared"; exit 1; }
diff -u "$file" "$work/got"
