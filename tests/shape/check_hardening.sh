#!/bin/sh
# check_hardening.sh PROGRAM LIBRARY   holds what is built to what it is built with against an overrun
set -eu
failed=0
need() {
    file=$1
    what=$2
    option=$3
    if ! readelf -W "$option" "$file" | grep -q "$what"; then
        echo "$file: no $what"
        failed=1
    fi
}
for file in "$@"; do
    need "$file" GNU_RELRO -l
    need "$file" 'NOW' -d
    need "$file" '__stack_chk_fail' -s
    need "$file" 'DYN ' -h
    if readelf -W -l "$file" | grep GNU_STACK | grep -q RWE; then
        echo "$file: its stack can be run"
        failed=1
    fi
    if readelf -W -d "$file" | grep -qE 'RPATH|RUNPATH'; then
        echo "$file: looks for libraries where it was built"
        failed=1
    fi
done
exit $failed
