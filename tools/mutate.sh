#!/bin/sh
# tools/mutate.sh [-n COUNT] [-s SEED] [-k KIND] [-t SECONDS] [-j JOBS] [-r] [FILE...]: does a test notice when a line is wrong?
# tools/mutate.sh -a FILE: the same of what has survived before; -t 1000 leaves no test out.
#
# Makes COUNT seeded changes, one at a time, in a copy of the tree under build/mutants (tools/mutants.awk says which changes
# there are), builds the one file that changed, and runs the tests until one fails: first those that are named like the file
# or have caught something in it before, then all that go through the line, quickest first. Which do is found out once, and
# again with -r; one that takes more than 8 SECONDS is left out. Every limit is of processor time, so that other work on the
# machine changes no verdict. A change whose machine code is the same is not counted. What survives is listed; what stands in
# tools/mutants.txt is known to change no answer, with the reason.
#
# Both the finding out and a draw from all modules go on where they were stopped: run the same command again, with more to
# COUNT if you like. The draw stands in build/mutants/list.SEED, what came of it in result.SEED.tsv; without these two the
# seed begins anew.
{
set -eu
cd "$(dirname "$0")/.."
root=$(pwd)
count=50
seed=1
only=.
again=no
box=8
jobs=2
before=""
while getopts n:s:k:t:j:a:r option; do
    case $option in
    n) count=$OPTARG ;;
    s) seed=$OPTARG ;;
    k) only=$OPTARG ;;
    t) box=$OPTARG ;;
    j) jobs=$OPTARG ;;
    a) before=$OPTARG ;;
    r) again=yes ;;
    *) exit 2 ;;
    esac
done
shift $((OPTIND - 1))
home=$root/build/mutants
tree=$home/tree
build=$home/build
known=$root/tools/mutants.txt
mkdir -p "$tree"

# What the gate is for: the search and its weights, rules, readers, writers, and what is asked of them. Where a mark stands on
# paper is looked at, not tested.
files() {
    if [ $# -gt 0 ]; then
        printf '%s\n' "$@"
    else
        ls src/search/*.c src/station/*.c src/demand/*.c src/signals/*.c src/diagnosis/*.c src/documents/*.c src/engine/*.c \
            src/report/*.c |
            grep -vE 'report/(canvas|diagram|figure|layout|lettering|pictures|plot|svg|symbols|theme|ticks)'
    fi
}

# A program that a change has sent round for ever, or to eat all memory, is stopped. One that waits for ever spends no
# processor time and is stopped after an hour.
longest=3600
limited() {
    (
        ulimit -t 60
        ulimit -v 6000000
        exec "$@"
    )
}

# The copy, without what an earlier run left changed.
if [ -s "$home/changed" ]; then
    touch "$(cat "$home/changed")"
fi
git ls-files -z | tar -cf - --null -T - | tar -xf - -C "$tree"
git ls-files | sort >"$home/ours"
(cd "$tree" && find . -type f | sed 's|^\./||' | sort) | comm -13 "$home/ours" - | (cd "$tree" && xargs -r rm -f)
[ ! -s "$home/changed" ] || touch "$(cat "$home/changed")"

if [ ! -f "$build/build.ninja" ]; then
    CMAKE_C_COMPILER_LAUNCHER=$(command -v ccache || true) cmake -S "$tree" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Debug \
        -DCMAKE_C_FLAGS="-w" -DCMAKE_C_FLAGS_DEBUG=-O1 -DQUELL_SHARED_CORE=ON -DQUELL_PANEL=OFF \
        -DCMAKE_LINK_DEPENDS_NO_SHARED=ON -DCMAKE_RUNTIME_OUTPUT_DIRECTORY="$build" >"$home/build.log" 2>&1
fi
export CCACHE_BASEDIR="$home" CCACHE_NOHASHDIR=1
ninja -j "$jobs" -C "$build" >"$home/build.log" 2>&1 || { tail -20 "$home/build.log" >&2; exit 1; }
# A test's own limit is of the time on the wall.
find "$build" -name CTestTestfile.cmake -exec sed -i "s/ TIMEOUT \"[0-9]*\"/ TIMEOUT \"$longest\"/" {} +

# Every test once, for its time and for the lines it goes through: what fails or takes long as things stand can tell nothing.
# The lines come from a second core that counts, put in the place of the first.
left_out='^(installed|abi|howto|shape\.(hardening|links|credits|modules|calls|literals)|browser)|^oracles'
# spent: processor seconds of the children between the two looks at the clock; the machine may have other work.
spent() {
    awk 'NR % 2 == 0 {
        split($1, user, /[ms]/)
        split($2, kernel, /[ms]/)
        seen[NR] = 60 * user[1] + user[2] + 60 * kernel[1] + kernel[2]
    }
    END { printf "%.2f\n", seen[4] - seen[2] }' "$home/clock"
}

survey() {
    cmake -S "$tree" -B "$home/counting" -G Ninja -DCMAKE_BUILD_TYPE=Debug -DCMAKE_C_FLAGS="-w --coverage" \
        -DCMAKE_C_FLAGS_DEBUG=-O1 -DQUELL_SHARED_CORE=ON -DQUELL_PANEL=OFF -DQUELL_TESTS=OFF >"$home/build.log" 2>&1
    ninja -j "$jobs" -C "$home/counting" quell_core >"$home/build.log" 2>&1
    if [ ! -f "$home/asked" ]; then
        rm -rf "$home/reach" "$home/surveyed.new"
        mkdir -p "$home/reach" "$home/surveyed.new"
        (cd "$tree" && cp -R src "$home/surveyed.new")
        : >"$home/times.new"
        : >"$home/asked"
    fi
    ctest --test-dir "$build" -N -LE 'slow|panel|browser' -E "$left_out" |
        sed -n 's/^ *Test *#[0-9]*: //p' >"$home/names"
    while read -r name; do
        ! grep -qxF "$name" "$home/asked" || continue
        lines=$home/lines
        rm -rf "$lines"
        mkdir -p "$lines"
        times >"$home/clock"
        # What the limit would stop later on is left out now: else it would seem to catch everything.
        (
            export GCOV_PREFIX="$lines" GCOV_PREFIX_STRIP=99 LD_LIBRARY_PATH="$home/counting/src"
            limited ctest --test-dir "$build" -R "^$name\$" --timeout "$longest" >"$home/one" 2>&1
        ) || true
        times >>"$home/clock"
        ! grep -q '100% tests passed' "$home/one" || echo "$name $(spent)" >>"$home/times.new"
        find "$home/counting/src" -name '*.gcno' -exec ln -sf -t "$lines" {} +
        (cd "$lines" && gcov -t ./*.gcda 2>/dev/null) | awk -v test="$name" -v into="$home/reach/" '
            $2 == "0:Source" || /0:Source:/ { file = $0; sub(/.*\/src\//, "", file); gsub(/\//, ":", file); next }
            /^ *[0-9]+\*?: *[1-9]/ { split($0, part, ":"); print part[2] + 0, test >>(into file) }'
        echo "$name" >>"$home/asked"
    done <"$home/names"
    sort -k 1,1 -u "$home/times.new" | sort -k 2 -n >"$home/times"
    rm -rf "$home/surveyed"
    mv "$home/surveyed.new" "$home/surveyed"
    rm "$home/asked"
}
if [ "$again" = yes ]; then
    rm -rf "$home/surveyed" "$home/asked"
fi
[ -d "$home/surveyed" ] || survey
# Tests that have come since are always asked.
ctest --test-dir "$build" -N -LE 'slow|panel|browser' -E "$left_out" | sed -n 's/^ *Test *#[0-9]*: //p' |
    awk -v names="$home/names" 'BEGIN { while ((getline name < names) > 0) old[name] = 1 } !($1 in old) { print $1, 0 }' \
        >"$home/new"

# reaching FILE LINE: the tests that go through this line or its neighbors, with their times; through the file, where no
# line nearby is one that runs, or the file has changed since.
reaching() {
    reach=$home/reach/$(echo "${1#src/}" | tr / :)
    if [ -f "$reach" ]; then
        alike=no
        cmp -s "$home/original" "$home/surveyed/$1" && alike=yes
        awk -v line="$2" -v alike="$alike" '
            FNR == NR { if ($1 >= line - 3 && $1 <= line + 3) { near[$2] = 1; found = 1 } any[$2] = 1; next }
            found && alike == "yes" ? $1 in near : $1 in any' "$reach" "$home/times"
    else
        cat "$home/times"
    fi
    cat "$home/new"
}

# first_failing TEST...: the name of the first test that fails, or nothing. One that only had no time left has noticed nothing.
first_failing() {
    [ $# -gt 0 ] || return 0
    pattern=$(printf '%s\n' "$@" | sed 's/\./\\./g' | paste -s -d '|')
    limited ctest --test-dir "$build" -R "^($pattern)\$" -j "$jobs" --stop-on-failure \
        --timeout "$longest" 2>/dev/null |
        awk '/ Test +#[0-9]+: / && !/ Passed / && !/Not Run/ && !/Timeout/ && !said { print $4; said = 1 }'
}

# in_order FILE: of the tests in $home/reaching, first those that have caught something in the file or are named like it.
in_order() {
    stem=$(basename "$1" .c)
    touch "$home/killers"
    awk -v file="$1" -v stem="$stem" -v box="$box" -v killers="$home/killers" '
        BEGIN {
            sub(/^(write|read|rule|ask|log|report|says|figures)_/, "", stem)
            while ((getline line < killers) > 0) {
                split(line, part, "\t")
                if (part[1] == file) caught[part[2]] = 1
            }
        }
        { near = $1 in caught || $2 == 0 || index($1, stem) && $2 < 5 }
        near && $2 < 2 || $2 < box { print near ? 0 : $2 < 0.3 ? 1 : $2 < 2 ? 2 : 3, $1 }' "$home/reaching"
}

is_known() {
    [ -f "$known" ] && awk -F ' \\| ' -v file="$1" -v line="$2" -v new="$3" '
        $1 == file && $2 == line && $3 == new { found = 1 } END { exit !found }' "$known"
}

draw() {
    (cd "$tree" && files "$@" | xargs awk -v seed="$seed" -f tools/mutants.awk) | grep -E "^($only)" || true
}

# Only a draw from everything is kept: files that are named are being worked on.
of=$seed
if [ -n "$before" ]; then
    of=again
    cp "$before" "$home/list.new"
    count=$(wc -l <"$before")
elif [ $# -gt 0 ] || [ "$only" != . ]; then
    of=some
    draw "$@" >"$home/list.new"
elif [ ! -f "$home/list.$seed" ] || [ ! -f "$home/result.$seed.tsv" ]; then
    draw >"$home/list.new"
fi
list=$home/list.$of
report=$home/result.$of.tsv
left=$home/survivors.$of
if [ -f "$home/list.new" ]; then
    mv "$home/list.new" "$list"
    : >"$report"
    : >"$left"
fi

# so_far VERDICT: how many of the draw have come to it.
so_far() {
    cut -f 5 "$report" | grep -cE "^($1)" || true
}

made=$(so_far 'caught|known|SURVIVED')
tried=$(grep -c . "$report" || true)
tab=$(printf '\t')
tail -n "+$((tried + 1))" "$list" >"$home/rest"
while [ "$made" -lt "$count" ] && IFS="$tab" read -r kind file line column length old new <&3; do
    began=$(date +%s)
    if [ "$(sed -n "${line}p" "$tree/$file" 2>/dev/null | cut -c "$column-$((column + length - 1))")" != "$old" ]; then
        printf '%s\t%s:%s\t%s\t%s\tno longer there\t0 s\n' "$kind" "$file" "$line" "$old" "$new" | tee -a "$report"
        continue
    fi
    source=$tree/$file
    object=$build/src/CMakeFiles/quell_core.dir/${file#src/}.o
    cp "$object" "$home/before.o"
    cp "$source" "$home/original"
    echo "$source" >"$home/changed"
    awk -v line="$line" -v at="$column" -v len="$length" -v new="$new" \
        'FNR == line { $0 = substr($0, 1, at - 1) new substr($0, at + len) } { print }' "$home/original" >"$source"
    was=$(sed -n "${line}s/^ *//p" "$home/original")
    text=$(sed -n "${line}s/^ *//p" "$source")
    verdict=""
    if ! limited ninja -j "$jobs" -C "$build" quell_core >"$home/mutant.log" 2>&1; then
        verdict="does not build"
    elif cmp -s "$object" "$home/before.o"; then
        verdict="same code"
    elif is_known "$file" "$was" "$text"; then
        verdict="known"
        made=$((made + 1))
    else
        made=$((made + 1))
        reaching "$file" "$line" >"$home/reaching"
        in_order "$file" >"$home/order"
        killer=""
        for group in 0 1 2 3; do
            # shellcheck disable=SC2046  # one word per test
            killer=$(first_failing $(awk -v group="$group" '$1 == group { print $2 }' "$home/order"))
            [ -z "$killer" ] || break
        done
        if [ -n "$killer" ]; then
            verdict="caught by $killer"
            printf '%s\t%s\n' "$file" "$killer" >>"$home/killers"
        else
            verdict="SURVIVED $(grep -c . "$home/order" || true) tests"
            printf '%s\t%s\t%s\t%s\t%s\t%s\t%s\n' "$kind" "$file" "$line" "$column" "$length" "$old" "$new" >>"$left"
        fi
    fi
    cp "$home/original" "$source"
    : >"$home/changed"
    printf '%s\t%s:%s\t%s\t%s\t%s\t%s s\n' "$kind" "$file" "$line" "$was" "$text" \
        "$verdict" $(($(date +%s) - began)) | tee -a "$report"
done 3<"$home/rest"
ninja -j "$jobs" -C "$build" quell_core >"$home/build.log" 2>&1
survived=$(so_far SURVIVED)
echo "mutants: $made counted ($(so_far caught) caught, $(so_far known) known to change no answer, $survived survived)," \
    "$(so_far 'same code') of the same code"
echo "to ask of the survivors again, with the tests that take long: tools/mutate.sh -t 1000 -a $left"
[ "$survived" -eq 0 ]
exit
}
