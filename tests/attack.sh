#!/bin/sh
# SPDX-License-Identifier: MIT
# Tries PROGRAM N times [500] with inputs that are wrong in structure, and counts what it does: attack.sh PROGRAM [N [FIRST]].
# Try K is the same whenever it is made. Ends with 1 after a crash, a hang, an internal defect, an unclean message, a changed input or a file
# left behind; what was tried is printed.
set -eu

exec python3 "$(dirname "$0")/attack/attack.py" "$@"
