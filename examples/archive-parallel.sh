#!/bin/sh
# SPDX-License-Identifier: MIT
# Prints all scans of a list in N parts by GNU parallel:
#     archive-parallel.sh N LIST PACK FOLDER [recipe options ...]
# On one machine "fogproof print --list" alone is as fast; this is for several that share their disks. Name them
# in the environment, as PARALLEL='--sshlogin darkroom,attic', and give paths that hold on all of them.
set -eu

parts=$1 list=$2 pack=$3 folder=$4
shift 4
exec parallel --quote "${FOGPROOF:-fogproof}" print --list "$list" --shard "{}/$parts" --jobs 1 --pack "$pack" \
    -o "$folder" --force "$@" ::: $(seq "$parts")
