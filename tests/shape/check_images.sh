#!/bin/sh
# check_images.sh ROOT QUELL: the drawings of docs/images are what `quell report --plot` draws of
# examples/repurposed-building. With UPDATE_IMAGES set in the environment they are written anew, and so are the pictures
# of two pages, which no test compares: their bytes hang on poppler.
set -eu
root=$1
quell=$2
survey=$root/examples/repurposed-building/survey.json
images=$root/docs/images
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
failed=0
for row in station:schematic report_falloff:falloff report_duration:duration-2 report_noise:noise; do
    name=${row%%:*}
    "$quell" report "$survey" --plot "${row#*:}" -o "$work/$name.svg"
    if [ -n "${UPDATE_IMAGES:-}" ]; then
        cp "$work/$name.svg" "$images/$name.svg"
    elif ! cmp "$work/$name.svg" "$images/$name.svg"; then
        failed=1
    fi
done
if [ -n "${UPDATE_IMAGES:-}" ]; then
    "$quell" report "$survey" -o "$work/report.pdf"
    pdftoppm -png -r 64 -singlefile -f 1 "$work/report.pdf" "$images/report_cover"
    pdftoppm -png -r 64 -singlefile -f 3 "$work/report.pdf" "$images/report_commissioning"
fi
exit "$failed"
