# SPDX-License-Identifier: MIT
"""What is tried: words of the program and files that are made for one try. Each is made of a random.Random alone."""

import os
import re

import made
import made_tiff

KINDS = ("tiff", "toml", "csv", "options", "paths")
VERBS = {"print": "negative.tif --pack pack.toml -o out.tif", "grid": "negative.tif --pack pack.toml -o out.png --cell 80",
         "start": "negative.tif --pack pack.toml", "plan": "negative.tif --pack pack.toml -o sheets", "pack show": "pack.toml", "pack check": "pack.toml",
         "pack new": "--white 0.1 --blank 0.3 -o new.toml", "pack fit": "few.csv -o fit.toml", "read": "few.csv -o read.csv", "darkroom": "",
         "demo": "attic --megapixels 0.3", "completion": "bash", "manual": "man"}
# How often each is taken: what writes is tried most, what computes long least (demo not at all).
OFTEN = (["print"] * 8 + ["read"] * 6 + ["grid"] * 3 + ["pack new"] * 3 + ["pack fit"] * 3 + ["pack check"] * 2 + ["start", "plan", "pack show", "darkroom",
                                                                                                           "completion", "manual"])
VALUES = ["", " ", "0", "-0", "-1", "1", "2", "1e9", "1e-320", "nan", "inf", "-inf", "0x10", "010", "1,2", "1,2,3,4", "0,0,0,0", "=", "a=b", "1s", "1s@2@3",
          "100%", "1/0", "2/1", "grade=1,2", "grade=", "bleach=0s,1s", "x" * 3000, "\x1b[2J", "a\nb", "\udcff", "--help", "-", ".", "/", "/dev/null",
          "negative.tif", "pack.toml", "folder", "loop", "99999999999999999999", "1.5", "0,5", "srgb", "gloss", "8s@2", "0.09@95%", "4s@0 7s@5",
          "10,10,60,40", "10,10,60,40=0.1", "0.05,0.15,21", "2,4,8,16", "80%-100%", "grade=3,bleach=40s", "240x300", "1+50", "\u202eabc", "\u2028"]
PLACES = ["negative.tif", "./negative.tif", "link.tif", "hard.tif", "here/negative.tif", "folder/../negative.tif", "pack.toml", "few.csv", "link.csv",
          "recipe.toml", "list.txt", "folder", "folder/", "here", ".", "..", "../out.tif", "/", "loop", "dangling", "dangling.tif", "none/none.tif", "/dev/null",
          "/dev/full", "pipe", "-", "", "out.tif", "out.png", "a/../out.jpg", "new.toml", "new.svg", "x" * 250 + ".tif", "x" * 251 + ".tif",
          "x" * 252 + ".tif", "out.TIF", "session.tif", "\x1b.tif", "a\nfogproof: b.tif", "unreadable.tif", "unreadable.toml", "read-only.tif", "read-only.csv",
          "to-shared.tif"] + [folder + "/" + name for folder in ("shut", "blind", "hidden", "shared", "theirs", "full")
                              for name in ("out.tif", "negative.tif", "pack.toml", "few.csv", "sheets", "link.tif")]
# Names that a run gives to its outputs by itself: an input called so is in its way.
DERIVED = ["out.png.json", "out.html", "out.png.html", "sheets/session.html", "sheets/session.txt", "sheets/negative.txt", "sheets/negative.html",
           "sheets/negative-proofs.html", "fit.toml.1", "fit.1.toml", "new.toml", "out.tif", "out.png", "read.csv", "curves.svg", "read.png", "ladder.png",
           "man/fogproof.1", "attic/negative.tif", "attic/pack.toml"]
SETTINGS = ("fogproof_darkroom = 1\n[enlarger]\ncallier = 1.2\nflare = 0.004\n[work]\nlitres = 1\nsheet = \"240x300\"\n"
            "[scanner]\nencoding = \"linear\"")


def options_of(world):
    """What help names for each verb; --quiet and --verbose stand before a verb, and are tried behind it."""
    return {verb: sorted(set(re.findall(r"--[a-z][a-z-]+", world.ended(verb.split() + ["--help"]).stdout.decode())) - {"--help"} | {"--quiet", "--verbose"})
            for verb in VERBS}


def tiff(r, world):
    world.write("try.tif", made_tiff.tiff(r))
    return r.choice(["print try.tif --pack pack.toml -o out.tif --whole"] * 4 + ["print try.tif --pack pack.toml -o out.tif", "print try.tif --pack pack.toml -o out.jpg", "start try.tif --pack pack.toml",
                     "read try.tif -o read.csv --steps 3", "print try.tif second.tif --pack pack.toml -o folder",
                     "start negative.tif --pack pack.toml --match try.tif", "print try.tif --pack pack.toml -o out.png --whole"]).split()


def toml(r, world):
    which = r.choice(["pack.toml", "recipe.toml", "settings"])
    if which == "settings":
        world.write("settings/fogproof/darkroom.toml", made.toml(r, SETTINGS))
        return r.choice(["--version", "darkroom", "grid negative.tif --pack pack.toml -o out.png --cell 80"]).split()
    world.write("try.toml", made.toml(r, world.read(which).decode()))
    if which == "recipe.toml":
        return "print negative.tif --pack pack.toml --recipe try.toml -o out.tif --long-side 100".split()
    return r.choice(["pack check try.toml"] * 6 + ["pack show try.toml --json", "pack fit few.csv --pack try.toml -o fit.toml", "pack show try.toml --curves c.svg",
                     "print negative.tif --pack try.toml -o out.jpg"]).split()


def csv(r, world):
    world.write("try.csv", made.csv(r, world.read("few.csv").decode()))
    return r.choice(["pack fit try.csv -o fit.toml", "pack fit try.csv --pack pack.toml -o fit.toml --json", "read try.csv -o read.csv",
                     "read few.csv -o try.csv", "pack fit try.csv -o fit.toml --curves c.svg"]).split()


def options(r, _, all_options):
    verb = r.choice(OFTEN)
    words = verb.split() + VERBS[verb].split()
    for _ in range(r.choice([1, 2, 2, 2])):
        option, value = r.choice(all_options[verb]), r.choice(VALUES)
        form = r.random()
        words += [option + "=" + value] if form < 0.5 else [option, value] if form < 0.8 else [option]
    return words


def spelled(r, name):
    """The same file under another name."""
    return r.choice([name, "./" + name, "folder/../" + name, "here/" + name, "here/here/" + name, ".//" + name])


def paths(r, world):
    verb = r.choice(OFTEN)
    words = verb.split() + VERBS[verb].split()
    first = len(verb.split())
    if verb in ("pack show", "pack fit") and r.random() < 0.5:
        words += ["--curves", "curves.svg"]
    if verb == "start" and r.random() < 0.5:
        words += ["--ladder", "ladder.png"]
    if verb == "read" and r.random() < 0.3:
        words += ["--picture", "read.png"]
    if verb == "grid" and r.random() < 0.5:
        words += ["--html"]
    if verb in ("print", "plan") and r.random() < 0.4:
        words += r.choice([["second.tif"], ["--list", "list.txt"], ["./negative.tif"], ["link.tif"], ["folder/negative.tif"]])
        words[words.index("-o") + 1] = r.choice(["folder", "sheets", ".", "shut", "here", "theirs", "shared", "blind"])
    slots = [i for i in range(first, len(words)) if not words[i].startswith("-") and not words[i - 1] in ("--cell", "--white", "--blank", "--megapixels")]
    how = r.randrange(3) if slots else 3
    if how == 0:  # a place with something about it
        for _ in range(r.randint(1, 2)):
            words[r.choice(slots)] = r.choice(PLACES)
    elif how == 1 and len(slots) > 1:  # one file in two parts, spelled twice
        one, other = r.sample(slots, 2)
        words[one] = spelled(r, words[other])
    elif how == 2:  # an input that is called as an output will be
        name, slot = r.choice(DERIVED), r.choice(slots)
        if os.path.isfile(world.path(words[slot])):
            if os.path.dirname(name):
                os.mkdir(world.path(os.path.dirname(name)))
                world.given(os.path.dirname(name))
            world.write(name, world.read(words[slot]))
            words[slot] = spelled(r, name)
    return words + ["--force"] * (verb not in ("pack check", "darkroom", "completion", "manual") and r.random() < 0.5)
