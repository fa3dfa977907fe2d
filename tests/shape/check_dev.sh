#!/bin/sh
# check_dev.sh ROOT: ./dev refuses what it does not understand with one sentence, before it builds anything, and says so where it may
# not write; what it installs is told.
set -eu
root=$1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir "$work/tree"
cp "$root/dev" "$root/CMakePresets.json" "$root/CMakeLists.txt" "$work/tree"
failed=0

# refuses STATUS SAID ARGUMENT...
refuses() {
    want=$1
    said=$2
    shift 2
    status=0
    (cd "$work/tree" && timeout 60 "$@") >"$work/out" 2>"$work/err" || status=$?
    if [ $status -ne "$want" ] || [ "$(grep -vc '^dev: building' "$work/err")" -ne 1 ] || ! grep -q "$said" "$work/err" || [ -s "$work/out" ]; then
        echo "$*: status $status, said:"
        cat "$work/out" "$work/err"
        failed=1
    fi
}
refuses 2 '^usage: ./dev build' ./dev
refuses 2 '^usage: ./dev build' ./dev tets
refuses 1 '^dev: how many seconds? abc is no whole number' ./dev fuzz abc
refuses 1 '^dev: how many seconds? -5 is no whole number' ./dev fuzz -5
refuses 1 '^dev: how many.* ten' ./dev mutate ten
refuses 1 '^dev: how many.* x' ./dev mutate 5 x
[ ! -e "$work/tree/build" ] || { echo "something was built"; failed=1; }
# What it would install stands in CONTRIBUTING.md.
for package in $(sed -n '/_packages="/,/"$/p; s/^ *need .*_packages *//p; s/.*|| need //p' "$root/dev" | tr -c 'a-z0-9.+_-' '\n' | grep -v '_packages$'); do
    grep -qwF -e "$package" "$root/CONTRIBUTING.md" || { echo "CONTRIBUTING.md does not name the package $package"; failed=1; }
done
# As somebody who may not write here. Root may write anywhere, and so asks as nobody.
chmod -R a+rX,a-w "$work/tree"
chmod a+rx "$work"
nobody=""
if [ "$(id -u)" -eq 0 ]; then
    nobody="setpriv --reuid=65534 --regid=65534 --clear-groups"
    command -v setpriv >/dev/null || exit $failed
fi
# shellcheck disable=SC2086  # one word per option
refuses 1 '^dev: this folder cannot be written to: ' $nobody ./dev build
chmod -R u+w "$work/tree"
exit $failed
