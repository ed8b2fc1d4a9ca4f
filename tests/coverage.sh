#!/bin/sh
# SPDX-License-Identifier: MIT
# Copyright the fogproof authors
#
# How often told intervals hold on papers of other laws, over more papers than the suite has time for:
#   tests/coverage.sh [FOLDER OF THE BUILD]
# Every part is run to its end; ends with 1 where one misses what it has to hold.
set -eu
build=${1:-build}
missed=0
PACKS=200 "$build/tests/choose_tests" --gtest_filter='UnmeasuredPack.*' || missed=1
PACKS=40 "$build/tests/choose_tests" --gtest_filter='ForeignStart.*' || missed=1
PACKS=40 "$build/tests/fit_tests" --gtest_filter='ForeignPaper.*' || missed=1
PACKS=480 "$build/tests/fit_tests" --gtest_filter='SheetScatter.TheNextSheet*' || missed=1
exit $missed
