#!/bin/sh
# same_bytes.sh ROOT BUILD: the same question gets the same bytes from gcc and clang, unoptimized and optimized. Builds the
# program four times under BUILD and asks each the same; what differs from the first is named, and is a failure.
set -eu
root=$1
build=$2
mkdir -p "$build"
cd "$root"
first=""
for way in gcc-O2 gcc-O0 clang-O2 clang-O0; do
    compiler=${way%-*}
    command -v "$compiler" >/dev/null || { echo "no $compiler here: not compared"; continue; }
    # -O2 as users run it, with what is vectorized.
    case $way in *-O2) kind=Release ;; *) kind=Plain ;; esac
    cmake -S "$root" -B "$build/$way" -G Ninja -DCMAKE_C_COMPILER="$compiler" -DCMAKE_BUILD_TYPE=$kind -DCMAKE_C_FLAGS="-${way#*-} -w" \
        -DQUELL_TESTS=OFF -DCMAKE_RUNTIME_OUTPUT_DIRECTORY="$build/$way" >"$build/log" 2>&1 &&
        cmake --build "$build/$way" --target quell -j2 >"$build/log" 2>&1 || { cat "$build/log"; exit 1; }
done

# ask WAY: every answer into a folder of its own.
ask() {
    quell=$build/$1/quell
    answers=$build/$1/answers
    rm -rf "$answers"
    mkdir -p "$answers"
    for survey in examples/*/survey.json; do
        name=$(basename "$(dirname "$survey")")
        for verb in demand check; do
            for form in "" --json "--units si --language es"; do
                # shellcheck disable=SC2086  # one word per option
                "$quell" $verb $form "$survey" >"$answers/$name.$verb.$(echo $form | tr -dc a-z)" 2>&1 || true
            done
        done
        "$quell" report "$survey" --of demand -o "$answers/$name.demand.html" >"$answers/$name.said" 2>&1 || true
    done
    # Unoptimized, a search takes a minute where it takes seconds otherwise: two kinds of building stand for all.
    for name in house low-street; do
        "$quell" design --json "examples/$name/survey.json" >"$answers/$name.design" 2>&1 || true
        "$quell" report "examples/$name/survey.json" -o "$answers/$name.design.html" >/dev/null 2>&1 || true
        "$quell" report "examples/$name/survey.json" -o "$answers/$name.design.pdf" >/dev/null 2>&1 || true
    done
    # A PDF says when it was made.
    for pdf in "$answers"/*.pdf; do
        LC_ALL=C sed 's/CreationDate ([0-9Z]*)/CreationDate ()/' "$pdf" >"$build/undated" && cp "$build/undated" "$pdf"
    done
    "$quell" catalogue fit --json examples/own-catalogue/capacity.csv >"$answers/fit" 2>&1 || true
    "$quell" catalogue import examples/own-catalogue/valves.csv >"$answers/import" 2>&1 || true
    for form in --json "--units si --language es"; do
        told=$(echo $form | tr -dc a-z)
        # shellcheck disable=SC2086  # one word per option
        {
            "$quell" log $form examples/pressure-log/night-rise.csv >"$answers/log.$told" 2>&1 || true
            "$quell" log $form examples/metered/last-tenant.csv >"$answers/log.flow.$told" 2>&1 || true
            "$quell" listen $form examples/recordings/squeal.flac >"$answers/listen.$told" 2>&1 || true
            "$quell" diagnose $form examples/night-creep/case.json >"$answers/diagnose.$told" 2>&1 || true
            "$quell" catalogue list $form >"$answers/list.$told" 2>&1 || true
        }
    done
    "$quell" log examples/pressure-log/night-rise.csv -o "$answers/log.html" >/dev/null 2>&1 || true
    "$quell" listen examples/recordings/squeal.flac -o "$answers/listen.html" >/dev/null 2>&1 || true
    "$quell" report examples/night-creep/case.json --of diagnose -o "$answers/diagnose.html" >/dev/null 2>&1 || true
    grep -oE ',[a-z-]+(\|[^,|]+)+,' tests/reference/calc.csv | sort -u | tr -d , >"$build/calcs"
    number=0
    while IFS= read -r calc; do
        number=$((number + 1))
        (
            IFS='|'
            # shellcheck disable=SC2086  # one word per argument
            set -- $calc
            "$quell" calc --json "$@" >"$answers/calc.$number" 2>&1 || true
        )
    done <"$build/calcs"
}

differ=0
count=0
for way in gcc-O2 gcc-O0 clang-O2 clang-O0; do
    [ -x "$build/$way/quell" ] || continue
    ask "$way"
    if [ -z "$first" ]; then
        first=$way
        continue
    fi
    for answer in "$build/$first/answers"/*; do
        count=$((count + 1))
        if ! cmp -s "$answer" "$build/$way/answers/$(basename "$answer")"; then
            echo "$way differs from $first: $(basename "$answer")"
            diff "$answer" "$build/$way/answers/$(basename "$answer")" | head -6
            differ=$((differ + 1))
        fi
    done
done
echo "$count answers compared, $differ differ"
[ "$count" -gt 0 ] && [ "$differ" -eq 0 ]
