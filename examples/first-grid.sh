#!/bin/sh
# SPDX-License-Identifier: MIT
# From a fresh checkout to a first proof grid: builds fogproof, writes the demo scenario and renders its grid.
# The folder of the demo may be given; without it build/demo is used.
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
folder=${1:-$root/build/demo}
echo "Builds fogproof and draws a first grid: about four minutes on two quick processors, ten on slow ones."
"$root/examples/build.sh" "$root/build" -DFOGPROOF_TESTS=OFF
fogproof=$root/build/fogproof

"$fogproof" demo "$folder" --force
"$fogproof" grid "$folder/negative.tif" --pack "$folder/pack.toml" -o "$folder/grid.png" --force
cat <<END

The proof grid: $folder/grid.png

Next, in the folder $folder:
    $fogproof pack show pack.toml
    $fogproof start negative.tif --pack pack.toml
    $root/examples/evening.sh evening
END
