#!/bin/sh
# run.sh QUELL ROOT: the engine of build/web in Node, where it was built (./dev web); ends with 77, skipped, where it was not.
set -eu
QUELL=$1
ROOT=$2
ENGINE=$ROOT/build/web/engine.wasm
TWIN=$ROOT/build/twin/quell_twin
skip() {
    echo "skipped: $1; ./dev web makes it"
    exit 77
}
command -v node >/dev/null || skip "there is no node"
[ -r "$ENGINE" ] || skip "there is no build/web/engine.wasm"
[ -z "$(find "$ROOT/src" "$ROOT/data" "$ROOT/include" "$ROOT/web/engine" -type f -newer "$ENGINE" -print -quit)" ] || skip "build/web/engine.wasm is older than the sources"
[ -x "$TWIN" ] || TWIN=
export QUELL ROOT ENGINE TWIN
exec node --test "$ROOT/tests/web/engine.test.mjs" "$ROOT/tests/web/records.test.mjs" "$ROOT/tests/web/page_engines.test.mjs"
