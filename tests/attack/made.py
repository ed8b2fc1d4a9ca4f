# SPDX-License-Identifier: MIT
"""Texts whose structure is wrong, or right in a way that nobody writes: TOML trees, CSV tables. Each takes a random.Random."""

import re

VALUES = ["9007199254740993", "-9223372036854775808", "9223372036854775808", "1e400", "-1e-400", "nan", "-inf", "true", "\"\"",
          "\"\\u0000\"", "\"\\u009b\"", "\"\\u202e\"", "[]", "[[1], [\"a\"]]", "{}", "{ value = 1 }", "{ value = { value = 1 } }",
          "{ value = 0.1, sd = nan }", "{ sd = 1 }", "{ value = 0.1, sd = -1 }", "1979-05-27T07:32:00Z", "07:32:00", "0x10", "0b1", "1_000", "0", "-1", "1", "'''\n'''",
          "\"\"\"\n\"\"\"", "\"" + "x" * 5000 + "\"", "{ value = 0.1, from = 3 }", "{ value = 0.1, from = \"fit\" }", "0.1.2", "1 2"]
NAMES = ["paper", "paper.white", "a.b.c", "filter", "fit", "readings", "grades", "exposure", "bleach", "develop", "enlarger", "", "\"\"", "[x]"]


def toml(r, text):
    """A good text of TOML with lines and values exchanged, nested, doubled, made huge, or said in another way."""
    lines = text.split("\n")
    for _ in range(r.choice([1, 1, 2, 4])):
        if not lines:
            break
        how = r.randrange(14)
        # Values are where faults are understood: a third of all is about them.
        at = r.choice([i for i, line in enumerate(lines) if "=" in line] or [0]) if how < 5 else r.randrange(len(lines))
        key, mark, value = lines[at].partition("=")
        number = re.search(r"\d+\.?\d*", value)
        if how < 2 and mark:
            lines[at] = key + "= " + r.choice(VALUES + ["[" * r.choice([2, 40, 400]), "{a=" * r.choice([2, 31, 33, 300]) + "1" + "}" * 300])
        elif how == 2 and number:
            other = r.choice(["0", "-" + number[0], number[0] + "e3", number[0] + "e-300", "1" * 30, "nan", "0x7fffffffffffffff", number[0] + "0" * 300])
            lines[at] = key + "=" + value[:number.start()] + other + value[number.end():]
        elif how == 3 and mark:
            lines[at] = r.choice(["\"%s\" = %s", "'%s'=%s # \u00e9", "%s.value = %s", "  %s\t=\t%s  \r"]) % (key.strip(), value.strip())
        elif how == 4 and mark:
            lines[at] = key + "= [" + value + "]" if r.random() < 0.5 else key + "= { value = " + value + ", sd = 0.1 }"
        elif how == 5:
            lines.insert(r.randrange(len(lines)), lines[at])
        elif how == 6:
            other = r.randrange(len(lines))
            lines[at], lines[other] = lines[other], lines[at]
        elif how == 7:
            lines.insert(at, r.choice(["[%s]", "[[%s]]"]) % r.choice(NAMES + ["a." * r.choice([3, 31, 33, 3000]) + "a"]))
        elif how == 8:
            lines[at] = ".".join(["a"] * r.choice([2, 32, 33, 5000])) + " = 1"
        elif how == 9:
            del lines[at:]
        elif how == 10:
            del lines[at]
        elif how == 11:  # the tables in another order
            tables = re.split(r"(?m)^(?=\[)", "\n".join(lines))
            head, rest = tables[0], tables[1:]
            r.shuffle(rest)
            lines = (head + "\n".join(rest)).split("\n")
        elif how == 12:
            lines = [line + r.choice(["\r", "", " # \u00e9"]) for line in lines]
        else:
            lines[at] = r.choice(["\r", "\ufeff", "\x00", "= 1", "a", "a =", "\"\n", "'''", "\"\"\"", "# \x1b", "# \u2028"])
    return "\n".join(lines).encode("utf-8", "surrogatepass")


CELLS = ["", "\"", "\"\"", "\"a\nb\"", "\"a,b\"", "nan", "inf", "-1", "0", "1e999", "0x10", "1,5", " 0.5 ", "=1+1", "\x1b[2J", "\u2028", "9" * 400,
         "x" * 300, "0.3;0.4", "\xff", "0.5", "5", "a b", "\"a \"\"b\"\"\"", "\u202e"]


def csv(r, text):
    """A good table of readings, its columns and quotes not what they were."""
    rows = [line.split(",") for line in text.replace("\r", "").split("\n") if line and not line.startswith("#")]
    rows = rows[: r.choice([1, 2, 10, 97])]
    for _ in range(r.choice([1, 1, 2, 4])):
        for each in rows:
            each += [""] * (not each)  # what a change before this one has emptied
        row, how, column = r.choice(rows), r.randrange(13), r.randrange(len(rows[0]))
        if how == 0:
            for each in rows:
                each[column:column + 1] = each[column:column + 1] * 2
        elif how == 1 and len(rows[0]) > 1:
            for each in rows:
                del each[column:column + 1]
        elif how == 2:
            row.append(r.choice(CELLS))
        elif how in (3, 4, 5):
            row[r.randrange(len(row))] = r.choice(CELLS)
        elif how == 6:
            rows.insert(r.randrange(len(rows) + 1), list(row))
        elif how == 7:
            rows.insert(0, [""] * r.choice([1, 10, 20000]))
        elif how == 8:
            row[:] = row * r.choice([2, 2000])
        elif how == 9:  # the columns in another order
            order = list(range(len(rows[0])))
            r.shuffle(order)
            rows = [[each[i] for i in order if i < len(each)] for each in rows]
        elif how == 10:
            rows = [["\"" + cell.replace("\"", "\"\"") + "\"" for cell in each] for each in rows]
        elif how == 11:
            rows.insert(r.randrange(1, len(rows) + 1), r.choice([["# a"], [""], ["#" + "," * 50], [","]]))
        else:  # one column all the same
            other = r.choice(["", "0", "1", "-1", "00", "5", "0.001", "a"])
            for each in rows[1:]:
                each[column:column + 1] = [other]
        if not row:
            row.append("")
    end = r.choice(["\n", "\n", "\r\n", "\r", "\n\n"])
    body = (r.choice(["", "", "", "\ufeff", "# a\n", ";sep\n"]) + end.join(",".join(row) for row in rows) + r.choice(["", end, end, "\""]))
    if r.random() < 0.1:
        body = body.replace(",", r.choice([";", "\t", ",,"]))
    return body.encode(r.choice(["utf-8"] * 8 + ["utf-16", "latin-1"]), "replace")
