#!/usr/bin/python3
# SPDX-License-Identifier: MIT
# Copyright the fogproof authors
#
# Proposed burns and dodges, told against measured:
#   measure.py PROGRAM FOLDER PHOTOGRAPH...
# Prints one row a photograph and fails where a told gain is not what comes of it.
import json
import re
import subprocess
import sys
from pathlib import Path

import numpy
import tifffile
from PIL import Image

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "suspicion"))
from scans import FILMS, LUMINANCE, developed, grained, photograph  # noqa: E402

SAME = 0.01      # L*; one and the same figure, asked twice
AS_DRAWN = 0.15  # L*; pixels against tones gathered into bins and places


def negative(path, row):
    slope, stops, _, grain, _ = FILMS[row]
    density = developed(photograph(path) @ LUMINANCE, slope * 1.15, stops)
    density = grained(density, grain / 3, numpy.random.default_rng(row))
    return (65535 * 10 ** -numpy.clip(density, 0, 4)).astype(numpy.uint16)


def run(program, folder, words):
    answer = subprocess.run([program, *words.split()], cwd=folder, capture_output=True, text=True)
    if answer.returncode:
        sys.exit(f"{words}: {answer.stderr}")
    return answer.stdout


# L* of a picture in grey of gamma 2.2, the profile's own name.
def lightness(path):
    light = (tifffile.imread(path) / 65535.0) ** 2.2
    return numpy.where(light > 216 / 24389, 116 * numpy.cbrt(light) - 16, light * 24389 / 27)


def rms(one, other):
    return float(numpy.sqrt(numpy.mean((one - other) ** 2)))


def main():
    program, folder = sys.argv[1], Path(sys.argv[2])
    # The demo's pack, fitted to its readings; and the same before it fogged.
    run(program, folder, "demo demo --quiet --force")
    run(program, folder, "pack fit demo/readings.csv --pack demo/pack.toml -o pack.toml --quiet --force")
    pack = (folder / "pack.toml").read_text()
    white = re.search(r"^white = \{ value = ([0-9.]+)", pack, re.MULTILINE)[1]
    (folder / "fresh.toml").write_text(re.sub(r"^blank = \{ value = [0-9.]+", f"blank = {{ value = {white}", pack, count=1,
                                              flags=re.MULTILINE))
    print("| photograph | proposed | stops (95 %) | there, before > after | start says, without > with |"
          " told gain (95 %) | asked again | of its pixels |")
    print("|---|---|---|---|---|---|---|---|")
    wrong = 0
    for row, path in enumerate(sys.argv[3:]):
        name = Path(path).stem
        if name[0].isdigit():  # a size; the wallpaper is named by its folder
            name = Path(path).parents[2].name
        tifffile.imwrite(folder / f"{name}.tif", negative(path, row % len(FILMS)), photometric="minisblack")
        start = f"start {name}.tif --whole --clear 1 --pack pack.toml --grade 3.5 --quiet --json --force "
        plain = json.loads(run(program, folder, start + f"--recipe-out {name}-plain.toml"))
        found = json.loads(run(program, folder, start + f"--local --recipe-out {name}.toml"))
        work = found["proposed"]
        if not work:
            print(f"| {name} | none | | | {plain['best']['lightness_error']:.2f} | | | |", flush=True)
            continue
        again = json.loads(run(program, folder, start + f"--local-work {name}.toml"))
        gain = plain["best"]["lightness_error"] - again["best"]["lightness_error"]
        grade = plain["target"].rsplit(" ", 1)[-1]
        drawn = "--whole --clear 1 --quiet --force --rendering absolute --profile grey --bits 16 "
        pixels = {}
        for recipe, kind in ((f"{name}-plain", "before"), (name, "after")):
            run(program, folder, f"print {name}.tif --pack pack.toml {drawn} --recipe {recipe}.toml "
                                 f"-o {name}-{kind}.tif")
            pixels[kind] = lightness(folder / f"{name}-{kind}.tif")
        run(program, folder, f"print {name}.tif --pack fresh.toml {drawn} --grade {grade} -o {name}-fresh.tif")
        fresh = lightness(folder / f"{name}-fresh.tif")
        drawn_gain = rms(pixels["before"], fresh) - rms(pixels["after"], fresh)
        described = (plain["best"]["lightness_error_as_described"] -
                     found["best"]["lightness_error_as_described"])
        fits = abs(gain - work["gain"]) < SAME and abs(drawn_gain - described) < AS_DRAWN
        wrong += not fits
        print(f"| {name} | {work['work']} {work['where']}, {100 * work['share']:.0f} % |"
              f" {work['stops']:.2f} ({work['stops_low']:.1f} to {work['stops_high']:.1f}) |"
              f" {work['lightness_off_there']:+.1f} > {work['lightness_off_there_then']:+.1f} |"
              f" {plain['best']['lightness_error']:.2f} > {found['best']['lightness_error']:.2f} |"
              f" {work['gain']:.2f} ({work['gain_low']:.2f} to {work['gain_high']:.2f}) | {gain:.2f} |"
              f" {drawn_gain:.2f} of {described:.2f} as described{'' if fits else ' WRONG'} |", flush=True)
        side_by_side(folder, name, work["work"])
    sys.exit(1 if wrong else 0)


# Fresh, before, after and mask in one picture.
def side_by_side(folder, name, kind):
    views = [tifffile.imread(folder / f"{name}-{view}.tif") // 257 for view in ("fresh", "before", "after")]
    high, wide = views[0].shape
    mask = Image.open(folder / f"{name}-{kind}.png")
    mask = Image.fromarray((numpy.asarray(mask) // 257).astype(numpy.uint8)).resize((wide, high))
    sheet = numpy.hstack([*views, numpy.asarray(mask)]).astype(numpy.uint8)
    Image.fromarray(sheet).save(folder / f"{name}-seen.png")


main()
