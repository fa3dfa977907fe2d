#!/bin/sh
# serve.sh QUELL ROOT [SECONDS [SITES]]: the server under 256 connections, its memory meanwhile; how soon it says that it is well, and lists,
# searches and follows 10,000 sites with 200,000 readings, while it works on four designs. Needs wrk and curl.
set -eu
quell=$1
root=$2
seconds=${3:-20}
sites=${4:-10000}
box=$(mktemp -d)
export QUELL_STORE="$box/records.db"
# A firm's records: sites by number, each with a plan and ten visits of two readings.
awk -v sites="$sites" 'BEGIN {
    print "{\"records\":1,\"list\":["
    for (s = 0; s < sites; s++) {
        site = sprintf("00000000-0000-4000-8000-%012d", s)
        tail = sprintf("\"site\":\"%s\",\"who\":\"ana\",\"at\":\"2016-05-02T09:00:00Z\"", site)
        printf "%s{\"record\":1,\"id\":\"00000000-0000-4000-8001-%012d\",\"kind\":\"site\",\"document\":\"%s\",%s,\"body\":{\"name\":\"Building %d\",\"address\":\"%d Mill Lane\"}}", s ? ",\n" : "", s, site, tail, s * 7919 % sites, s
        printf ",\n{\"record\":1,\"id\":\"00000000-0000-4000-8002-%012d\",\"kind\":\"plan\",\"document\":\"00000000-0000-4000-8003-%012d\",%s,\"body\":{\"every_months\":12,\"first\":\"2020-01-01\"}}", s, s, tail
        for (v = 0; v < 10; v++)
            printf ",\n{\"record\":1,\"id\":\"00000000-0000-4000-81%02d-%012d\",\"kind\":\"visit\",%s,\"body\":{\"purpose\":\"service\",\"day\":\"20%d-05-%02d\",\"case\":{\"case\":1,\"readings\":[{\"gauge\":\"outlet\",\"pressure\":\"%d psi\",\"flow\":\"5 gpm\"},{\"gauge\":\"outlet\",\"pressure\":\"%d psi\",\"flow\":\"0 gpm\"}]}}}", v, s, tail, 16 + v, 1 + s % 28, 58 + (v + s) % 4, 63 + v / 3
    }
    print "\n]}"
}' >"$box/firm.json"
"$quell" site import "$box/firm.json"
rm "$box/firm.json"
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
middle=00000000-0000-4000-8000-$(printf %012d $((sites / 2)))
for path in "/api/sites" "/api/sites?after=$middle" "/api/sites?words=mill%2077" "/api/due?most=200" "/api/trends/$middle"; do
    for _ in $(seq 20); do
        curl -s -o /dev/null -w '%{time_total}\n' "$home$path"
    done | sort -n >"$box/took"
    echo "$path of $sites sites while four designs run: median $(sed -n 10p "$box/took") s, slowest $(tail -1 "$box/took") s of 20"
done
for _ in $(seq 100); do
    curl -s -o /dev/null -w '%{time_total}\n' "$home/api/health"
    sleep 0.02
done | sort -n >"$box/took"
echo "health while four designs run: median $(sed -n 50p "$box/took") s, slowest $(tail -1 "$box/took") s of 100"
curl -s "$home/api/health" | tr -d '\n'
echo
