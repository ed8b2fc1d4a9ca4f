#!/bin/sh
# SPDX-License-Identifier: MIT
# The faults of tests/fault_test.cpp at 100 moments and 50 sizes; some minutes. BUILD names the build folder.
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
FOGPROOF_MOMENTS=${1:-100} FOGPROOF_SIZES=${2:-50} "${BUILD:-$root/build/tests-run}/tests/fault_test"
