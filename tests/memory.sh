#!/bin/sh
# SPDX-License-Identifier: MIT
# Every reader under Valgrind's memcheck, over the inputs kept for the fuzzers: uninitialised and foreign memory. Builds into BUILD
# [build/memory]; words are handed to the test.
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
folder=${BUILD:-$root/build/memory}
# Valgrind computes long double in 64 bits, which the tables of Boost.Math do not stand.
cmake -S "$root" -B "$folder" -G Ninja -DCMAKE_BUILD_TYPE=RelWithDebInfo \
    -DCMAKE_CXX_FLAGS="-O1 -DBOOST_MATH_PROMOTE_DOUBLE_POLICY=false" >/dev/null
ninja -C "$folder" fuzz_replay_test >/dev/null
# What libraries keep until the end is no fault; what is read before it is written is one.
exec valgrind --quiet --error-exitcode=9 --leak-check=no --num-callers=20 "$folder/tests/fuzz_replay_test" "$@"
