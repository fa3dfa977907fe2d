#!/bin/sh
# check.sh LIBRARY SIZES FOLDER   holds what the shared library offers against FOLDER/names.txt and sizes.txt
#
# A name gone, a struct grown: programs built on the library before would break, and SOVERSION must rise. With UPDATE_ABI
# set in the environment the lists are written anew.
set -eu
library=$1
sizes=$2
folder=$3
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
[ -r "$library" ] || { echo "no $library"; exit 1; }
nm -D --defined-only "$library" | sed 's/.* //' | LC_ALL=C sort >"$work/names.txt"
"$sizes" >"$work/sizes.txt"
if [ -n "${UPDATE_ABI:-}" ]; then
    cp "$work/names.txt" "$work/sizes.txt" "$folder"
    exit 0
fi
diff -u "$folder/names.txt" "$work/names.txt"
# Sizes are those of 64-bit machines.
[ "$(getconf LONG_BIT)" != 64 ] || diff -u "$folder/sizes.txt" "$work/sizes.txt"
