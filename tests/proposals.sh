#!/bin/sh
# SPDX-License-Identifier: MIT
# Copyright the fogproof authors
#
# Burns and dodges that `start --local` proposes for negatives computed from photographs that others have shot:
# ten by which the search was shaped, then twelve that it had not seen. As tables: what each is told to gain, and by how much the figure of `start` and the print's own pixels
# come closer. With a folder, masks and prints before and after stay there to be looked at.
#   tests/proposals.sh build/fogproof [FOLDER]
# The photographs come in packages of Debian; nothing of them is kept in the sources.
set -eu
program=$(realpath "$1")
here=$(dirname "$(realpath "$0")")
if [ "${2-}" ]; then
    mkdir -p "$2"
    folder=$(realpath "$2")
else
    folder=$(mktemp -d)
    trap 'rm -rf "$folder"' EXIT
fi
. "$here/photographs.sh"
set -- $nature
/usr/bin/python3 "$here/proposals/measure.py" "$program" "$folder" "$3" "$5" "$6" "$9" $mixed
echo
other=$(echo $painted | tr ' ' '\n' | grep -e Autumn -e Bythe -e ColorfulCups -e EveningGlow)
/usr/bin/python3 "$here/proposals/measure.py" "$program" "$folder" "$1" "$2" "$4" "$7" "$8" "${10}" "${11}" "${12}" $other
