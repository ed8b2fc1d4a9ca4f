#!/bin/sh
# SPDX-License-Identifier: MIT
# The Debian package of a build folder: it puts everything where Debian looks for it, asks for the packages that the
# program needs, libvips among them, and its program works from there. The folders are those of the Filesystem Hierarchy
# Standard 3.0 and of Debian Policy 4.6.2, 12.1 and 12.3.
set -eu

build=$1
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT

(cd "$place" && cpack -G DEB --config "$build/CPackConfig.cmake" -B "$place/made" >cpack.log 2>&1) || {
    cat "$place/cpack.log" >&2
    exit 1
}
package=$(ls "$place"/made/fogproof_*.deb)
dpkg-deb -x "$package" "$place/root"

missing=0
for file in bin/fogproof share/man/man1/fogproof.1.gz share/man/man1/fogproof-grid.1.gz \
    share/bash-completion/completions/fogproof share/zsh/vendor-completions/_fogproof \
    share/fish/vendor_completions.d/fogproof.fish share/doc/fogproof/copyright share/doc/fogproof/changelog.Debian.gz; do
    [ -f "$place/root/usr/$file" ] || { echo "the package has no /usr/$file" >&2; missing=1; }
done
others=$(cd "$place/root" && find . -type f ! -path './usr/bin/*' ! -path './usr/share/*')
[ -z "$others" ] || { echo "the package has files elsewhere: $others" >&2; missing=1; }
needed=$(dpkg-deb -f "$package" Depends)
for name in fonts-dejavu-core libvips libtiff liblcms2 libstdc++ libc6; do
    case ", $needed" in
        *", $name"*) ;;
        *) echo "the package does not ask for $name: $needed" >&2; missing=1 ;;
    esac
done
[ "$missing" = 0 ] || exit 1

cd "$place"
root/usr/bin/fogproof --quiet demo hut --megapixels 0.3
root/usr/bin/fogproof --quiet grid hut/negative.tif --pack hut/pack.toml -o grid.png
[ -s grid.png ] || { echo "the package's program drew no grid" >&2; exit 1; }
