# SPDX-License-Identifier: MIT
"""Small scans whose directory is wrong: TIFF 6.0, BigTIFF, either byte order, strips, tiles, planes, several pages."""

import struct
import zlib

TYPES = {1: 1, 2: 1, 3: 2, 4: 4, 5: 8, 6: 1, 7: 1, 8: 2, 9: 4, 10: 8, 11: 4, 12: 8, 13: 4, 16: 8}  # TIFF 6.0 and BigTIFF: bytes of each
ODD = [0, 1, 2, 3, 7, 8, 16, 255, 256, 65535, 65536, 2**31 - 1, 2**31, 2**32 - 1, 2**63, 2**64 - 1]
# Tiles, sub-directories, colour maps, JPEG tables, profiles, EXIF, transfer functions, matrices of cameras.
OTHERS = [266, 301, 318, 319, 320, 322, 323, 324, 325, 330, 332, 338, 342, 347, 700, 34675, 34377, 33723, 34665, 50706, 50721]
WIDTH, HEIGHT = 48, 40


def packed(r, coding, data):
    if coding == 1:
        return data
    if coding == 32773:  # PackBits, literally
        return b"".join(bytes([len(data[i:i + 128]) - 1]) + data[i:i + 128] for i in range(0, len(data), 128))
    return zlib.compress(data + b"\0" * r.choice([0, 0, 0, 100000]))


def laid_out(r, samples, bits):
    """Pixels and the entries that say where they are."""
    planes = samples if samples > 1 and r.random() < 0.3 else 1
    together, deep = samples // planes, bits // 8
    coding = r.choice([1, 1, 8, 32773])

    def part(x0, x1, y0, y1):
        return bytes((x * 5 + y * 3 + i) & 255 for y in range(y0, y1) for x in range(x0, x1) for i in range(together * deep))

    if r.random() < 0.3:
        parts = [packed(r, coding, part(x, x + 16, y, y + 16)) for _ in range(planes) for y in range(0, HEIGHT, 16) for x in range(0, WIDTH, 16)]
        places = [[322, 3, [16]], [323, 3, [16]], [324, 4, parts], [325, 4, [len(p) for p in parts]]]
    else:
        rows = r.choice([1, 5, 16, HEIGHT])
        parts = [packed(r, coding, part(0, WIDTH, y, min(y + rows, HEIGHT))) for _ in range(planes) for y in range(0, HEIGHT, rows)]
        places = [[273, 4, parts], [278, 3, [rows]], [279, 4, [len(p) for p in parts]]]
    return parts, [[256, 3, [WIDTH]], [257, 3, [HEIGHT]], [258, 3, [bits] * samples], [259, 3, [coding]], [284, 3, [2 if planes > 1 else 1]]] + places


def spoil(r, entries, places, counts, at):
    entry, how = r.choice(entries), r.randrange(12)
    if how == 0:
        entry[1] = r.choice(list(TYPES) + [0, 14, 99])
    elif how == 1:
        counts[entry[0]] = r.choice(ODD)
    elif how == 2:
        entry[2] = [r.choice(ODD) for _ in entry[2]]
    elif how == 3:
        places[entry[0]] = r.choice(ODD + [at, at + 2])
    elif how == 4 and len(entries) > 1:
        entries.remove(entry)
    elif how == 5:
        entries.insert(r.randrange(len(entries)), list(entry))
    elif how == 6:
        r.shuffle(entries)
    elif how == 7:
        entries.append([r.choice(OTHERS), r.choice(list(TYPES)), [r.choice(ODD) for _ in range(r.randint(1, 9))]])
    elif how == 8:
        entry[2] = entry[2] * r.choice([2, 50])
    elif how == 9:
        entry[2] = entry[2][: len(entry[2]) // 2]
    elif how == 10:  # one value of several
        entry[2] = list(entry[2]) or [0]
        entry[2][r.randrange(len(entry[2]))] = r.choice(ODD)
    else:
        other = r.choice(entries)
        entry[2], other[2] = other[2], entry[2]


class Writer:
    def __init__(self, order, big):
        self.order, self.big = order, big

    def word(self, value, width):
        return (int(value) & (256**width - 1)).to_bytes(width, self.order)

    def values(self, kind, values):
        mark = "<" if self.order == "little" else ">"
        if kind in (5, 10):
            return b"".join(self.word(v, 4) for v in values), len(values) // 2
        if kind == 11:
            return b"".join(struct.pack(mark + "f", v) for v in values), len(values)
        if kind == 12:
            return b"".join(struct.pack(mark + "d", v) for v in values), len(values)
        return b"".join(self.word(v, TYPES.get(kind, 4)) for v in values), len(values)

    def header(self, at):
        mark = b"II" if self.order == "little" else b"MM"
        if self.big:
            return mark + self.word(43, 2) + self.word(8, 2) + self.word(0, 2) + self.word(at, 8)
        return mark + self.word(42, 2) + self.word(at, 4)

    def directory(self, at, entries, places, counts, following):
        wide = 8 if self.big else 4
        after, more = at + (8 if self.big else 2) + (12 if not self.big else 20) * len(entries) + wide, b""
        text = self.word(len(entries), 8 if self.big else 2)
        for tag, kind, values in entries:
            data, count = self.values(kind, values)
            if len(data) <= wide:
                field = data.ljust(wide, b"\0")
            else:
                field, more = self.word(after + len(more), wide), more + data
            if tag in places:
                field = self.word(places[tag], wide)
            text += self.word(tag, 2) + self.word(kind, 2) + self.word(counts.get(tag, count), wide) + field
        return text + self.word(following, wide) + more


def tiff(r):
    samples, bits = r.choice([(1, 8), (1, 16), (3, 8), (3, 16), (2, 16), (4, 8)])
    writer = Writer(r.choice(["little", "little", "big"]), r.random() < 0.15)
    parts, entries = laid_out(r, samples, bits)
    at = len(writer.header(0))
    offsets = []
    for part in parts:
        offsets.append(at)
        at += len(part)
    for entry in entries:
        if entry[2] is parts:
            entry[2] = offsets
    entries += [[262, 3, [1 if samples < 3 else 2]], [274, 3, [1]], [277, 3, [samples]], [282, 5, [300, 1]], [283, 5, [300, 1]],
                [296, 3, [2]], [339, 3, [1] * samples]]
    if samples in (2, 4):
        entries.append([338, 3, [r.choice([0, 1, 2])]])
    entries.sort()
    places, counts = {}, {}
    for _ in range(r.choice([0, 1, 1, 2, 3])):
        spoil(r, entries, places, counts, at)
    # The next directory: none, this one again, one without end, a place inside the pixels, a good one.
    following = r.choice([0, 0, 0, at, 8, at + 2, 2**32 - 2, -1])
    directory = writer.directory(at, entries, places, counts, following)
    if following == -1:
        directory = writer.directory(at, entries, places, counts, at + len(directory))
        directory += writer.directory(at + len(directory), entries, {}, {}, 0)
    whole = writer.header(at) + b"".join(parts) + directory
    return whole[: r.randrange(len(whole))] if r.random() < 0.05 else whole
