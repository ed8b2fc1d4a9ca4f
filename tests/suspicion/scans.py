#!/usr/bin/python3
# SPDX-License-Identifier: MIT
# Copyright the fogproof authors
#
# Good and wrong scans of black-and-white negatives, computed from photographs:
#   scans.py FOLDER PHOTOGRAPH...
# writes FOLDER/KIND-NN-WAY.tif or .jpg, KIND being good, gamma, inverted, photograph, mask, cropped or
# stretched. Film, exposure, base, grain and coding change from photograph to photograph.
import sys
from pathlib import Path

import numpy
import tifffile
from PIL import Image, ImageCms
from scipy.ndimage import gaussian_filter

LONG_SIDE = 900  # of the frame in pixels
OPAQUE = 3.3     # density of the holder
VEIL = 0.0004    # scanner's stray light
LUMINANCE = numpy.array([0.2126, 0.7152, 0.0722])  # IEC 61966-2-1

# One row a photograph: slope of the film, stops of exposure from normal, base + fog, grain, colour of the
# base (density in red, green, blue beside its mean).
FILMS = [
    (0.60, +0.0, 0.28, 0.015, (0.00, 0.00, 0.00)), (0.55, -1.0, 0.20, 0.010, (-0.01, 0.01, 0.00)),
    (0.70, +1.0, 0.32, 0.025, (0.00, 0.01, -0.01)), (0.65, +0.0, 0.15, 0.020, (0.00, -0.01, 0.02)),
    (0.50, +0.5, 0.35, 0.008, (-0.02, 0.02, 0.01)), (0.75, -0.5, 0.25, 0.030, (0.00, 0.00, 0.01)),
    (0.60, +2.0, 0.30, 0.012, (-0.01, 0.00, 0.01)), (0.55, +0.0, 0.18, 0.018, (0.01, 0.02, -0.02)),
    (0.80, +0.0, 0.22, 0.022, (0.00, 0.00, 0.00)), (0.62, +1.5, 0.34, 0.010, (-0.02, 0.01, 0.02)),
    (0.58, -0.5, 0.16, 0.014, (0.00, 0.01, 0.00)), (0.68, +0.5, 0.26, 0.028, (0.00, 0.00, 0.02)),
]
MASK = numpy.array([0.25, 0.65, 0.90])  # density of a colour negative's base: common values, from memory


def srgb(light):
    light = numpy.clip(light, 0, 1)
    return numpy.where(light <= 0.0031308, 12.92 * light, 1.055 * light ** (1 / 2.4) - 0.055)


def linear(codes):
    return numpy.where(codes <= 0.04045, codes / 12.92, ((codes + 0.055) / 1.055) ** 2.4)


def photograph(path):
    picture = Image.open(path).convert("RGB")
    scale = LONG_SIDE / max(picture.size)
    picture = picture.resize([max(64, round(side * scale)) for side in picture.size], Image.LANCZOS)
    return linear(numpy.asarray(picture, float) / 255)


# Density above base: a straight line of the film's slope with a toe, for light 1 at white.
def developed(light, slope, stops):
    speed = 120 * 2.0 ** stops
    return slope * numpy.log10(1 + speed * (light + 0.002))


def grained(density, grain, rng):
    noise = gaussian_filter(rng.standard_normal(density.shape[:2]), 0.7)
    noise *= grain / noise.std()
    noise *= numpy.sqrt(0.3 + (density.mean(axis=2) if density.ndim == 3 else density))
    return density + (noise[..., None] if density.ndim == 3 else noise)


# The frame on its film in a holder; film of the neighbours is not seen. Returns densities above bare light.
def in_holder(frame, base, rng):
    height, width = frame.shape[:2]
    edge, rim = int(rng.integers(18, 60)), int(rng.integers(15, 50))
    around = edge + rim
    shape = (height + 2 * around, width + 2 * around) + frame.shape[2:]
    density = numpy.full(shape, OPAQUE)
    density[rim:-rim, rim:-rim] = base
    density[around:-around, around:-around] = base + frame
    return density


def scanned(density, gain, rng):
    light = gain * 10 ** -gaussian_filter(density, (0.6, 0.6) + (0,) * (density.ndim - 2)) + VEIL
    light *= 1 + 0.01 * numpy.linspace(-1, 1, light.shape[1]).reshape((1, -1) + (1,) * (density.ndim - 2))
    light += rng.standard_normal(light.shape) * numpy.sqrt((4e-5) ** 2 + 2e-7 * numpy.maximum(light, 0))
    return numpy.clip(light, 0, 1)


SRGB = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()


def write16(path, values, profile=False):
    codes = numpy.round(65535 * numpy.clip(values, 0, 1)).astype(numpy.uint16)
    if profile and codes.ndim == 2:
        codes = numpy.repeat(codes[..., None], 3, axis=2)
    tags = [(34675, 7, len(SRGB), SRGB, True)] if profile else []
    kind = "rgb" if codes.ndim == 3 else "minisblack"
    tifffile.imwrite(path, codes, photometric=kind, extratags=tags, metadata=None, software=False)


def write8(path, values, profile=True):
    codes = numpy.round(255 * numpy.clip(values, 0, 1)).astype(numpy.uint8)
    if codes.ndim == 2:
        codes = numpy.repeat(codes[..., None], 3, axis=2)
    Image.fromarray(codes).save(path, icc_profile=SRGB if profile else None, quality=93)


def levelled(values, low, high):
    first, last = numpy.quantile(values, [low, high])
    return numpy.clip((values - first) / (last - first), 0, 1)


def write_all(folder, number, path):
    rng = numpy.random.default_rng(1000 + number)
    slope, stops, base, grain, tint = FILMS[number % len(FILMS)]
    colours = photograph(path)
    light = colours @ LUMINANCE
    gain = rng.uniform(0.85, 0.97)
    frame = grained(developed(light, slope, stops), grain, rng)
    whole = scanned(in_holder(frame, base, rng), gain, rng)
    rgb = scanned(in_holder(frame[..., None] + 0 * MASK, base + numpy.array(tint), rng), gain, rng)
    inset = 6
    cropped = scanned(base + frame, gain, rng)[inset:-inset, inset:-inset]
    name = lambda kind, way, ending="tif": folder / f"{kind}-{number:02}-{way}.{ending}"

    write16(name("good", "linear"), whole)
    write16(name("good", "rgb"), rgb)
    write16(name("good", "coded"), srgb(whole), profile=True)
    write8(name("good", "byte"), srgb(whole))
    write8(name("good", "jpeg", "jpg"), srgb(rgb))

    write16(name("gamma", "grey"), srgb(whole))
    write16(name("gamma", "rgb"), srgb(rgb))
    write16(name("gamma", "power"), whole ** (1 / 2.2))
    write16(name("gamma", "cropped"), srgb(cropped))

    write16(name("inverted", "codes"), 1 - whole)
    write16(name("inverted", "gamma"), 1 - srgb(whole), profile=True)
    write8(name("inverted", "levels", "jpg"), levelled(1 - srgb(whole), 0.002, 0.998))
    write8(name("inverted", "cropped"), levelled(1 - srgb(cropped), 0.001, 0.999))

    write8(name("photograph", "colour", "jpg"), srgb(colours))
    write8(name("photograph", "grey", "jpg"), srgb(light))

    layers = grained(developed(colours, 0.9 * slope, stops), 0.7 * grain, rng)
    masked = scanned(in_holder(layers, MASK, rng), gain, rng)
    inside = scanned(MASK + layers, gain, rng)[inset:-inset, inset:-inset]
    write16(name("mask", "linear"), masked)
    write8(name("mask", "byte"), srgb(masked))
    write16(name("mask", "coded"), srgb(masked), profile=True)
    write8(name("mask", "cropped", "jpg"), srgb(inside))

    write16(name("cropped", "linear"), cropped)
    write8(name("cropped", "byte"), srgb(cropped))
    stored = numpy.round(65535 * cropped) / 65535
    write16(name("stretched", "linear"), levelled(stored, 0.005, 0.995))
    write8(name("stretched", "byte"), levelled(numpy.round(255 * srgb(cropped)) / 255, 0.005, 0.995))
    write16(name("stretched", "edge"), levelled(stored, 0.0, 0.97))


def main():
    folder = Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    for number, path in enumerate(sys.argv[2:]):
        write_all(folder, number, path)


if __name__ == "__main__":
    main()
