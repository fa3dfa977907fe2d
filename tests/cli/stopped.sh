#!/bin/sh
# stopped.sh QUELL ROOT: a signal ends a long design with the best found so far, or with a sentence, and never in any other way.
# Left alone it ends as well: time does not grow with the valves as the stations do that could be made of them.
set -eu
quell=$1
root=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
# Near-twins of eight sizes, made up: many enough that a design takes its time.
awk 'BEGIN {
    print "id,nominal_in,acting,kv_m3h,set_min_psi,set_max_psi,inlet_max_psi,band_psi,lockup_rise_psi,flow_min_gpm,price"
    sizes = split("1/2 3/4 1 1-1/4 1-1/2 2 2-1/2 3", size, " ")
    split("1.2 2.1 3.3 6 9 15 24 38", kv, " ")
    for (i = 1; i <= sizes; i++) for (j = 0; j < 80; j++)
        printf "V-%d-%03d,%s,direct,%.4f,25,75,300,%d,3,%.3f,%d\n", i, j, size[i], kv[i] * (1 - 0.002 * j),
            10 + j % 5, 0.2 * kv[i] * (1 + 0.004 * j), 1000 * i - j
}' >"$work/valves.csv"
"$quell" catalogue import "$work/valves.csv" >"$work/valves.json"

best=0
for delay in 0.1 0.3 0.6 1.2 2.4 5 10; do
    for signal in INT TERM HUP; do
        status=0
        timeout --preserve-status -s $signal $delay "$quell" design --json "$root/examples/repurposed-building/survey.json" \
            --catalogue "$work/valves.json" >"$work/answer" 2>"$work/said" || status=$?
        if [ $status -eq 0 ]; then
            grep -q '"recommended": 0' "$work/answer" || { echo "$signal after $delay s: no station"; exit 1; }
            ! grep -q '"stopped": true' "$work/answer" || best=$((best + 1))
        elif [ $status -eq 3 ]; then
            grep -q '^quell: stopped before there was an answer' "$work/said" || { cat "$work/said"; exit 1; }
            [ ! -s "$work/answer" ] || { echo "$signal after $delay s: half an answer"; exit 1; }
        elif [ $status -lt 128 ] || [ "${delay#0.}" = "$delay" ]; then # soon after its start it does not listen yet
            echo "$signal after $delay s: status $status: $(cat "$work/said")"
            exit 1
        fi
    done
    if [ $status -eq 0 ] && [ $best -ge 3 ]; then break; fi
done
timeout 600 "$quell" design --json "$root/examples/repurposed-building/survey.json" --catalogue "$work/valves.json" >"$work/answer"
grep -q '"stopped": false' "$work/answer" || { echo "it stopped of itself"; exit 1; }
echo "$best times the best so far"
[ $best -gt 0 ]
