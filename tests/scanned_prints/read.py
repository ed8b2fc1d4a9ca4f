#!/usr/bin/python3
# SPDX-License-Identifier: MIT
# Copyright the fogproof authors
#
# Prints read against their own negatives, against another negative of the same scene, and against one of
# another:  read.py PROGRAM FOLDER FIRST COUNT PHOTOGRAPH...
import json
import subprocess
import sys
from pathlib import Path

import numpy
import tifffile
from PIL import Image

import prints

program, folder = sys.argv[1], Path(sys.argv[2])
first, count, photographs = int(sys.argv[3]), int(sys.argv[4]), sys.argv[5:]


def saved(light, seed, rng):
    """Half of the scans as 16-bit linear TIFF, half as 8-bit sRGB JPEG; with the word for their coding."""
    if rng.random() < 0.5:
        code = numpy.clip(light * 65535 + rng.normal(0, 60, light.shape), 0, 65535).astype(numpy.uint16)
        tifffile.imwrite(folder / f"{seed}.tif", code)
        return folder / f"{seed}.tif", "linear"
    light = numpy.clip(light, 0, 1)
    code = numpy.where(light <= 0.0031308, 12.92 * light, 1.055 * light ** (1 / 2.4) - 0.055) * 255
    code = numpy.rint(numpy.clip(code + rng.normal(0, 0.7, light.shape), 0, 255)).astype(numpy.uint8)
    Image.fromarray(code).convert("RGB").save(folder / f"{seed}.jpg", quality=92)
    return folder / f"{seed}.jpg", "srgb"


def read(picture, encoding, negative, flare, film):
    out = folder / "readings.csv"
    out.unlink(missing_ok=True)
    done = subprocess.run([program, "read", picture, "--negative", negative, "--encoding", encoding,
                           "--negative-encoding", "linear", "--flare", str(flare), "--callier", "1", "--filter", "2",
                           "-o", out, "--json", "--quiet", *film], capture_output=True, text=True)
    if done.returncode not in (0, 65):
        raise RuntimeError(done.stderr)
    if done.returncode == 0:
        return json.loads(done.stdout), None
    return None, done.stderr.strip().splitlines()[-1].split(": ", 2)[-1].split(";")[0]


corners, tones, doubts, borders, reasons = [], [], [], [], []
refused = {name: [] for name in (*prints.EXPOSURES, "another scene")}
for seed in range(first, first + count):
    rng, path, luminance, density, stranger, light, true = prints.drawn(photographs, seed)
    picture, encoding = saved(light, seed, rng)
    negative = folder / "negative.tif"
    code, film = prints.negative_scan(density, rng)
    tifffile.imwrite(negative, code)
    found, reason = read(picture, encoding, negative, true["flare"], film)
    if not found:
        reasons.append(f"{seed}, {Path(path).name}: {reason}")
    else:
        piece = found["prints"][0]["pieces"][0]
        off = max(numpy.hypot(a[0] - b[0], a[1] - b[1]) for a, b in zip(found["corners"], true["corners"]))
        over = numpy.array([tone["wedge_density"] for tone in piece["tones"]])
        miss = numpy.array([tone["density"] for tone in piece["tones"]]) - true["density"](over)
        if true["border"] is not None:
            seen = piece["border_density"]
            borders.append(numpy.nan if seen is None else abs(seen - true["border"]))
        corners.append(off), doubts.append(piece["corner_doubt"])
        tones.append(numpy.sqrt(numpy.mean((miss - numpy.median(miss))**2)))
    kind, near = prints.another_exposure(luminance, rng)
    for name, other in ((prints.EXPOSURES[kind], near), ("another scene", stranger)):
        # Where the stranger's own print lies beside, its negative may well be found on it.
        if name == "another scene" and (path == photographs[(7 * seed + 3) % len(photographs)] or
                                        true["stranger_beside"]):
            continue
        code, film = prints.negative_scan(prints.film(other, rng), rng)
        tifffile.imwrite(negative, code)
        taken = read(picture, encoding, negative, true["flare"], film)[0]
        refused[name].append(taken is None)
        if taken:
            is_told = any("film grain cannot tell" in note for note in taken["notes"])
            told = "told that grain cannot tell" if is_told else "without a word"
            reasons.append(f"{seed}, {Path(path).name}: {name} was placed, {told}")
    picture.unlink()

print(f"placed {len(corners)} of {count}")
print(f"corners off by {numpy.median(corners):.2f} pixels of {prints.SCAN} in the median, "
      f"{numpy.quantile(corners, 0.95):.2f} in 95 of 100, {max(corners):.2f} at the worst")
print(f"tones off by {numpy.median(tones):.3f} D rms in the median, within 0.02 D in "
      f"{100 * numpy.mean(numpy.array(tones) <= 0.02):.0f} of 100")
found = [each for each in borders if numpy.isfinite(each)]
print(f"border found on {len(found)} of {len(borders)} prints that have one, off by up to {max(found, default=0):.3f} D")
for name, all_of in refused.items():
    print(f"{name}: {sum(all_of)} of {len(all_of)} refused")
print("\n".join(reasons))
