#!/bin/sh
# SPDX-License-Identifier: MIT
# Installs what the tests need, builds everything and runs the suite. Arguments go to CMake, as
# -DFOGPROOF_SANITIZE=ON; BUILD names another build folder.
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
folder=${BUILD:-$root/build/tests-run}
"$root/examples/set-up.sh" libgtest-dev libgmock-dev chromium parallel make dpkg-dev file
command -v npm >/dev/null || "$root/examples/set-up.sh" nodejs npm

# The browser's driver and the page checkers, exactly as the lock file says, outside of the sources.
pages=$folder/page
mkdir -p "$pages"
if ! cmp -s "$root/tests/page/package-lock.json" "$pages/package-lock.json"; then
    cp "$root/tests/page/package.json" "$pages"
    (cd "$pages" && cp "$root/tests/page/package-lock.json" . &&
        npm ci --no-audit --no-fund --ignore-scripts --loglevel=error >/dev/null) ||
        { rm -f "$pages/package-lock.json"; exit 1; }
fi
cp "$root/tests/page/pages.mjs" "$pages"

"$root/examples/build.sh" "$folder" -DFOGPROOF_TESTS=ON -DFOGPROOF_PAGE_TESTS="$pages" "$@"
# One more than there are processors: a test that waits for a file or the browser leaves its own idle.
ctest --test-dir "$folder" --output-on-failure -j $(($(nproc) + 1))
