#!/bin/sh
# SPDX-License-Identifier: MIT
# Installs what the tests need, builds everything and runs the suite. Arguments go to CMake, as
# -DFOGPROOF_SANITIZE=ON; BUILD names another build folder.
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
folder=${BUILD:-$root/build/tests-run}
"$root/examples/set-up.sh" libgtest-dev libgmock-dev
"$root/examples/build.sh" "$folder" -DFOGPROOF_TESTS=ON "$@"
ctest --test-dir "$folder" --output-on-failure -j "$(nproc)"
