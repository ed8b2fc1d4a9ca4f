#!/bin/sh
# SPDX-License-Identifier: MIT
# Megapixels a second of printing eight negatives of 10 megapixels with one job and with several, each run in turn
# with the others, medians of five; and the same for their worksheets. Never a test.
#     many.sh PROGRAM [FOLDER]
set -eu

program=$(realpath "$1")
folder=${2:-$(mktemp -d)}
cd "$folder"
"$program" demo attic --megapixels 10 --force --quiet
mkdir -p prints sheets
names=
for i in 1 2 3 4 5 6 7 8; do
    ln -f attic/negative.tif "n$i.tif"
    names="$names n$i.tif"
done

timed() {
    start=$(date +%s%N)
    "$@" >/dev/null
    echo $(($(date +%s%N) - start))
}
for run in 1 2 3 4 5; do
    for jobs in 1 2 3; do
        # shellcheck disable=SC2086  # a list of names
        timed "$program" print $names --pack attic/pack.toml -o prints --jobs $jobs --force --quiet >>"print.$jobs"
        # shellcheck disable=SC2086
        timed "$program" plan $names --pack attic/pack.toml -o sheets --jobs $jobs --force --quiet >>"plan.$jobs"
    done
done
echo "| eight of 10 MP, $(nproc) processors | s | MP/s |"
echo "|---|---|---|"
for what in print plan; do
    for jobs in 1 2 3; do
        sort -n "$what.$jobs" | sed -n 3p |
            awk -v what="$what" -v jobs="$jobs" '{ s = $1 / 1e9; printf "| %s, --jobs %d | %.2f | %.0f |\n", what, jobs, s, 80 / s }'
    done
done
