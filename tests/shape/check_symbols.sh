#!/bin/sh
# check_symbols.sh BUILD: what the linker sees in the core. No two files lead back to each other by calls or
# tables, whatever the way round; and what a file offers to others is asked for by another file, of the program or of a test.
set -eu
export LC_ALL=C
core=$1/src/libquell.a
rooms=$(mktemp -d)
trap 'rm -rf "$rooms"' EXIT

nm -A -g "$core" >"$rooms/core" 2>/dev/null
find "$1" -name '*.c.o' ! -path '*/quell_core*.dir/*' -exec nm -A -g --undefined-only {} + >"$rooms/others"

# Who asks whom: a line for each two files, the asking one first; each file once by itself, as tsort wants it.
awk -v core="$core:" '
    { file = substr($1, length(core) + 1); sub(/\.o:.*/, "", file) }
    $(NF - 1) == "U" { asks[file, ++count[file]] = $NF; files[file] = 1; next }
    { home[$NF] = file; files[file] = 1 }
    END {
        for (file in files) {
            print file, file
            for (i = 1; i <= count[file]; i++)
                if (asks[file, i] in home) print file, home[asks[file, i]]
        }
    }' "$rooms/core" | sort -u >"$rooms/edges"
[ "$(wc -l <"$rooms/edges")" -gt 300 ] || { echo "no calls were found under $core"; exit 1; }
result=0
if ! tsort "$rooms/edges" >"$rooms/order" 2>"$rooms/loops"; then
    sed -e 's/^tsort: -: input contains a loop:$/a circle:/' -e "s|^tsort: $rooms/edges: input contains a loop:|a circle:|" \
        -e 's/^tsort: /    /' "$rooms/loops"
    result=1
fi

awk '
    $(NF - 1) == "U" { asked[$NF] = 1; next }
    both && $(NF - 1) == "T" && !($NF in asked) {
        file = $1
        sub(/.*libquell.a:/, "", file)
        sub(/\.o:.*/, "", file)
        print file ": nobody else asks for " $NF "()"
        found = 1
    }
    END { exit found }' "$rooms/core" "$rooms/others" both=1 "$rooms/core" || result=1
exit $result
