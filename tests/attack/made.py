# SPDX-License-Identifier: MIT
"""Inputs whose structure is wrong: TIFF directories, TOML trees, CSV tables. Each takes a random.Random."""

import struct

TYPES = {1: 1, 2: 1, 3: 2, 4: 4, 5: 8, 6: 1, 7: 1, 8: 2, 9: 4, 10: 8, 11: 4, 12: 8, 13: 4, 16: 8}  # TIFF 6.0, bytes of each
ODD = [0, 1, 2, 3, 7, 8, 255, 256, 65535, 65536, 2**31 - 1, 2**31, 2**32 - 1]


def tiff(r):
    """A small scan, TIFF 6.0 little-endian, with some entries of its directory spoilt."""
    width, height = 48, 40
    samples, bits = r.choice([(1, 8), (1, 16), (3, 8), (3, 16), (2, 16)])
    rows = r.choice([1, 5, 16, height])
    line = width * samples * bits // 8
    strips = [min(rows, height - y) * line for y in range(0, height, rows)]
    pixels = bytes((x * 5 + y * 3) & 255 for y in range(height) for x in range(line))
    at = 8
    offsets = []
    for size in strips:
        offsets.append(at)
        at += size
    entries = [[256, 3, [width]], [257, 3, [height]], [258, 3, [bits] * samples], [259, 3, [1]],
               [262, 3, [1 if samples < 3 else 2]], [273, 4, offsets], [274, 3, [1]], [277, 3, [samples]], [278, 3, [rows]],
               [279, 4, strips], [282, 5, [300, 1]], [283, 5, [300, 1]], [284, 3, [1]], [296, 3, [2]], [339, 3, [1] * samples]]
    if samples == 2:
        entries.append([338, 3, [0]])
        entries.sort()
    counts, places = {}, {}
    for _ in range(r.randint(1, 3)):
        entry = r.choice(entries)
        how = r.randrange(11)
        if how == 0:
            entry[1] = r.choice(list(TYPES) + [0, 14, 99])
        elif how == 1:
            counts[entry[0]] = r.choice(ODD)
        elif how == 2:
            entry[2] = [r.choice(ODD) for _ in entry[2]]
        elif how == 3:
            places[entry[0]] = r.choice(ODD + [8, at, at + 2])
        elif how == 4 and len(entries) > 1:
            entries.remove(entry)
        elif how == 5:
            entries.insert(r.randrange(len(entries)), list(entry))
        elif how == 6:
            r.shuffle(entries)
        elif how == 7:
            entries.append([r.choice([320, 322, 323, 324, 325, 330, 338, 342, 347, 700, 34675, 34377, 33723, 34665, 50706]),
                            r.choice(list(TYPES)), [r.choice(ODD) for _ in range(r.randint(1, 9))]])
        elif how == 8:
            entry[2] = entry[2] * r.choice([2, 50])
        elif how == 9:
            entry[2] = entry[2][: len(entry[2]) // 2]
        else:
            other = r.choice(entries)
            entry[2], other[2] = other[2], entry[2]
    size = 2 + 12 * len(entries) + 4
    after = at + size
    directory, more = struct.pack("<H", len(entries)), b""
    for tag, kind, values in entries:
        width_of = TYPES.get(kind, 4)
        if kind in (5, 10):
            data = b"".join(struct.pack("<I", v & 0xFFFFFFFF) for v in values)
            count = len(values) // 2
        elif kind == 11:
            data, count = b"".join(struct.pack("<f", v) for v in values), len(values)
        elif kind == 12:
            data, count = b"".join(struct.pack("<d", v) for v in values), len(values)
        else:
            data = b"".join((v & (256**width_of - 1)).to_bytes(width_of, "little") for v in values)
            count = len(values)
        if len(data) <= 4:
            field = data.ljust(4, b"\0")
        else:
            field = struct.pack("<I", after + len(more))
            more += data
        if tag in places:
            field = struct.pack("<I", places[tag])
        directory += struct.pack("<HHI", tag, kind, counts.get(tag, count) & 0xFFFFFFFF) + field
    # The next directory: none, this one again, one without end, a place inside the pixels.
    directory += struct.pack("<I", r.choice([0, 0, 0, at, 8, after, 2**32 - 2]))
    whole = struct.pack("<2sHI", b"II", 42, at) + pixels + directory + more
    return whole[: r.randrange(len(whole))] if r.random() < 0.1 else whole


def toml(r, text):
    """A good text of TOML with lines and values exchanged, nested, doubled, made huge."""
    lines = text.split("\n")
    values = ["9007199254740993", "-9223372036854775808", "9223372036854775808", "1e400", "-1e-400", "nan", "-inf", "true", "\"\"",
              "\"\\u0000\"", "\"\\u009b\"", "[]", "[[1], [\"a\"]]", "{}", "{ value = 1 }", "{ value = { value = 1 } }",
              "{ value = 0.1, sd = nan }", "{ sd = 1 }", "1979-05-27T07:32:00Z", "0x10", "0b1", "1_000", "'''\n'''",
              "\"\"\"\n\"\"\"", "\"" + "x" * 5000 + "\"", "{ value = 0.1, from = 3 }", "0.1.2", "1 2", "[" * r.choice([2, 40, 400]),
              "{a=" * r.choice([2, 31, 33, 300]) + "1" + "}" * 300]
    for _ in range(r.randint(1, 4)):
        at = r.randrange(len(lines))
        how = r.randrange(10)
        if how < 4 and "=" in lines[at]:
            lines[at] = lines[at].split("=")[0] + "= " + r.choice(values)
        elif how == 4:
            lines.insert(r.randrange(len(lines)), lines[at])
        elif how == 5:
            other = r.randrange(len(lines))
            lines[at], lines[other] = lines[other], lines[at]
        elif how == 6:
            lines.insert(at, r.choice(["[[paper]]", "[paper.white]", "[a.b.c]", "[filter]", "[[filter]]", "[fit]", "[readings]",
                                       "[" + "a." * r.choice([3, 31, 33, 3000]) + "a]", "[]", "[\"\"]", "[[[x]]]"]))
        elif how == 7:
            lines[at] = ".".join(["a"] * r.choice([2, 32, 33, 5000])) + " = 1"
        elif how == 8:
            del lines[at:]
        else:
            lines[at] = r.choice(["\r", "\ufeff", "\x00", "= 1", "a", "a =", "\"\n", "'''", "\"\"\"", "# \x1b"])
        if not lines:
            lines = [""]
    return "\n".join(lines).encode("utf-8", "surrogatepass")


def csv(r, text):
    """A good table of readings, its columns and quotes not what they were."""
    rows = [line.split(",") for line in text.replace("\r", "").split("\n") if line and not line.startswith("#")]
    rows = rows[: r.choice([1, 2, 10, 97])]
    cells = ["", "\"", "\"\"", "\"a\nb\"", "\"a,b\"", "nan", "inf", "-1", "1e999", "0x10", "1,5", " 0.5 ", "=1+1", "\x1b[2J", "\u2028", "9" * 400,
             "x" * 300, "0.3;0.4", "\xff"]
    for _ in range(r.randint(1, 4)):
        row, how = r.choice(rows), r.randrange(9)
        if how == 0:
            column = r.randrange(len(rows[0]))
            for each in rows:
                each[column:column + 1] = each[column:column + 1] * 2
        elif how == 1 and len(rows[0]) > 1:
            column = r.randrange(len(rows[0]))
            for each in rows:
                del each[column:column + 1]
        elif how == 2:
            row.append(r.choice(cells))
        elif how in (3, 4, 5):
            row[r.randrange(len(row))] = r.choice(cells)
        elif how == 6:
            rows.insert(r.randrange(len(rows) + 1), list(row))
        elif how == 7:
            rows.insert(0, [""] * r.choice([1, 10, 20000]))
        else:
            row[:] = row * r.choice([2, 2000])
        if not row:
            row.append("")
    end = r.choice(["\n", "\n", "\r\n", "\r", "\n\n"])
    body = (r.choice(["", "\ufeff", "# a\n", ";sep\n"]) + end.join(",".join(row) for row in rows) + r.choice(["", end, "\""]))
    return body.encode(r.choice(["utf-8", "utf-8", "utf-8", "utf-16"]), "replace")
