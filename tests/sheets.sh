#!/bin/sh
# SPDX-License-Identifier: MIT
# Copyright the fogproof authors
#
# How far first and second sheets miss what is wanted: papers of other laws, negatives of photographs that others
# have shot, a picture to match that the paper can come near. From slips and three strips to a first sheet, with
# its tones to a second; and from both halves of one print alone. L* rms over the closest print that the paper
# can give at all.
#   tests/sheets.sh FOLDER-OF-THE-BUILD [FIRST [COUNT [LEAST MOST]]]
# Sheets scatter by LEAST to MOST density, one standard deviation. With VERBOSE=1 every paper is told; with MATCHED=1
# filters are matched in speed, as sets are sold. Takes some five seconds a paper. The photographs come in packages of Debian; nothing of them is
# kept.
set -eu
build=$(realpath "$1")
first=${2:-400} count=${3:-20} least=${4:-0} most=${5:-0.02}
here=$(dirname "$(realpath "$0")")
negatives=$(mktemp -d)
trap 'rm -rf "$negatives"' EXIT
. "$here/photographs.sh"
/usr/bin/python3 "$here/sheets/negatives.py" "$negatives" $nature $mixed
cmake --build "$build" --target first_sheets > /dev/null
"$build/tests/first_sheets" "$first" "$count" "$least" "$most" "$negatives"/*.txt
