# SPDX-License-Identifier: MIT
# Copyright the fogproof authors
#
# Photographs that others have shot, out of packages of Debian, for scripts that source this file; nothing of them
# is kept. `nature`, `mixed`, `textures` and `painted` are lists of files without blanks in their names.
apt-get install -y --no-install-recommends mate-backgrounds plasma-workspace-wallpapers python3-skimage \
    python3-numpy python3-scipy python3-pil python3-tifffile > /dev/null
nature=$(ls /usr/share/backgrounds/mate/nature/*.jpg)
mixed= painted= textures=
for name in astronaut.png camera.png chelsea.png coffee.png rocket.jpg motorcycle_left.png; do
    mixed="$mixed /usr/lib/python3/dist-packages/skimage/data/$name"
done
for name in grass.png gravel.png brick.png; do
    textures="$textures /usr/lib/python3/dist-packages/skimage/data/$name"
done
for name in Autumn BytheWater ColorfulCups FallenLeaf ColdRipple EveningGlow; do
    painted="$painted /usr/share/wallpapers/$name/contents/images/2560x1600.jpg"
done
