#!/bin/sh
# SPDX-License-Identifier: MIT
# The terms of every Debian package whose library lies in an archive's lib folder: licences.sh PREFIX
set -eu

prefix=$1
mkdir -p "$prefix/share/doc/fogproof/licences"
for library in "$prefix"/lib/*; do
    [ -L "$library" ] && continue
    name=$(basename "$library")
    package=$(dpkg -S "*/$name" 2>/dev/null | head -n 1 | cut -d : -f 1)
    [ -n "$package" ] || { echo "licences.sh: $name belongs to no package" >&2; exit 1; }
    cp -L "/usr/share/doc/$package/copyright" "$prefix/share/doc/fogproof/licences/$package"
done
cp -L /usr/share/doc/fonts-dejavu-core/copyright "$prefix/share/doc/fogproof/licences/fonts-dejavu-core"
