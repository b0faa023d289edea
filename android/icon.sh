#!/usr/bin/env bash
# Draws the sign of the program for its icon, from one of our drawings: `icon.sh DRAWING.svg FOLDER`.
# The outer sixth of an adaptive icon may be cut away in any shape, so the drawing stays inside.
set -euo pipefail
drawing=$1
out=$2
# Without the ground line, which every drawing begins with, and cut to the bowl.
inner=$(sed -e 's|viewBox="0 0 320 200"|x="92" y="146" width="248" height="140" viewBox="36 44 248 140"|' \
    -e 's|<path d="M22 178[^>]*/>||' "$drawing")
for size in mdpi:108 hdpi:162 xhdpi:216 xxhdpi:324 xxxhdpi:432; do
    folder=$out/mipmap-${size%%:*}
    mkdir -p "$folder"
    printf '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 432 432">%s</svg>' "$inner" |
        rsvg-convert -w "${size##*:}" -h "${size##*:}" -o "$folder/sign.png"
done
