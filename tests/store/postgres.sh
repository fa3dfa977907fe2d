#!/bin/sh
# postgres.sh PROGRAM [ARGUMENT ...]: runs PROGRAM ARGUMENT ... ADDRESS on a PostgreSQL of its own, which nobody else reaches and of which nothing is left.
# Where there is none it says so and counts as skipped (77).
set -eu
bin=$(ls -d /usr/lib/postgresql/*/bin 2> /dev/null | sort -V | tail -1)
if [ -z "$bin" ] || [ ! -x "$bin/initdb" ]; then
    echo "skipped: there is no PostgreSQL on this machine"
    exit 77
fi
work=$(mktemp -d)
switch=
if [ "$(id -u)" -eq 0 ]; then
    # The server refuses to run as root.
    chown postgres "$work"
    switch="setpriv --reuid=postgres --regid=postgres --init-groups"
fi
chmod 755 "$work"
cd "$work"
options="-k $work -c listen_addresses= -c fsync=off"
stop() {
    $switch "$bin/pg_ctl" -D "$work/data" -m immediate stop > /dev/null 2>&1 || true
    cd /
    rm -rf "$work"
}
trap stop EXIT
$switch "$bin/initdb" -D "$work/data" -U quell --auth=trust --no-sync -E UTF8 --locale=C.UTF-8 > "$work/initdb.log" 2>&1 || {
    cat "$work/initdb.log"
    exit 1
}
$switch "$bin/pg_ctl" -D "$work/data" -w -l "$work/log" -o "$options" start > "$work/start.log" 2>&1 || {
    cat "$work/start.log" "$work/log"
    exit 1
}
# A test may take the database away for a while, at once as in a crash.
PG_HALT="$switch $bin/pg_ctl -D $work/data -m immediate stop > /dev/null"
PG_BEGIN="$switch $bin/pg_ctl -D $work/data -w -l $work/log -o '$options' start > /dev/null"
export PG_HALT PG_BEGIN
"$@" "postgresql://quell@/postgres?host=$work"
