#!/bin/sh
# SPDX-License-Identifier: MIT
# A whole evening on the demo, from the flatbed to a better worksheet:
#     evening.sh FOLDER [MEGAPIXELS]
# The program is taken from build/ after first-grid.sh, or from $FOGPROOF.
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
fogproof=$(realpath "${FOGPROOF:-$root/build/fogproof}")
[ $# -eq 1 ] || [ $# -eq 2 ] ||
    { echo "evening.sh FOLDER [MEGAPIXELS]: one new or empty folder is needed" >&2; exit 64; }
mkdir -p "$1"
cd "$1"

say() { printf '\n%s\n' "$*"; }

say "The scenario: a negative, a pack of old paper, the scan of a first print cut in two."
"$fogproof" demo . ${2:+--megapixels "$2"}

say "1. Is the pack worth it?"
"$fogproof" pack show pack.toml | sed -n 1,3p

say "2. The worksheet, as far as the pack is known. The labels of its print are written beside it."
"$fogproof" plan negative.tif --pack pack.toml -o before

say "3. The print is made, cut in two, and one half is bleached. Its scan is read against the negative."
"$fogproof" read print.jpg --labels print-labels.csv --known 3=fixed -o prints.csv --picture seen.jpg

say "4. The pack learns from it."
"$fogproof" pack fit prints.csv --pack pack.toml --negative negative.tif -o learnt.toml | sed -n '/^Negatives/,$p'

say "5. The better worksheet."
"$fogproof" plan negative.tif --pack learnt.toml -o after

say "To look at: $PWD/seen.jpg, $PWD/before/negative.html, $PWD/after/negative.html"
