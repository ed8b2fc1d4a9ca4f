#!/bin/sh
# SPDX-License-Identifier: MIT
# The faults of tests/promises/faults_test.cpp at 100 moments and 50 sizes, and 100 runs of each job in a folder where somebody swaps links in
# (tests/system/whole_file_test.cpp); some minutes. BUILD names the build folder.
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
tests=${BUILD:-$root/build/tests-run}/tests
FOGPROOF_MOMENTS=${1:-100} FOGPROOF_SIZES=${2:-50} "$tests/promises_tests" --gtest_filter='Faults.*'
FOGPROOF_SWAPS=${3:-100} "$tests/system_tests" --gtest_filter='OutputFiles.ALinkSwappedIn*'
