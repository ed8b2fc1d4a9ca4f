#!/bin/sh
# SPDX-License-Identifier: MIT
# Builds the program from two copies of the sources in folders of other names and compares every byte.
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
export CCACHE_DISABLE=1
for copy in one another/deeper; do
    mkdir -p "$place/$copy"
    (cd "$root" && tar cf - CMakeLists.txt README.md DEVELOPERS.md LICENSE src include examples tests) |
        tar xf - -C "$place/$copy"
    "$place/$copy/examples/build.sh" "$place/$copy/build" -DFOGPROOF_TESTS=OFF >/dev/null
    sha256sum "$place/$copy/build/fogproof"
done
cmp "$place/one/build/fogproof" "$place/another/deeper/build/fogproof"
echo "the same binary"
