#!/bin/sh
# tools/mutate.sh [-n COUNT] [-s SEED] [-k KIND] [-t SECONDS] [-r] [FILE...]: does a test notice when a line is wrong?
# tools/mutate.sh -a FILE: the same of what has survived before; -t 1000 leaves no test out.
#
# Makes COUNT seeded changes, one at a time, in a copy of the tree under build/mutants (tools/mutants.awk says which changes
# there are), builds the one file that changed, and runs the tests until one fails: first those that are named like the file
# or have caught something in it before, then all that go through the line, quickest first. Which do is found out once, and
# again with -r; one that takes more than 8 SECONDS is left out. A change whose machine code is the same is not counted. What survives is listed; what stands in tools/mutants.txt is known to change no answer, with the reason.
{
set -eu
cd "$(dirname "$0")/.."
root=$(pwd)
count=50
seed=1
only=.
again=no
box=8
before=""
while getopts n:s:k:t:a:r option; do
    case $option in
    n) count=$OPTARG ;;
    s) seed=$OPTARG ;;
    k) only=$OPTARG ;;
    t) box=$OPTARG ;;
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

# A program that a change has sent round for ever, or to eat all memory, is stopped.
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
ninja -C "$build" >"$home/build.log" 2>&1 || { tail -20 "$home/build.log" >&2; exit 1; }

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
    ninja -C "$home/counting" quell_core >"$home/build.log" 2>&1
    rm -rf "$home/reach"
    mkdir -p "$home/reach"
    : >"$home/times.new"
    ctest --test-dir "$build" -N -LE 'slow|panel|browser' -E "$left_out" |
        sed -n 's/^ *Test *#[0-9]*: //p' >"$home/names"
    while read -r name; do
        lines=$home/lines
        rm -rf "$lines"
        mkdir -p "$lines"
        times >"$home/clock"
        # What the limit would stop later on is left out now: else it would seem to catch everything.
        (
            export GCOV_PREFIX="$lines" GCOV_PREFIX_STRIP=99 LD_LIBRARY_PATH="$home/counting/src"
            limited ctest --test-dir "$build" -R "^$name\$" --timeout 600 >"$home/one" 2>&1
        ) || true
        times >>"$home/clock"
        ! grep -q '100% tests passed' "$home/one" || echo "$name $(spent)" >>"$home/times.new"
        find "$home/counting/src" -name '*.gcno' -exec ln -sf -t "$lines" {} +
        (cd "$lines" && gcov -t ./*.gcda 2>/dev/null) | awk -v test="$name" -v into="$home/reach/" '
            $2 == "0:Source" || /0:Source:/ { file = $0; sub(/.*\/src\//, "", file); gsub(/\//, ":", file); next }
            /^ *[0-9]+\*?: *[1-9]/ { split($0, part, ":"); print part[2] + 0, test >>(into file) }'
    done <"$home/names"
    sort -k2 -n "$home/times.new" >"$home/times"
    rm -rf "$home/surveyed"
    mkdir -p "$home/surveyed"
    (cd "$tree" && cp -R src "$home/surveyed")
}
[ "$again" = no ] && [ -d "$home/surveyed" ] || survey
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

# first_failing TEST...: the name of the first test that fails, or nothing.
first_failing() {
    [ $# -gt 0 ] || return 0
    pattern=$(printf '%s\n' "$@" | sed 's/\./\\./g' | paste -s -d '|')
    limited ctest --test-dir "$build" -R "^($pattern)\$" -j2 --stop-on-failure --timeout 300 2>/dev/null |
        awk '/ Test +#[0-9]+: / && !/ Passed / && !/Not Run/ && !said { print $4; said = 1 }'
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

report=$home/result.$seed.tsv
: >"$report"
if [ -n "$before" ]; then
    cp "$before" "$home/list"
    count=$(wc -l <"$before")
else
    (cd "$tree" && files "$@" | xargs awk -v seed="$seed" -f tools/mutants.awk) | grep -E "^($only)" >"$home/list"
fi
left=$home/survivors.$seed
: >"$left"
made=0
caught=0
survived=0
excused=0
same=0
tab=$(printf '\t')
while [ "$made" -lt "$count" ] && IFS="$tab" read -r kind file line column length old new <&3; do
    began=$(date +%s)
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
    if ! limited timeout 120 ninja -C "$build" quell_core >"$home/mutant.log" 2>&1; then
        verdict="does not build"
    elif cmp -s "$object" "$home/before.o"; then
        verdict="same code"
        same=$((same + 1))
    elif is_known "$file" "$was" "$text"; then
        verdict="known"
        excused=$((excused + 1))
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
            caught=$((caught + 1))
            printf '%s\t%s\n' "$file" "$killer" >>"$home/killers"
        else
            verdict="SURVIVED $(grep -c . "$home/order" || true) tests"
            survived=$((survived + 1))
            printf '%s\t%s\t%s\t%s\t%s\t%s\t%s\n' "$kind" "$file" "$line" "$column" "$length" "$old" "$new" >>"$left"
        fi
    fi
    cp "$home/original" "$source"
    : >"$home/changed"
    printf '%s\t%s:%s\t%s\t%s\t%s\t%s s\n' "$kind" "$file" "$line" "$was" "$text" \
        "$verdict" $(($(date +%s) - began)) | tee -a "$report"
done 3<"$home/list"
ninja -C "$build" quell_core >"$home/build.log" 2>&1
echo "mutants: $made counted ($caught caught, $excused known to change no answer, $survived survived), $same of the same code"
echo "to ask of the survivors again, with the tests that take long: tools/mutate.sh -t 1000 -a $left"
[ "$survived" -eq 0 ]
exit
}
