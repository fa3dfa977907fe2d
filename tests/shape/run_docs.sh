#!/bin/sh
# run_docs.sh ROOT BIN: the manual cannot lie. Runs every `$ quell ...` command in the fenced console
# blocks of README.md and docs/, and compares what follows with what it prints. A line that is just
# "…" stands for any number of lines. Other commands (./dev ...) are left alone.
set -eu
root=$1
bin=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$root"

find README.md docs -name '*.md' | sort | while read -r page; do
    awk -v work="$work" -v page="$page" '
        function finish() { open = 0 }
        /^```console/ { inside = 1; open = 0; next }
        /^```/ { inside = 0; finish(); next }
        inside && /^\$ / {
            finish()
            if ($2 == "quell") {
                count++
                id = page; gsub(/[^A-Za-z0-9]/, "_", id)
                base = work "/" id "." count
                print substr($0, 3) > (base ".cmd")
                print page ":" NR > (base ".where")
                printf "" > (base ".want")
                open = 1
            }
            next
        }
        inside && open { print > (base ".want") }
    ' "$page"
done

failed=0
ran=0
for command in "$work"/*.cmd; do
    [ -e "$command" ] || break
    base=${command%.cmd}
    PATH="$bin:$PATH" sh "$command" >"$base.got" 2>&1 </dev/null || true
    ran=$((ran + 1))
    if ! awk -v want="$base.want" '
        BEGIN {
            while ((getline line < want) > 0) { wanted[++n] = line }
        }
        { got[NR] = $0 }
        END {
            i = 1; j = 1
            while (i <= n) {
                if (wanted[i] == "…") {
                    if (i == n) { exit 0 }
                    while (j <= NR && got[j] != wanted[i + 1]) { j++ }
                    i++
                } else {
                    if (j > NR || got[j] != wanted[i]) { exit 1 }
                    i++; j++
                }
            }
            exit j <= NR
        }' "$base.got"; then
        failed=$((failed + 1))
        echo "$(cat "$base.where"): $(cat "$command")"
        diff -u "$base.want" "$base.got" | head -40 || true
    fi
done
echo "$ran commands, $failed failed"
[ "$ran" -gt 0 ] && [ "$failed" -eq 0 ]
