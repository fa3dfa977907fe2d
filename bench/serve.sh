#!/bin/sh
# serve.sh QUELL ROOT [SECONDS]: the server under 256 connections, its memory meanwhile, and how soon it says that it is well while it
# works on four designs. Needs wrk and curl.
set -eu
quell=$1
root=$2
seconds=${3:-20}
box=$(mktemp -d)
export QUELL_STORE="$box/records.db"
"$quell" serve --port 0 2>"$box/said" &
server=$!
trap 'kill "$server" 2>/dev/null; wait "$server" 2>/dev/null; rm -rf "$box"' EXIT
port=""
while [ -z "$port" ]; do
    sleep 0.1
    port=$(sed -n 's|.*ready at http://localhost:\([0-9]*\)/.*|\1|p' "$box/said")
done
home=http://localhost:$port

memory() { awk '/^VmRSS:/ { print $2 }' "/proc/$server/status"; }

for path in /api/health /api/openapi.json /api/sites; do
    wrk -t1 -c256 -d"${seconds}s" --latency "$home$path" >"$box/wrk" &
    work=$!
    sleep 5
    at_5=$(memory)
    wait "$work"
    at_end=$(memory)
    rate=$(sed -n 's/^Requests\/sec: *//p' "$box/wrk")
    p99=$(sed -n 's/^ *99% *//p' "$box/wrk")
    errors=$(grep -E 'Socket errors|Non-2xx' "$box/wrk" || echo "no error")
    echo "$path: 256 connections for $seconds s: $rate requests a second, 99 % within $p99, $errors; memory $at_5 KiB after 5 s, $at_end KiB at the end"
done

for example in hillside repurposed-building slam hillside; do
    (for _ in 1 2 3 4 5 6; do
        curl -s -o /dev/null -H 'Content-Type: application/json' --data-binary "@$root/examples/$example/survey.json" "$home/api/design"
    done) &
done
sleep 0.3
curl -s "$home/api/health" | tr -d '\n'
echo
for _ in $(seq 100); do
    curl -s -o /dev/null -w '%{time_total}\n' "$home/api/health"
    sleep 0.02
done | sort -n >"$box/took"
echo "health while four designs run: median $(sed -n 50p "$box/took") s, slowest $(tail -1 "$box/took") s of 100"
curl -s "$home/api/health" | tr -d '\n'
echo
