# The page is copied from beside the program, as a folder or as one file; without it that is said.
#
#     page.sh QUELL ROOT
set -eu
quell=$1
box=$(mktemp -d)
trap 'rm -rf "$box"' EXIT
mkdir -p "$box/bin"
cp "$quell" "$box/bin/quell"

fail() {
    echo "page: $*"
    exit 1
}

"$box/bin/quell" page >"$box/out" 2>"$box/said" && fail "it went nowhere"
grep -q -- "-o FOLDER" "$box/said" || fail "it does not say where to"
"$box/bin/quell" page -o "$box/none" 2>"$box/said" && fail "there was no page"
grep -q "without the page" "$box/said" || fail "it does not say what is missing"

mkdir -p "$box/share/quell/page"
echo one >"$box/share/quell/page/index.html"
echo two >"$box/share/quell/page/page.js"
echo "<html>" >"$box/share/quell/quell.html"
"$box/bin/quell" page -o "$box/site" --json >"$box/out"
cmp "$box/share/quell/page/index.html" "$box/site/index.html"
cmp "$box/share/quell/page/page.js" "$box/site/page.js"
[ "$(ls "$box/site" | wc -l)" -eq 2 ] || fail "more was copied than there is"
grep -q '"quell": "page/1"' "$box/out" || fail "the answer has no name"
tail -n 8 "$box/out" | grep -q index.html || fail "index.html was not copied last"
"$box/bin/quell" page -o "$box/one.html"
cmp "$box/share/quell/quell.html" "$box/one.html"
"$box/bin/quell" page -o "$box/one.html/no" 2>"$box/said" && fail "a file was taken for a folder"
grep -q "cannot write" "$box/said" || fail "it does not say what could not be written"
