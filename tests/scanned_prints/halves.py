#!/usr/bin/python3
# SPDX-License-Identifier: MIT
# Copyright the fogproof authors
#
# Prints cut in two, one half bleached, read against their own negatives and against another negative of the
# same scene:  halves.py PROGRAM FOLDER FIRST COUNT PHOTOGRAPH...
import json
import subprocess
import sys
from pathlib import Path

import numpy
import tifffile

import prints

program, folder = sys.argv[1], Path(sys.argv[2])
first, count, photographs = int(sys.argv[3]), int(sys.argv[4]), sys.argv[5:]


def read(picture, negative, flare, film):
    """What is told of a print in halves, or why it was refused."""
    out = folder / "readings.csv"
    out.unlink(missing_ok=True)
    done = subprocess.run([program, "read", picture, "--negative", negative, "--encoding", "linear", "--halves",
                           "--bleach", "40", "--negative-encoding", "linear", "--flare", str(flare), "--callier", "1",
                           "--filter", "2", "-o", out, "--json", "--quiet", *film], capture_output=True, text=True)
    if done.returncode not in (0, 65):
        raise RuntimeError(done.stderr)
    if done.returncode:
        return None, done.stderr.strip().splitlines()[-1].split(": ", 2)[-1].split(";")[0]
    return json.loads(done.stdout), None


def tone_miss(tones, density):
    """D rms, without what all tones of a half are off by together: the lid is no reference."""
    over, seen = (numpy.array([tone[name] for tone in tones]) for name in ("wedge_density", "density"))
    miss = seen - density(over)
    return numpy.sqrt(numpy.mean((miss - numpy.median(miss)) ** 2))


placed, refused, told, misses = 0, {}, [], []
for seed in range(first, first + count):
    rng, path, luminance, density, _, light, true = prints.drawn(photographs, seed)
    light = prints.halves_apart(light, true, rng)
    picture, negative = folder / f"{seed}.tif", folder / "negative.tif"
    tifffile.imwrite(picture, numpy.clip(light * 65535 + rng.normal(0, 60, light.shape), 0, 65535).astype(numpy.uint16))
    code, film = prints.negative_scan(density, rng)
    tifffile.imwrite(negative, code)
    found, reason = read(picture, negative, true["flare"], film)
    placed += reason is None
    if reason:
        told.append(f"{seed}, {Path(path).name}: {reason}")
    else:
        halves = found["prints"][0]["pieces"]
        miss = [tone_miss(half["tones"], true[law]) for half, law in zip(halves, ("density", "bleached"))]
        misses.extend(miss)
        if max(miss) > 0.05:
            told.append(f"{seed}, {Path(path).name}: tones off by {max(miss):.3f} D")
    kind, near = prints.another_exposure(luminance, rng)
    code, film = prints.negative_scan(prints.film(near, rng), rng)
    tifffile.imwrite(negative, code)
    taken = read(picture, negative, true["flare"], film)[0]
    refused.setdefault(prints.EXPOSURES[kind], []).append(taken is None)
    if taken:
        is_told = any("film grain cannot tell" in note for note in taken["notes"])
        words = "told that grain cannot tell" if is_told else "without a word"
        told.append(f"{seed}, {Path(path).name}: {prints.EXPOSURES[kind]} was placed, {words}")
    picture.unlink()

print(f"halves placed {placed} of {count}")
print(f"tones off by {numpy.median(misses):.3f} D rms in the median, within 0.02 D on "
      f"{100 * numpy.mean(numpy.array(misses) <= 0.02):.0f} halves of 100")
for name, all_of in sorted(refused.items()):
    print(f"{name}: {sum(all_of)} of {len(all_of)} refused")
print("\n".join(told))
