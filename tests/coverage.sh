#!/bin/sh
# SPDX-License-Identifier: MIT
# Copyright the fogproof authors
#
# How often told intervals hold on papers of other laws, over more papers than the suite has time for:
#   tests/coverage.sh [FOLDER OF THE BUILD]
set -eu
build=${1:-build}
PACKS=200 "$build/tests/choose_tests" --gtest_filter='UnmeasuredPack.*'
PACKS=40 "$build/tests/choose_tests" --gtest_filter='ForeignStart.*'
PACKS=40 "$build/tests/fit_tests" --gtest_filter='ForeignPaper.*'
