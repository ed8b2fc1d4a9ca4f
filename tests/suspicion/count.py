#!/usr/bin/python3
# SPDX-License-Identifier: MIT
# Copyright the fogproof authors
#
# count.py PROGRAM FOLDER [--show]: asks the program for a small print of each scan that scans.py wrote and counts
# which of them are warned of, and how. Ends with 1 where a good scan is warned of, or fewer than nine
# in ten of a wrong kind.
import re
import subprocess
import sys
import tempfile
from collections import defaultdict
from pathlib import Path

# What a warning of each kind says.
WORDS = {
    "gamma": "taken as linear, but",
    "inverted": "light and dark exchanged",
    "photograph": "light and dark exchanged",
    "mask": "film base is orange|if it is a colour negative",
    "cropped": "shows no clear film",
    "stretched": "as after levels or curves",
    "base": "base \\+ fog is seldom above",
}


def warnings(program, scan, folder):
    words = [program, "print", scan, "--pack", folder / "box.toml", "--size", "16", "--force", "-o",
             folder / "print.jpg"]
    ended = subprocess.run(words, capture_output=True, text=True)
    if ended.returncode != 0:
        return ["failed: " + ended.stderr]
    return re.findall(r"warning: (.*)", ended.stderr)


def main():
    program, scans, show = Path(sys.argv[1]).resolve(), Path(sys.argv[2]), "--show" in sys.argv
    right, any_, all_, others = (defaultdict(int) for _ in range(4))
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        subprocess.run([program, "pack", "new", "--white", "0.08", "--blank", "0.3", "--name", "box", "-o",
                        folder / "box.toml"], check=True, capture_output=True)
        for scan in sorted(scans.iterdir()):
            kind, _, way = scan.stem.split("-")
            told = warnings(program, scan, folder)
            group = (kind, way)
            all_[group] += 1
            any_[group] += bool(told)
            good = kind != "good" and any(re.search(WORDS[kind], line) for line in told)
            right[group] += good
            for other, words in WORDS.items():
                if other != kind and words != WORDS.get(kind) and any(re.search(words, line) for line in told):
                    others[group + (other,)] += 1
            if show and (good != (kind != "good") or (kind == "good" and told)):
                print(scan.name, told)
    bad = False
    print("| scan | way | warned of as such | warned of at all | also said |\n|---|---|---|---|---|")
    for group in sorted(all_):
        also = ", ".join(f"{other} {n}" for (*at, other), n in sorted(others.items()) if tuple(at) == group)
        print(f"| {group[0]} | {group[1]} | {right[group]} of {all_[group]} | {any_[group]} | {also} |")
    for kind in ["good", *WORDS]:
        groups = [group for group in all_ if group[0] == kind]
        if not groups:
            continue
        scans_of, told_of = sum(all_[g] for g in groups), sum(right[g] for g in groups)
        warned = sum(any_[g] for g in groups)
        wrong = warned > 0 if kind == "good" else told_of < 0.9 * scans_of
        bad = bad or wrong
        print(f"{kind}: {warned} of {scans_of} warned of" + (f", {told_of} as what they are" if kind != "good" else "")
              + (", NOT as it should be" if wrong else ""))
    sys.exit(1 if bad else 0)


main()
