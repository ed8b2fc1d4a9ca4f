#!/bin/sh
# SPDX-License-Identifier: MIT
# Builds an archive that brings its libraries: it runs on any Linux with the same processor and the same C library or a
# newer one. A folder for the build may be given.
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
build=${1:-$root/build/portable}
"$root/examples/build.sh" "$build" -DFOGPROOF_TESTS=OFF -DFOGPROOF_PORTABLE=ON
cd "$build"
cpack -G TGZ >/dev/null
archive=$(ls -t "$PWD"/fogproof*.tar.gz | head -n 1)
echo "The archive: $archive"
echo "Unpack it anywhere and run bin/fogproof."
