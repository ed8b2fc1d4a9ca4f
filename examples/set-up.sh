#!/bin/sh
# SPDX-License-Identifier: MIT
# Installs the Debian packages named on the command line that are not there yet; silent when none is missing.
set -eu

missing=
for package; do
    dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || missing="$missing $package"
done
[ -n "$missing" ] || exit 0

as_root=
[ "$(id -u)" -eq 0 ] || as_root=sudo
log=$(mktemp)
trap 'rm -f "$log"' EXIT
echo "Installing:$missing"
# shellcheck disable=SC2086  # a list of packages
if ! { $as_root apt-get -q update && DEBIAN_FRONTEND=noninteractive $as_root \
        apt-get -q install -y --no-install-recommends $missing; } >"$log" 2>&1 </dev/null; then
    cat "$log" >&2
    exit 1
fi
