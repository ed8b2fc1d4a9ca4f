#!/bin/sh
# SPDX-License-Identifier: MIT
# Copyright the fogproof authors
#
# Scans of prints computed from photographs that others have shot, read against their negatives: how many are
# placed, how far off corners and tones are, and how many prints of other negatives are refused. The thresholds
# were chosen on some hundred prints of seeds below 1000. Takes some seconds a print. With HALVES=1 the prints are
# cut in two, one half of each is bleached, and the scans are a fifth larger.
#   tests/scanned_prints.sh build/fogproof [FIRST [COUNT]]
# The photographs come in packages of Debian; nothing of them is kept.
set -eu
program=$(realpath "$1")
first=${2:-1000} count=${3:-200}
here=$(dirname "$(realpath "$0")")
scans=$(mktemp -d)
trap 'rm -rf "$scans"' EXIT
. "$here/photographs.sh"
script=read.py
[ -z "${HALVES:-}" ] || script=halves.py
/usr/bin/python3 "$here/scanned_prints/$script" "$program" "$scans" "$first" "$count" $nature $mixed $textures $painted
