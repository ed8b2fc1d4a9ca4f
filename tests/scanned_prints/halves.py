#!/usr/bin/python3
# SPDX-License-Identifier: MIT
# Copyright the fogproof authors
#
# Prints cut in two, one half bleached, read against their own negatives and against another negative of the
# same scene:  halves.py PROGRAM FOLDER FIRST COUNT PHOTOGRAPH...
import subprocess
import sys
from pathlib import Path

import numpy
import tifffile

import prints

program, folder = sys.argv[1], Path(sys.argv[2])
first, count, photographs = int(sys.argv[3]), int(sys.argv[4]), sys.argv[5:]


def refusal(picture, negative, flare):
    """Nothing where both halves were placed."""
    out = folder / "readings.csv"
    out.unlink(missing_ok=True)
    done = subprocess.run([program, "read", picture, "--negative", negative, "--encoding", "linear", "--halves",
                           "--bleach", "40", "--negative-encoding", "linear", "--flare", str(flare), "--callier", "1",
                           "--filter", "2", "-o", out, "--quiet"], capture_output=True, text=True)
    if done.returncode not in (0, 65):
        raise RuntimeError(done.stderr)
    return done.stderr.strip().splitlines()[-1].split(": ", 1)[-1] if done.returncode else None


placed, refused, told = 0, {}, []
for seed in range(first, first + count):
    rng, path, luminance, density, _, light, true = prints.drawn(photographs, seed)
    light = prints.halves_apart(light, true, rng)
    picture, negative = folder / f"{seed}.tif", folder / "negative.tif"
    tifffile.imwrite(picture, numpy.clip(light * 65535 + rng.normal(0, 60, light.shape), 0, 65535).astype(numpy.uint16))
    tifffile.imwrite(negative, prints.negative_scan(density, rng))
    reason = refusal(picture, negative, true["flare"])
    placed += reason is None
    if reason:
        told.append(f"{seed}, {Path(path).name}: {reason}")
    kind, near = prints.another_exposure(luminance, rng)
    tifffile.imwrite(negative, prints.negative_scan(prints.film(near, rng), rng))
    reason = refusal(picture, negative, true["flare"])
    refused.setdefault(prints.EXPOSURES[kind], []).append(reason is not None)
    if reason is None:
        told.append(f"{seed}, {Path(path).name}: {prints.EXPOSURES[kind]} was placed")
    picture.unlink()

print(f"halves placed {placed} of {count}")
for name, all_of in sorted(refused.items()):
    print(f"{name}: {sum(all_of)} of {len(all_of)} refused")
print("\n".join(told))
