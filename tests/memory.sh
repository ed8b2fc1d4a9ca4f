#!/bin/sh
# SPDX-License-Identifier: MIT
# Every reader under Valgrind's memcheck, for uninitialised and foreign memory: over the inputs kept for the fuzzers, and N tries [100] of
# attack.sh with the whole program. Builds into BUILD [build/memory]. Ends with 1 where something is found.
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
folder=${BUILD:-$root/build/memory}
# Valgrind computes long double in 64 bits, which the tables of Boost.Math do not stand.
cmake -S "$root" -B "$folder" -G Ninja -DCMAKE_UNITY_BUILD=ON -DCMAKE_BUILD_TYPE=RelWithDebInfo \
    -DCMAKE_CXX_FLAGS_RELWITHDEBINFO="-O1 -g1" -DCMAKE_CXX_FLAGS="-DBOOST_MATH_PROMOTE_DOUBLE_POLICY=false" >/dev/null
ninja -C "$folder" fogproof house_tests >"$folder/build.log" || { cat "$folder/build.log"; exit 1; }
# What libraries keep until the end is no fault; what is read before it is written is one.
watched="valgrind --quiet --error-exitcode=99 --leak-check=no --num-callers=20"
found=0
$watched "$folder/tests/house_tests" --gtest_filter='FuzzReplay.*' || found=1
printf '#!/bin/sh\nexec %s "%s" "$@"\n' "$watched" "$folder/fogproof" >"$folder/watched"
chmod 755 "$folder/watched"
SLOWNESS=60 "$root/tests/attack.sh" "$folder/watched" "${1:-100}" || found=1
exit $found
