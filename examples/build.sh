#!/bin/sh
# SPDX-License-Identifier: MIT
# Builds fogproof into a folder (first argument); further arguments go to CMake.
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
folder=$1
shift
"$root/examples/set-up.sh" g++ cmake ninja-build pkg-config libvips-dev liblcms2-dev libtiff-dev libdeflate-dev libcli11-dev \
    libtomlplusplus-dev nlohmann-json3-dev libboost-dev libboost-math-dev libceres-dev fonts-dejavu-core
cmake -S "$root" -B "$folder" -G Ninja -DCMAKE_UNITY_BUILD=ON "$@" >/dev/null
cmake --build "$folder"
