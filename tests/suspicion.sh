#!/bin/sh
# SPDX-License-Identifier: MIT
# Copyright the fogproof authors
#
# Negatives computed from photographs that others have shot, good ones and wrongly scanned ones: how many are
# warned of. The thresholds were chosen on the first dozen and are told on the second. Takes some minutes.
#   tests/suspicion.sh build/fogproof
# The photographs come in packages of Debian; nothing of them is kept.
set -eu
program=$(realpath "$1")
here=$(dirname "$(realpath "$0")")
apt-get install -y --no-install-recommends mate-backgrounds plasma-workspace-wallpapers python3-skimage \
    python3-numpy python3-scipy python3-pil python3-tifffile > /dev/null
scans=$(mktemp -d)
trap 'rm -rf "$scans"' EXIT
walls=/usr/share/wallpapers
pictures=/usr/lib/python3/dist-packages/skimage/data

echo "Chosen on"
/usr/bin/python3 "$here/suspicion/scans.py" "$scans/chosen" /usr/share/backgrounds/mate/nature/*.jpg
/usr/bin/python3 "$here/suspicion/count.py" "$program" "$scans/chosen" || chosen=wrong
echo "Held out"
set -- "$pictures/astronaut.png" "$pictures/camera.png" "$pictures/chelsea.png" "$pictures/coffee.png" \
    "$pictures/rocket.jpg" "$pictures/motorcycle_left.png"
for name in Autumn BytheWater ColorfulCups FallenLeaf ColdRipple EveningGlow; do
    set -- "$@" "$walls/$name/contents/images/2560x1600.jpg"
done
/usr/bin/python3 "$here/suspicion/scans.py" "$scans/held-out" "$@"
/usr/bin/python3 "$here/suspicion/count.py" "$program" "$scans/held-out" || held=wrong
[ -z "${chosen-}${held-}" ]
