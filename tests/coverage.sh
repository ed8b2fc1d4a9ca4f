#!/bin/sh
# SPDX-License-Identifier: MIT
# Line coverage of the library and the program by the suite, file by file and in all. BUILD names the build folder.
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
folder=${BUILD:-$root/build/coverage}
"$root/examples/set-up.sh" gcovr libgtest-dev libgmock-dev parallel make
"$root/examples/build.sh" "$folder" -DFOGPROOF_TESTS=ON -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS="--coverage -Og"
ctest --test-dir "$folder" -j "$(nproc)" --output-on-failure >"$folder/suite.log" || tail -30 "$folder/suite.log"
cd "$folder"
gcovr -r "$root" --filter "$root/src/" --filter "$root/include/" --object-directory "$folder" -j "$(nproc)" "$@"
