#!/bin/sh
# SPDX-License-Identifier: MIT
# The installed tree serves a program of somebody else: installs the library of a build folder, builds the example on
# it, and holds its answer against that of the program itself.
set -eu

sources=$1 build=$2 program=$3
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT

cmake --install "$build" --prefix "$place/installed" --component library >/dev/null
cmake -S "$sources/examples/own-program" -B "$place/own" -DCMAKE_PREFIX_PATH="$place/installed" \
    -DCMAKE_BUILD_TYPE=Release -DCMAKE_CXX_FLAGS="${4-}" >/dev/null
cmake --build "$place/own" >/dev/null

# The same with pkg-config alone.
PKG_CONFIG_PATH=$(dirname "$(find "$place/installed" -name fogproof.pc)")
export PKG_CONFIG_PATH
c++ -std=c++20 ${4-} "$sources"/examples/own-program/*.cpp $(pkg-config --cflags --libs --static fogproof) -o "$place/own-by-pkg-config"

cd "$place"
"$program" --quiet pack new --white 0.08 --blank 0.40 -o pack.toml
./own/step_densities pack.toml >own.txt
./own-by-pkg-config pack.toml | cmp - own.txt
"$program" pack show pack.toml --json --at grade=2 >shown.json
# Both say which density one second through clear film prints.
mine=$(awk '$1 == "1" { print $2 }' own.txt)
theirs=$(tr -d ' \n' <shown.json | sed 's/.*"density":\[\([^]]*\)\].*/\1/' | cut -d, -f61 | xargs printf '%.2f')
if [ -z "$mine" ] || [ "$mine" != "$theirs" ]; then
    echo "the installed library says $mine, the program $theirs" >&2
    cat own.txt >&2
    exit 1
fi
if ./own/step_densities nowhere.toml 2>/dev/null; then
    echo "a missing pack passed" >&2
    exit 1
fi
