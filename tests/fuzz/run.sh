#!/bin/sh
# SPDX-License-Identifier: MIT
# Builds the fuzzers with Clang and runs each for SECONDS [600], or only those named after it. A finding stops
# its fuzzer and lies in the build folder; once mended, keep it as tests/fuzz/inputs/TARGET/found-NN.
set -eu

root=$(cd "$(dirname "$0")/../.." && pwd)
folder=${BUILD:-$root/build/fuzz}
seconds=${1:-600}
[ $# -eq 0 ] || shift
[ $# -gt 0 ] || set -- pack recipe readings cgats scan strip_scan strips prints profile words own_print labels mask

cmake -S "$root" -B "$folder" -G Ninja -DCMAKE_UNITY_BUILD=ON -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_BUILD_TYPE=RelWithDebInfo \
    -DCMAKE_CXX_FLAGS_RELWITHDEBINFO=-O1 -DFOGPROOF_FUZZ=ON >/dev/null
failed=0
for name; do
    ninja -C "$folder" "fuzz_$name" >"$folder/build.log" || { cat "$folder/build.log"; exit 1; }
    mkdir -p "$folder/grown/$name" "$folder/findings"
    # A leak inside fontconfig or GLib is not a reader's; a reader's is.
    LSAN_OPTIONS=suppressions=$root/tests/leaks.supp \
        "$folder/tests/fuzz/fuzz_$name" -max_total_time="$seconds" -max_len=20000 -timeout=10 -rss_limit_mb=2048 \
        -print_final_stats=1 -artifact_prefix="$folder/findings/$name-" "$folder/grown/$name" \
        "$root/tests/fuzz/inputs/$name" >"$folder/$name.log" 2>&1 || failed=1
    runs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$folder/$name.log")
    findings=$(find "$folder/findings" -name "$name-*" | wc -l)
    echo "$name: ${runs:-?} executions, $findings findings"
done
exit $failed
