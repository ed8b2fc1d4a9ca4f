#!/bin/sh
# SPDX-License-Identifier: MIT
# Copyright the fogproof authors
#
# Scans of prints computed from photographs that others have shot, read against their negatives: how many are
# placed, how far off corners and tones are, and how many prints of other negatives are refused. The thresholds
# were chosen on some hundred prints of seeds below 1000. Takes some seconds a print.
#   tests/scanned_prints.sh build/fogproof [FIRST [COUNT]]
# The photographs come in packages of Debian; nothing of them is kept.
set -eu
program=$(realpath "$1")
first=${2:-1000} count=${3:-200}
here=$(dirname "$(realpath "$0")")
apt-get install -y --no-install-recommends mate-backgrounds plasma-workspace-wallpapers python3-skimage \
    python3-numpy python3-scipy python3-pil python3-tifffile > /dev/null
scans=$(mktemp -d)
trap 'rm -rf "$scans"' EXIT
walls=/usr/share/wallpapers
pictures=/usr/lib/python3/dist-packages/skimage/data
set -- /usr/share/backgrounds/mate/nature/*.jpg
for name in astronaut.png camera.png chelsea.png coffee.png rocket.jpg motorcycle_left.png grass.png gravel.png \
    brick.png; do
    set -- "$@" "$pictures/$name"
done
for name in Autumn BytheWater ColorfulCups FallenLeaf ColdRipple EveningGlow; do
    set -- "$@" "$walls/$name/contents/images/2560x1600.jpg"
done
/usr/bin/python3 "$here/scanned_prints/read.py" "$program" "$scans" "$first" "$count" "$@"
