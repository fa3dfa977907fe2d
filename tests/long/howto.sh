#!/bin/sh
# howto.sh ROOT BUILD: docs/howto as written. In a copy of the tree under BUILD a unit, a fixture kind and a calculation are
# added, step by step as their pages say, and the tests that the pages name must say what they promise, then pass.
set -eu
root=$1
build=$2
tree=$build/tree
rm -rf "$tree"
mkdir -p "$tree"
cd "$root"
# Without what git does not know; a tree that is none has no build folder worth the name.
{ git ls-files 2>/dev/null || find . -type f ! -path './build/*' ! -path './.git/*'; } >"$build/files"
while IFS= read -r file; do
    [ -f "$file" ] && printf '%s\n' "$file"
done <"$build/files" | tar -cf - -T - | tar -xf - -C "$tree"
cd "$tree"

fail() {
    echo "howto: $*"
    exit 1
}

# after FILE PATTERN LINE: adds a line behind the first that has the pattern.
after() {
    awk -v pattern="$2" -v line="$3" '{ print } !done && index($0, pattern) { print line; done = 1 } END { exit !done }' "$1" \
        >"$build/changed" || fail "$1 has no $2 any more"
    cat "$build/changed" >"$1"
}

cmake -S . -B "$build/made" -G Ninja -DCMAKE_BUILD_TYPE=Debug -DQUELL_PANEL=OFF -DCMAKE_RUNTIME_OUTPUT_DIRECTORY="$build/made" \
    ${CMAKE_C_COMPILER_LAUNCHER:+-DCMAKE_C_COMPILER_LAUNCHER="$CMAKE_C_COMPILER_LAUNCHER"} >"$build/log" 2>&1 || { cat "$build/log"; exit 1; }

make() {
    cmake --build "$build/made" -j2 --target "$@" >"$build/log" 2>&1 || { grep -E 'error|FAILED' "$build/log" | head -20; fail "$* do not build"; }
}

passes() {
    ctest --test-dir "$build/made" -R "$1" --no-tests=error >"$build/log" 2>&1 || { tail -40 "$build/log"; fail "$1 does not pass"; }
}

# ---- add_a_unit.md ----
after src/base/units_table.c '"mbar abs"' \
    '    {QLL_PRESSURE | QLL_DROP, "hPa", {"hectopascal"}, 100, 1, QLL_AS_TYPED, .source = "definition, SI prefix; SP 811"},'
after tests/reference/units.csv 'case,source,known,tolerance,text,kind,si' 'hectopascal,"SI Brochure, table 7",READ,0,1 hPa,pressure difference,100'
make test_unit_units_table test_reference_units
if "$build/made/test_unit_units_table" >"$build/said"; then
    fail "unit.units_table does not miss the line in docs/formats/units.md"
fi
line=$(grep '^| .*`hPa`' "$build/said") || fail "unit.units_table does not print the line for docs/formats/units.md"
after docs/formats/units.md '`mbar`' "$line"
passes 'unit.units_table|reference.units'

# ---- add_a_fixture_kind.md ----
awk -F, 'NR == 2 { n = NF } END { print n }' data/fixtures.csv >"$build/columns"
columns=$(cat "$build/columns")
row=$(awk -v n="$columns" 'BEGIN {
    line = "boot washer,boot wash station,1.4,3,our assumption: as a lavatory faucet,,,,no,,,2,our assumption,1,time,no"
    have = split(line, cells, ",")
    for (i = have; i < n; i++) line = line ","
    print line }')
printf '%s\n' "$row" >>data/fixtures.csv
make test_unit_fixture quell
passes 'unit.fixture$'
sed 's/"kitchen sink"/"boot wash station"/' "$tree/tests/cli/house.json" >"$build/boots.json"
"$build/made/quell" demand "$build/boots.json" >"$build/said" 2>&1 || { cat "$build/said"; fail "a survey cannot name the new kind"; }

# ---- add_a_calculation.md ----
sed -i 's/X(SIMULTANEOUS_USE) X(WATER)/X(SIMULTANEOUS_USE) X(WATER) X(COLUMN)/
    s/X(UNITS_CURVE) X(CONVOLVED)/X(UNITS_CURVE) X(CONVOLVED) X(COLUMN)/' src/handbook/names.h
after src/handbook/work.h 'extern const qll_calc qll_calc_wave_speed' 'extern const qll_calc qll_calc_column;'
after src/handbook/handbook.c '&qll_calc_water,' '    &qll_calc_column,'
cat >>src/handbook/calc_pipe.c <<'END'

/* ---- column ---- */

static const qll_calc_input column_inputs[] = {
    {.key = "height", .kind = QLL_KIND_LENGTH, .required = true, .help = QLL_TEXT_HELP_OF_PIPE},
    QLL_INPUT_TEMPERATURE,
};

static void run_column(qll_calc_work *work)
{
    double height_m = qll_work_number(work, "height");
    qll_work_within(work, "height", height_m, 0, 1000);
    qll_water water = qll_work_water(work, 0);
    double drop_pa = water.density_kg_m3 * 9.80665 * height_m;
    qll_write_format(qll_work_step(work, QLL_CALC_STEP_COLUMN), "%.6g kg/m3 x 9.80665 m/s2 x %.6g m = %.6g Pa",
                     water.density_kg_m3, height_m, drop_pa);
    qll_work_with(work, "h", height_m, QLL_KIND_LENGTH);
    qll_work_finds(work, "drop_pa", drop_pa, QLL_KIND_PRESSURE_DIFFERENCE);
    qll_work_result(work, "drop_pa", drop_pa, QLL_KIND_PRESSURE_DIFFERENCE);
}

const qll_calc qll_calc_column = {
    .id = QLL_CALC_COLUMN,
    .name = "column",
    .inputs = column_inputs,
    .input_count = QLL_COUNT(column_inputs),
    .formula = "dp = rho g h",
    .run = run_column,
};
END
for language in en es; do
    words=src/wording/$language/calc_$language.c
    # Two languages never say the same: unit.messages holds them to it.
    case $language in
    en) title="pressure under a column of water" valid="water that stands still" from="hydrostatics" ;;
    es) title="presión bajo una columna de agua" valid="agua en reposo" from="hidrostática" ;;
    esac
    after "$words" 'QLL_PUT(TITLE_SURGE)' '    QLL_PUT(TITLE_COLUMN) = "'"$title"'",'
    after "$words" 'QLL_PUT(VALID_SURGE)' '    QLL_PUT(VALID_COLUMN) = "'"$valid"'",'
    after "$words" 'QLL_PUT(SOURCE_SURGE)' '    QLL_PUT(SOURCE_COLUMN) = "'"$from"'",'
    after "$words" 'QLL_PUT(STEP_SURGE)' '    QLL_PUT(STEP_COLUMN) = "dp = rho g h",'
    after "$words" 'QLL_PUT(FROM_SURGE)' '    QLL_PUT(FROM_COLUMN) = "'"$from"'",'
done
# 10 m of water at 4 degC, 999.97 kg/m3 (CRC Handbook, from memory): 98063.6 Pa.
printf '%s\n' 'ten meters of water,arithmetic on 999.97 kg/m3 x 9.80665,OWN,column|height=10 m|temperature=4 degC,drop_pa,98063.6,1e-4' \
    >>tests/reference/calc.csv
make quell test_reference_calc test_unit_messages test_unit_says_calc
passes 'reference.calc|unit.messages|unit.says_calc'
"$build/made/quell" calc column --help | grep -q height || fail "the help does not come by itself"
"$build/made/quell" calc column "height=10 m" --json | grep -q '"drop_pa"' || fail "the JSON does not come by itself"
if sh tests/cli/run.sh "$build/made/quell" "$tree/tests/cli" calc_list >"$build/said" 2>&1; then
    fail "cli.calc_list does not miss the new calculation"
fi
UPDATE_TRANSCRIPTS=1 sh tests/cli/run.sh "$build/made/quell" "$tree/tests/cli" calc_list >"$build/said" 2>&1 || true
sh tests/cli/run.sh "$build/made/quell" "$tree/tests/cli" calc_list >"$build/said" 2>&1 || { cat "$build/said"; fail "cli.calc_list is not renewed"; }
echo "a unit, a fixture kind and a calculation were added as the pages say"
