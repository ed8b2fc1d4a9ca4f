#!/bin/sh
# SPDX-License-Identifier: MIT
# The faults of tests/fault_test.cpp at 100 moments and 50 sizes, and 100 runs of each job in a folder where somebody swaps links in
# (tests/output_files_test.cpp); some minutes. BUILD names the build folder.
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
tests=${BUILD:-$root/build/tests-run}/tests
FOGPROOF_MOMENTS=${1:-100} FOGPROOF_SIZES=${2:-50} "$tests/fault_test"
FOGPROOF_SWAPS=${3:-100} "$tests/output_files_test" --gtest_filter='OutputFiles.ALinkSwappedIn*'
