#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
# Copyright the fogproof authors
"""Prints and grids against general tools: builds its scans, runs everything in turn, prints Markdown.

    tests/bench/prints.py build/fogproof [--rounds 3] [--folder /dev/shm] [--giga FOLDER_ON_DISK]

Ratios are taken inside each round, against `vips copy` of the same scan, and given as median (least to most).
Needs libvips-tools; uses ImageMagick, GraphicsMagick, oiiotool and tificc where they are installed. --giga adds
a scan of a gigapixel (16 GB on disk), every output synced.
"""
import argparse
import os
import platform
import shutil
import statistics
import subprocess
import tempfile
import time


def run(command):
    """Seconds on the clock, seconds of processors, megabytes at most."""
    begun = time.monotonic()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    complaint = process.stderr.read()
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode != 0:
        raise RuntimeError(f"{command}: {complaint.decode(errors='replace')[-400:]}")
    return time.monotonic() - begun, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024


def spread(values):
    return f"{statistics.median(values):.2f} ({min(values):.2f} to {max(values):.2f})"


class Table:
    """Cases run in turn, the first being what the others are held against."""

    def __init__(self, title, folder, rounds):
        self.title, self.folder, self.rounds, self.cases = title, folder, rounds, []

    def add(self, name, command, output, target=None):
        self.cases.append((name, command, output, target))

    def show(self):
        seen = {name: [] for name, *_ in self.cases}
        for turn in range(self.rounds + 1):
            for name, command, output, _ in self.cases:
                for left in (output, output + ".json"):
                    if os.path.exists(left):
                        os.remove(left)
                figures = run(command)
                if turn > 0:  # the first round warms the cache
                    seen[name].append(figures)
        for _, _, output, _ in self.cases:
            for left in (output, output + ".json"):
                if os.path.exists(left):
                    os.remove(left)
        base = seen[self.cases[0][0]]
        print(f"\n### {self.title}\n")
        print("| | wall s | of `vips copy` | processors, of its | peak MB | wanted |\n|---|---|---|---|---|---|")
        for name, _, _, target in self.cases:
            mine = seen[name]
            wall = [one[0] / other[0] for one, other in zip(mine, base)]
            cpu = [one[1] / other[1] for one, other in zip(mine, base)]
            print(
                f"| {name} | {statistics.median(one[0] for one in mine):.3f} | {spread(wall)} | {spread(cpu)} "
                f"| {max(one[2] for one in mine):.0f} | {'' if target is None else f'<= {target}'} |",
                flush=True,
            )


def vips(*words):
    subprocess.run(["vips", *map(str, words)], check=True)


def make_scan(path, width, height, *options, grain=400):
    """A smooth field with grain of so many 16-bit codes, which is what decides how far it can be deflated."""
    with tempfile.TemporaryDirectory(dir=os.path.dirname(path)) as folder:
        at = lambda name: os.path.join(folder, name + ".v")
        vips("gaussnoise", at("grain"), width, height, "--mean", 24000, "--sigma", grain, "--seed", 7)
        vips("sines", at("field"), width, height, "--hfreq", 3, "--vfreq", 2)
        vips("linear", at("field"), at("strong"), 14000, 0)
        vips("add", at("strong"), at("grain"), at("sum"))
        vips("cast", at("sum"), at("codes"), "ushort")
        vips("copy", at("codes"), at("grey"), "--interpretation", "grey16")
        vips("tiffsave", at("grey"), path, *options)


def version(command):
    try:
        out = subprocess.run(command, capture_output=True, text=True).stdout.strip().splitlines()
        return out[0] if out else "?"
    except OSError:
        return "not installed"


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program")
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--folder", default="/dev/shm")
    parser.add_argument("--giga", help="a folder on disk for the scan of a gigapixel")
    parser.add_argument("--megapixels", type=float, default=100)
    given = parser.parse_args()
    program = os.path.abspath(given.program)

    whole = ("--whole", "--exposure", "12s")
    print(f"{time.strftime('%Y-%m-%d')}, {platform.machine()}, {os.cpu_count()} processors, load "
          f"{os.getloadavg()[0]:.1f} at the start; {version([program, '--version'])}; {version(['vips', '--version'])}; "
          f"{version(['convert', '--version'])}; {version(['gm', '-version'])}; oiiotool {version(['oiiotool', '--version'])}")

    with tempfile.TemporaryDirectory(dir=given.folder) as folder:
        at = lambda name: os.path.join(folder, name)
        subprocess.run([program, "demo", at("demo")], check=True, stderr=subprocess.DEVNULL)
        pack = ["--pack", at("demo/pack.toml"), "--force"]
        side = lambda megapixels: (int((megapixels * 1.44e6) ** 0.5), int((megapixels / 1.44 * 1e6) ** 0.5))
        large = side(given.megapixels)
        make_scan(at("strips.tif"), *large)
        vips("tiffsave", at("strips.tif"), at("tiles.tif"), "--tile", "--tile-width", 256, "--tile-height", 256)
        vips("tiffsave", at("strips.tif"), at("deflate.tif"), "--compression", "deflate", "--predictor", "horizontal")
        make_scan(at("mid.tif"), *side(24))
        make_scan(at("fine.tif"), *side(24), grain=100)
        make_scan(at("deflate-fine.tif"), *large, "--compression", "deflate", "--predictor", "horizontal", grain=100)

        def case(name, scan, *options, output="out.tif", target=None):
            return name, [program, "print", at(scan), *pack, "-o", at(output), *options], at(output), target

        copy = lambda scan: ["vips", "copy", at(scan), at("copy.tif")]

        run([program, "print", at("strips.tif"), *pack, "-o", at("done.tif"), *whole])
        table = Table(f"{given.megapixels:.0f} megapixels in strips to a print", folder, given.rounds)
        table.add("vips copy (grey)", copy("strips.tif"), at("copy.tif"))
        table.add("cp of the finished 16-bit print", ["cp", at("done.tif"), at("copied.tif")], at("copied.tif"))
        table.add(*case("fogproof, 16 bit, frame searched", "strips.tif"))
        table.add(*case("fogproof, 16 bit, whole scan", "strips.tif", *whole, target=0.45))
        table.add(*case("fogproof, 8 bit, whole scan", "strips.tif", *whole, "--bits", "8", target=0.35))
        table.add(*case("fogproof, 16 bit, read back", "strips.tif", *whole, "--verify"))
        vips("identity", at("codes.v"), "--ushort")
        vips("bandjoin", f"{at('codes.v')} {at('codes.v')} {at('codes.v')}", at("table.tif"))
        table.add("vips maplut, 16 bit", ["vips", "maplut", at("strips.tif"), at("lut.tif"), at("table.tif")], at("lut.tif"))
        table.show()

        for scan, target in (("tiles.tif", 0.85), ("deflate.tif", 0.60), ("deflate-fine.tif", 0.60)):
            table = Table(f"{given.megapixels:.0f} megapixels, {scan[:-4]} in", folder, given.rounds)
            table.add("vips copy (grey)", copy(scan), at("copy.tif"))
            table.add(*case("fogproof, 16 bit", scan, *whole, target=target))
            table.add("vips maplut, 16 bit", ["vips", "maplut", at(scan), at("lut.tif"), at("table.tif")], at("lut.tif"))
            table.show()

        table = Table("24 megapixels, deflate out", folder, given.rounds)
        table.add("vips copy (grey)", copy("mid.tif"), at("copy.tif"))
        table.add(*case("fogproof, 16 bit", "mid.tif", *whole, "--compress", target=6))
        table.add(*case("fogproof, 16 bit, finer grain", "fine.tif", *whole, "--compress", target=6))
        table.add("vips maplut, 16 bit", ["vips", "maplut", at("mid.tif"), at("lut.tif") + "[compression=deflate,predictor=horizontal]", at("table.tif")], at("lut.tif"))
        table.show()

        table = Table("24 megapixels, other tools doing one curve", folder, 1)
        table.add("vips copy (grey)", copy("mid.tif"), at("copy.tif"))
        table.add(*case("fogproof, 16 bit", "mid.tif", *whole))
        for name, command in (("ImageMagick", ["convert", "-limit", "memory", "8GiB", "-limit", "area", "8GP", at("mid.tif"), "-gamma", "1.8", "-colorspace", "sRGB", "-type", "TrueColor", at("other.tif")]),
                              ("GraphicsMagick", ["gm", "convert", at("mid.tif"), "-gamma", "1.8", "-type", "TrueColor", at("other.tif")]),
                              ("tificc", ["tificc", "-w16", "-i*Gray22", "-o*sRGB", at("mid.tif"), at("other.tif")]),
                              ("oiiotool", ["oiiotool", at("mid.tif"), "--powc", "0.55", "--ch", "0,0,0", "-o", at("other.tif")])):
            if shutil.which(command[0]):
                table.add(name, command, at("other.tif"))
        table.show()

        across, down = "grade=0,1,2,3,4,5,2.5", "bleach=0,50%,100%,120%,150%"
        grid = lambda scan, *options: [program, "grid", at(scan), *pack, "-o", at("grid.tif"), *options]
        table = Table(f"A labelled grid of 35 from {given.megapixels:.0f} megapixels", folder, given.rounds)
        table.add("vips copy (grey)", copy("strips.tif"), at("copy.tif"))
        table.add("fogproof, exposure given", grid("strips.tif", "--across", across, "--down", down, "--exposure", "12s"), at("grid.tif"), 1.0)
        table.add("fogproof, exposure sought for every cell", grid("strips.tif", "--across", across, "--down", down), at("grid.tif"), 1.3)
        table.show()

        make_scan(at("m1.tif"), *side(1))
        make_scan(at("m10.tif"), *side(10))
        print("\n### Seconds against size and cells\n\n| | wall s | processors s | peak MB |\n|---|---|---|---|")
        jobs = [(f"print, {name}", [program, "print", at(scan), *pack, "-o", at("out.tif")]) for name, scan in
                (("1 megapixel", "m1.tif"), ("10", "m10.tif"), (f"{given.megapixels:.0f}", "strips.tif"))]
        jobs += [("grid as usual, 1 megapixel (wanted <= 0.25 s)", grid("m1.tif"))]
        jobs += [(f"grid of {name}, 1 megapixel", grid("m1.tif", "--across", a, "--down", d)) for name, a, d in
                 (("4", "grade=2,3", "bleach=0,100%"), ("16", "grade=1,2,3,4", "bleach=0,50%,100%,150%"),
                  ("60", "grade=0,0.5,1,1.5,2,2.5,3,3.5,4,5", "bleach=0,40%,80%,100%,120%,150%"))]
        for name, command in jobs:
            figures = [run(command) for _ in range(given.rounds + 1)][1:]
            print(f"| {name} | {statistics.median(f[0] for f in figures):.3f} | {statistics.median(f[1] for f in figures):.3f} | {max(f[2] for f in figures):.0f} |", flush=True)

    if given.giga:
        with tempfile.TemporaryDirectory(dir=given.giga) as folder:
            at = lambda name: os.path.join(folder, name)
            subprocess.run([program, "demo", at("demo")], check=True, stderr=subprocess.DEVNULL)
            make_scan(at("strips.tif"), 40000, 25000)
            vips("tiffsave", at("strips.tif"), at("tiles.tif"), "--tile", "--tile-width", 256, "--tile-height", 256)
            for scan in ("strips.tif", "tiles.tif"):
                table = Table(f"1 gigapixel on disk, {scan[:-4]}", folder, given.rounds)
                table.add("vips copy (grey), not synced", ["vips", "copy", at(scan), at("copy.tif")], at("copy.tif"))
                job = [program, "print", at(scan), "--pack", at("demo/pack.toml"), *whole]
                table.add("fogproof, 16 bit, synced", [*job, "-o", at("out.tif")], at("out.tif"), 2.0)
                if scan == "strips.tif":
                    table.add("fogproof, JPEG through libvips, synced", [*job, "-o", at("out.jpg")], at("out.jpg"))
                table.show()


if __name__ == "__main__":
    main()
