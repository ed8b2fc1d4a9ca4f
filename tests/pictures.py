#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Prints every test picture of libtiff and libpng and says how it went, as a Markdown table.

    tests/pictures.py PROGRAM [FOLDER]

The pictures come from Debian's source packages (apt-get source; they are not shipped here) into FOLDER, a
temporary one if absent. "Rightly" is measured: libtiff's own RGBA reader, or for PNG the few lines below, decode the
picture once more, its light is computed here by the PNG specification or sRGB, written as a linear scan and
printed alike; the two prints may differ by a few steps of 8 bits. PNGs too small to print are repeated first, their
colour chunks kept. A refusal must give a reason.
Needs python3, apt-get, tar and libtiff; exit code 1 when a picture went wrong.
"""
import collections
import ctypes
import pathlib
import struct
import subprocess
import sys
import tempfile
import zlib

MOST_STEPS = 3  # of 8 bits: decoding, 16-bit light and the print are rounded on both sides
MOST_STEPS_OF_CUT = 8  # libtiff's RGBA reader cuts 16 bits to 8
MOST_STEPS_OF_PROFILE = 6
LUMINANCE = (0.2126, 0.7152, 0.0722)  # IEC 61966-2-1


def fetched(folder):
    lists = folder / "apt"
    (lists / "partial").mkdir(parents=True, exist_ok=True)
    sources = folder / "sources.list"
    # The sources lie where this machine's own packages come from.
    known = subprocess.run(["apt-get", "indextargets", "--format", "$(REPO_URI) $(CODENAME) $(COMPONENT) $(ORIGIN)",
                            "Created-By: Packages"], check=True, capture_output=True, text=True).stdout
    places = {line.rsplit(" ", 1)[0] for line in known.splitlines()
              if line.endswith(" Debian") and "-" not in line.split(" ")[1]}  # the release itself
    sources.write_text("".join(f"deb-src [signed-by=/usr/share/keyrings/debian-archive-keyring.gpg] {place}\n"
                               for place in sorted(places)))
    options = ["-o", f"Dir::Etc::sourcelist={sources}", "-o", "Dir::Etc::sourceparts=-", "-o",
               f"Dir::State::lists={lists}", "-o", f"Dir::Cache={folder}/cache", "-q"]
    (folder / "cache").mkdir(exist_ok=True)
    for words in (["update"], ["source", "--download-only", "tiff", "libpng1.6"]):
        subprocess.run(["apt-get", *options, *words], cwd=folder, check=True, stdout=subprocess.DEVNULL)
    for archive in folder.glob("*.orig.tar.*"):
        subprocess.run(["tar", "xf", archive], cwd=folder, check=True)


def srgb(value):
    return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4


def chunks(data):
    at = 8
    while at + 8 <= len(data):
        size, = struct.unpack(">I", data[at:at + 4])
        yield data[at + 4:at + 8], data[at + 8:at + 8 + size]
        at += 12 + size


def unfiltered(raw, width, height, depth, channels):
    """Rows of whole samples out of lines that each begin with their filter; PNG clause 9."""
    bits = depth * channels
    line, step = (width * bits + 7) // 8, max(bits // 8, 1)
    before, rows = bytes(line), []
    for y in range(height):
        law, now = raw[y * (line + 1)], bytearray(raw[y * (line + 1) + 1:(y + 1) * (line + 1)])
        for i in range(line):
            a, b, c = (now[i - step] if i >= step else 0), before[i], (before[i - step] if i >= step else 0)
            nearest = min((a, b, c), key=lambda each: abs(a + b - c - each))
            now[i] = (now[i] + (0, a, b, (a + b) // 2, nearest)[law]) & 255
        before = bytes(now)
        row = int.from_bytes(before, "big")
        samples = [row >> (line * 8 - (i + 1) * depth) & ((1 << depth) - 1) for i in range(width * channels)]
        rows.append([samples[i:i + channels] for i in range(0, len(samples), channels)])
    return rows, raw[height * (line + 1):]


# First column and row, steps of columns and rows; PNG clause 8.
ADAM7 = ((0, 0, 8, 8), (4, 0, 8, 8), (0, 4, 4, 8), (2, 0, 4, 4), (0, 2, 2, 4), (1, 0, 2, 2), (0, 1, 1, 2))


def png_samples(path):
    """Width, height, RGB samples 0 to 1 as stored, the law from them to light, and steps to allow."""
    data = path.read_bytes()
    told = dict(reversed([(name, body) for name, body in chunks(data)]))
    width, height, depth, kind, _, _, interlaced = struct.unpack(">IIBBBBB", told[b"IHDR"])
    channels = {0: 1, 2: 3, 3: 1, 4: 2, 6: 4}[kind]
    raw = zlib.decompress(b"".join(body for name, body in chunks(data) if name == b"IDAT"))
    pixels = [None] * (width * height)
    for left, top, across, down in ADAM7 if interlaced else ((0, 0, 1, 1),):
        columns, lines = range(left, width, across), range(top, height, down)
        if not columns or not lines:
            continue
        rows, raw = unfiltered(raw, len(columns), len(lines), depth, channels)
        for y, row in zip(lines, rows):
            for x, pixel in zip(columns, row):
                pixels[y * width + x] = pixel
    full = (1 << depth) - 1
    if kind == 3:
        samples = [[each / 255 for each in told[b"PLTE"][3 * pixel[0]:3 * pixel[0] + 3]] for pixel in pixels]
    else:
        samples = [[pixel[i] / full for i in ((0, 1, 2) if channels > 2 else (0, 0, 0))] for pixel in pixels]
    # A profile weighs colours for the white D50.
    most = MOST_STEPS_OF_PROFILE if b"iCCP" in told else MOST_STEPS
    if b"sRGB" in told:
        law = srgb
    elif b"gAMA" in told:
        power = 1e5 / struct.unpack(">I", told[b"gAMA"])[0]
        law = lambda value: value**power
    else:
        law = (lambda value: value) if depth == 16 else srgb
    return width, height, samples, law, most


def tiff_samples(path):
    tiff = ctypes.CDLL("libtiff.so.6")
    tiff.TIFFOpen.restype = ctypes.c_void_p
    for name in ("TIFFSetErrorHandler", "TIFFSetWarningHandler"):
        getattr(tiff, name)(None)
    handle = ctypes.c_void_p(tiff.TIFFOpen(str(path).encode(), b"r"))
    if not handle:
        return None
    width, height, bits = ctypes.c_uint32(), ctypes.c_uint32(), ctypes.c_uint16(1)
    tiff.TIFFGetField(handle, 256, ctypes.byref(width))
    tiff.TIFFGetField(handle, 257, ctypes.byref(height))
    tiff.TIFFGetField(handle, 258, ctypes.byref(bits))
    pixels = (ctypes.c_uint32 * (width.value * height.value))()
    good = tiff.TIFFReadRGBAImageOriented(handle, width, height, pixels, 1, 1)
    tiff.TIFFClose(handle)
    if not good:
        return None
    samples = [[(each >> shift & 255) / 255 for shift in (0, 8, 16)] for each in pixels]
    is_deep = bits.value == 16
    return (width.value, height.value, samples, (lambda value: value) if is_deep else srgb,
            MOST_STEPS_OF_CUT if is_deep else MOST_STEPS)


def save_linear(path, width, height, light):
    entries = [(256, 4, width), (257, 4, height), (258, 3, 16), (259, 3, 1), (262, 3, 1), (273, 4, 8), (277, 3, 1),
               (278, 4, height), (279, 4, 2 * len(light))]
    pixels = struct.pack(f"<{len(light)}H", *(round(65535 * min(max(each, 0), 1)) for each in light))
    path.write_bytes(b"II*\0" + struct.pack("<I", 8 + len(pixels)) + pixels + struct.pack("<H", len(entries)) +
                     b"".join(struct.pack("<HHII", tag, kind, 1, value) for tag, kind, value in entries) + bytes(4))


def printed(program, scan, out, *words):
    return subprocess.run([program, "print", scan, "--pack", out.parent / "pack.toml", "--whole", "--clear", "1", "--channels", "luminance",
                           "--profile", "grey", "--bits", "8", "--force", "-o", out, *words],
                          capture_output=True, text=True)


def grey_of(path):
    """Samples of a grey TIFF of one strip or more as the program writes it, 8 bits, not compressed."""
    data = path.read_bytes()
    at, = struct.unpack("<I", data[4:8])
    entries = {}
    for i in range(struct.unpack("<H", data[at:at + 2])[0]):
        tag, kind, count, value = struct.unpack("<HHII", data[at + 2 + 12 * i:at + 14 + 12 * i])
        entries[tag] = [value] if count == 1 else list(struct.unpack(f"<{count}I", data[value:value + 4 * count])) \
            if kind == 4 else [value]
    return b"".join(data[a:a + b] for a, b in zip(entries[273], entries[279]))


def tiled(path, folder):
    """A small PNG of 8 or 16 bits repeated to at least 32 x 32; all chunks but the picture stay as they are."""
    data = path.read_bytes()
    told = list(chunks(data))
    names = [name for name, _ in told]
    if data[:8] != b"\x89PNG\r\n\x1a\n" or b"IHDR" not in names or b"IDAT" not in names:
        return path
    width, height, depth, kind, _, _, interlaced = struct.unpack(">IIBBBBB", dict(told)[b"IHDR"])
    if depth < 8 or interlaced or min(width, height) >= 16:
        return path
    channels = {0: 1, 2: 3, 3: 1, 4: 2, 6: 4}[kind]
    try:
        raw = zlib.decompress(b"".join(body for name, body in told if name == b"IDAT"))
    except zlib.error:
        return path
    rows, _ = unfiltered(raw, width, height, depth, channels)
    across, down = -(-32 // width), -(-32 // height)
    lines = [b"\0" + b"".join(each.to_bytes(depth // 8, "big") for pixel in row for each in pixel) * across
             for row in rows] * down
    head = struct.pack(">II", width * across, height * down)
    out, has_pixels = data[:8], False
    for name, body in told:
        if name == b"IHDR":
            body = head + body[8:]
        if name == b"IDAT":
            if has_pixels:
                continue
            body, has_pixels = zlib.compress(b"".join(lines)), True
        out += struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))
    made = folder / "tiled.png"
    made.write_bytes(out)
    return made


def outcome(program, path, folder):
    if path.suffix == ".png":
        path = tiled(path, folder)
    answer = printed(program, path, folder / "seen.tif")
    said = [line.split(str(path) + ": ")[-1] for line in answer.stderr.splitlines()]
    if answer.returncode != 0:
        reason = said[-1] if said else ""
        return (answer.returncode in (64, 65) and bool(reason) and "()" not in reason), "refused", reason
    independent = (png_samples if path.suffix == ".png" else tiff_samples)(path)
    note = next((line for line in said if "codes" in line), "")
    if independent is None:
        return False, "printed", "no independent reader takes it: " + note
    width, height, samples, law, most = independent
    weights = LUMINANCE
    light = [sum(weight * law(each) for weight, each in zip(weights, pixel)) for pixel in samples]
    save_linear(folder / "light.tif", width, height, light)
    wanted = printed(program, folder / "light.tif", folder / "wanted.tif", "--encoding", "linear")
    if wanted.returncode != 0:
        return False, "printed", "its light is refused: " + wanted.stderr.strip()
    worst = max(abs(a - b) for a, b in zip(grey_of(folder / "seen.tif"), grey_of(folder / "wanted.tif")))
    return worst <= most, f"printed, {worst} steps apart", note


def main():
    program = pathlib.Path(sys.argv[1]).resolve()
    with tempfile.TemporaryDirectory() as own:
        folder = pathlib.Path(sys.argv[2] if len(sys.argv) > 2 else own).resolve()
        if not list(folder.glob("*.orig.tar.*")):
            fetched(folder)
        (folder / "pack.toml").write_text("fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n")
        pictures = sorted(path for path in folder.glob("lib*/**/*")
                          if path.suffix in (".png", ".tif", ".tiff") and path.is_file())
        print("| picture | outcome | right | said |\n|---|---|---|---|")
        wrong, counts = 0, collections.Counter()
        for path in pictures:
            good, how, said = outcome(program, path, folder)
            wrong += not good
            counts[how.split(",")[0] if good else "wrong"] += 1
            print(f"| {path.name} | {how} | {'yes' if good else '**NO**'} | {said} |", flush=True)
        print(f"\n{len(pictures)} pictures, {wrong} wrong: {dict(counts)}")
    sys.exit(wrong > 0)


main()
