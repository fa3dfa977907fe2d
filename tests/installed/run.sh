#!/bin/sh
# run.sh BUILD FOLDER   installs BUILD into a place of its own, builds the program in FOLDER on it and asks a question
set -eu
build=$1
folder=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cmake --install "$build" --prefix "$work/tree" >"$work/log"
[ -x "$work/tree/bin/quell" ] || { echo "no program in the installed tree"; exit 1; }

cmake -S "$folder" -B "$work/ask" -DCMAKE_PREFIX_PATH="$work/tree" -DCMAKE_BUILD_TYPE=Debug >"$work/log" 2>&1 &&
    cmake --build "$work/ask" >"$work/log" 2>&1 || { cat "$work/log"; exit 1; }
want=$("$build/quell" --version | sed 's/quell //')
for program in ask_quell ask_static ask_cpp_quell ask_cpp_static; do
    got=$("$work/ask/$program")
    case $got in
    "$want calc"*"velocity"*"8.2 ft/s"*) ;;
    *) echo "$program says: $got"; exit 1 ;;
    esac
done
if ldd "$work/ask/ask_static" | grep -q libquell; then
    echo "the static program wants the shared library"
    exit 1
fi

# The same by pkg-config, as a plain makefile would.
if command -v pkg-config >/dev/null; then
    PKG_CONFIG_PATH=$(dirname "$(find "$work/tree" -name quell.pc)")
    export PKG_CONFIG_PATH
    # shellcheck disable=SC2046  # one word per flag
    cc "$folder/ask.c" $(pkg-config --cflags --libs quell) -o "$work/by_pkg_config"
    libraries=$(dirname "$(find "$work/tree" -name 'libquell.so')")
    LD_LIBRARY_PATH=$libraries "$work/by_pkg_config" | grep -q '^'"$want"' calc$' || { echo "pkg-config: no answer"; exit 1; }
fi
