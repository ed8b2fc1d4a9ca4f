#!/bin/sh
# SPDX-License-Identifier: MIT
# Format of every source, grammar of every script, and clang-tidy (the list of .clang-tidy) on the sources that differ from BASE [HEAD~1], at most MOST [30]
# of them, since each takes some seconds: style.sh [BASE [MOST]]. Installs what it needs.
set -eu

cd "$(dirname "$0")/.."
examples/set-up.sh clang-format clang-tidy python3
git ls-files '*.cpp' '*.hpp' | xargs clang-format --dry-run --Werror
git ls-files '*.sh' .ci/run | xargs -n 1 bash -n
git ls-files '*.py' | xargs python3 -c 'import ast, sys; [ast.parse(open(name).read(), name) for name in sys.argv[1:]]'

base=${1:-HEAD~1} most=${2:-30}
git rev-parse --quiet --verify "$base^{commit}" >/dev/null || exit 0  # a clone without history
changed=$(git diff --name-only --diff-filter=d "$base" -- 'src/*.cpp' | head -n "$most")
[ -n "$changed" ] || exit 0
# Without precompiled headers and without the options of a Release build: GCC's are nothing for Clang.
cmake -S . -B build/style -DFOGPROOF_TESTS=OFF -DCMAKE_EXPORT_COMPILE_COMMANDS=ON -DCMAKE_DISABLE_PRECOMPILE_HEADERS=ON -DCMAKE_BUILD_TYPE=Debug >/dev/null
echo "$changed" | xargs -P "$(nproc)" -n 1 clang-tidy --quiet -p build/style
