#!/bin/sh
# SPDX-License-Identifier: MIT
# Builds the Debian package, and tells its file and how to install it. A folder for the build may be given.
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
build=${1:-$root/build}
"$root/examples/set-up.sh" dpkg-dev file
"$root/examples/build.sh" "$build" -DFOGPROOF_TESTS=OFF
cd "$build"
cpack -G DEB >/dev/null
package=$(ls -t "$PWD"/fogproof_*.deb | head -n 1)
echo "The package: $package"
echo "Install it:  sudo apt install $package"
