#!/bin/sh
# SPDX-License-Identifier: MIT
# Tries PROGRAM N times [500] with inputs that are wrong in structure, and counts what it does: attack.sh PROGRAM [N [FIRST [COUNTS]]].
# Try K is the same whenever it is made. Ends with 1 after a crash, a hang, an internal defect, an unclean or overlong message, a changed
# input or a file left behind. Findings are printed as they come, the table of counts at the end, also when it is terminated, and every
# 50 tries into the file COUNTS; COUNTS.all holds every try with its outcome. A superuser's tries are made by nobody, so that rights count.
set -eu

exec python3 -B "$(dirname "$0")/attack/attack.py" "$@"
