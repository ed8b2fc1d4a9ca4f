#!/bin/sh
# SPDX-License-Identifier: MIT
# Copyright the fogproof authors
#
# Negatives computed from photographs that others have shot, good ones and wrongly scanned ones: how many are
# warned of. The thresholds were chosen on the first dozen and are told on the second. Takes some minutes.
#   tests/suspicion.sh build/fogproof
# The photographs come in packages of Debian; nothing of them is kept.
set -eu
program=$(realpath "$1")
here=$(dirname "$(realpath "$0")")
scans=$(mktemp -d)
trap 'rm -rf "$scans"' EXIT
. "$here/photographs.sh"

echo "Chosen on"
/usr/bin/python3 "$here/suspicion/scans.py" "$scans/chosen" $nature
/usr/bin/python3 "$here/suspicion/count.py" "$program" "$scans/chosen" || chosen=wrong
echo "Held out"
/usr/bin/python3 "$here/suspicion/scans.py" "$scans/held-out" $mixed $painted
/usr/bin/python3 "$here/suspicion/count.py" "$program" "$scans/held-out" || held=wrong
[ -z "${chosen-}${held-}" ]
