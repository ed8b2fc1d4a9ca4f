# SPDX-License-Identifier: MIT
"""Tries the program with inputs that are wrong in structure and counts what it does; see attack.sh."""

import collections
import hashlib
import os
import random
import re
import resource
import shlex
import shutil
import subprocess
import sys
import tempfile

import made

SECONDS, MEMORY = 20, 3 << 30
VERBS = {"print": "negative.tif --pack pack.toml -o out.tif", "grid": "negative.tif --pack pack.toml -o out.png --cell 80",
         "start": "negative.tif --pack pack.toml", "plan": "negative.tif --pack pack.toml", "pack show": "pack.toml",
         "pack new": "--white 0.1 --blank 0.3 -o new.toml", "pack fit": "few.csv -o fit.toml", "read": "few.csv -o read.csv"}
VALUES = ["", " ", "0", "-0", "-1", "1", "2", "1e9", "1e-320", "nan", "inf", "-inf", "0x10", "010", "1,2", "1,2,3,4", "0,0,0,0", "=", "a=b", "1s", "1s@2@3",
          "100%", "1/0", "2/1", "grade=1,2", "grade=", "bleach=0s,1s", "x" * 3000, "\x1b[2J", "a\nb", "\udcff", "--help", "-", ".", "/", "/dev/null",
          "negative.tif", "pack.toml", "folder", "loop", "99999999999999999999", "1.5", "0,5", "srgb", "gloss"]
PLACES = ["negative.tif", "./negative.tif", "link.tif", "hard.tif", "pack.toml", "few.csv", "recipe.toml", "folder", "folder/", ".", "..", "/", "loop",
          "dangling", "none/none.tif", "/dev/null", "/dev/full", "pipe", "shut/out.tif", "-", "", "out.tif", "out.png", "a/../out.jpg", "new.toml", "new.svg",
          "x" * 250 + ".tif", "out.TIF", "session.tif", "\x1b.tif"]


def limited():
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS + 1))
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


class Attack:
    def __init__(self, program, folder):
        self.program, self.folder, self.counts = os.path.abspath(program), folder, collections.Counter()
        self.findings = 0
        self.home = dict(os.environ, XDG_CONFIG_HOME=os.path.join(folder, "settings"))
        os.makedirs(os.path.join(folder, "settings/fogproof"))
        self.ended(["--quiet", "demo", ".", "--megapixels", "0.3"])
        text = self.read("readings.csv").decode().replace("\r", "").split("\n")
        self.write("few.csv", "\n".join(line for line in text if not line.startswith("#")).encode())
        self.write("recipe.toml", b"fogproof_recipe = 1\n[[exposure]]\ngrade = 2\ntime_s = 9\n[develop]\ntime_s = 90\n[bleach]\ntime_s = 40\n")
        for name in ("folder", "shut"):
            os.mkdir(self.path(name))
        os.symlink("negative.tif", self.path("link.tif"))
        os.link(self.path("negative.tif"), self.path("hard.tif"))
        os.symlink("loop", self.path("loop"))
        os.symlink("nowhere", self.path("dangling"))
        os.mkfifo(self.path("pipe"))
        os.chmod(self.path("shut"), 0o500)
        self.options = {verb: sorted(set(re.findall(r"--[a-z][a-z-]+", self.ended(verb.split() + ["--help"]).stdout.decode())) - {"--help"})
                        for verb in VERBS}
        self.before = self.seen()
        self.contents = {name: self.read(name) for name in self.before if os.path.isfile(name) and not os.path.islink(name)}

    def path(self, name):
        return os.path.join(self.folder, name)

    def read(self, name):
        with open(self.path(name), "rb") as file:
            return file.read()

    def write(self, name, content):
        with open(self.path(name), "wb") as file:
            file.write(content)

    def seen(self):
        """Every name below the folder: what it is, and its content."""
        all_ = {}
        for root, folders, files in os.walk(self.folder):
            for name in folders + files:
                path = os.path.join(root, name)
                if os.path.islink(path):
                    all_[path] = "-> " + os.readlink(path)
                elif os.path.isfile(path):
                    with open(path, "rb") as file:
                        all_[path] = hashlib.sha256(file.read()).hexdigest()
                else:
                    all_[path] = "folder or pipe"
        return all_

    def ended(self, words):
        return subprocess.run([os.fsencode(self.program)] + [os.fsencode(word) for word in words], cwd=self.folder, env=self.home,
                              stdin=subprocess.DEVNULL, capture_output=True, preexec_fn=limited, timeout=300, check=False)

    def tried(self, r, kind):
        """The words of one try; its own files are written."""
        if kind == "tiff":
            self.write("try.tif", made.tiff(r))
            return r.choice(["print try.tif --pack pack.toml -o out.tif", "print try.tif --pack pack.toml -o out.jpg", "start try.tif --pack pack.toml",
                             "read try.tif -o read.csv --steps 3"]).split()
        if kind == "toml":
            which = r.choice(["pack.toml", "recipe.toml", "settings"])
            if which == "settings":
                good = "fogproof_darkroom = 1\n[enlarger]\ncallier = 1.2\nflare = 0.004\n[work]\nlitres = 1\nsheet = \"240x300\"\n[scanner]\nencoding = \"linear\""
                self.write("settings/fogproof/darkroom.toml", made.toml(r, good))
                return r.choice([["--version"], ["darkroom"], ["start", "negative.tif", "--pack", "pack.toml"]])
            self.write("try.toml", made.toml(r, self.read(which).decode()))
            if which == "recipe.toml":
                return "print negative.tif --pack pack.toml --recipe try.toml -o out.tif --long-side 100".split()
            return r.choice(["pack check try.toml", "pack show try.toml --json", "pack fit few.csv --pack try.toml -o fit.toml"]).split()
        if kind == "csv":
            self.write("try.csv", made.csv(r, self.read("few.csv").decode()))
            return r.choice(["pack fit try.csv -o fit.toml", "pack fit try.csv --pack pack.toml -o fit.toml --json", "read try.csv -o read.csv",
                             "read few.csv -o try.csv"]).split()
        if kind == "options":
            verb = r.choice(list(VERBS))
            words = verb.split() + VERBS[verb].split()
            for _ in range(r.choice([1, 2, 2])):
                option, value = r.choice(self.options[verb]), r.choice(VALUES)
                words += [option + "=" + value] if r.random() < 0.7 else [option, value]
            return words
        verb = r.choice(list(VERBS))
        words = verb.split() + VERBS[verb].split() + ["--force"] * (r.random() < 0.5)
        for _ in range(r.randint(1, 2)):
            at = r.randrange(len(verb.split()), len(words))
            if not words[at].startswith("-"):
                words[at] = r.choice(PLACES)
        return words

    def once(self, number):
        kind = ["tiff", "toml", "csv", "options", "paths"][number % 5]
        words = self.tried(random.Random(number), kind)
        own = self.seen()
        faults = []
        try:
            end = self.ended(["--quiet"] + words if kind != "options" else words)
        except subprocess.TimeoutExpired:
            faults.append("hang")
            outcome = "hang"
        except ValueError:  # a word that no program can be given
            return
        else:
            outcome = "signal " + str(-end.returncode) if end.returncode < 0 else "exit " + str(end.returncode)
            if end.returncode < 0:
                faults.append("hang" if end.returncode in (-9, -24) else "crash")
            if end.returncode == 70:
                faults.append("internal defect")
            if end.returncode > 0 and not end.stderr.strip():
                faults.append("no message")
            if re.search(rb"[\x00-\x09\x0b-\x1f\x7f]|\xc2[\x80-\x9f]", end.stderr) or len(end.stderr) > 20000:
                faults.append("unclean message")
            if end.stderr and not end.stderr.startswith(b"fogproof: "):
                faults.append("message of somebody else")
            if kind == "paths" and end.returncode not in (0, 70) and end.stderr.count(b"\n") > 3:
                faults.append("long message")
        now = self.seen()
        # A readings file is appended to, and --force replaces what is named as output; inputs never change.
        inputs = [name for name in own if os.path.basename(name) in ("negative.tif", "pack.toml", "readings.csv", "hard.tif", "link.tif", "pipe")]
        outputs = [words[i + 1] for i, word in enumerate(words[:-1]) if word in ("-o", "--output", "--curves", "--picture")]
        for name in inputs:
            is_output = any(os.path.realpath(self.path(o)) == os.path.realpath(name) for o in outputs if o)
            if now.get(name) != own[name] and not (is_output and "--force" in words and os.path.basename(name) not in " ".join(
                    w for w in words if w not in outputs)):
                faults.append("input changed: " + os.path.basename(name))
        faults += ["left behind: " + os.path.basename(name) for name in now if name.endswith(".tmp")]
        self.counts[kind, outcome] += 1
        if faults:
            self.findings += 1
            print(f"try {number}: {', '.join(faults)} ({outcome}): {shlex.join(words)[:300]!a}")
            if outcome != "hang" and end.stderr:
                print("    " + ascii(end.stderr[:300].decode("utf-8", "replace")))
        self.restore(now)

    def restore(self, now):
        for name in sorted(set(now) - set(self.before), key=len, reverse=True):
            (os.rmdir if os.path.isdir(name) and not os.path.islink(name) else os.remove)(name)
        for name, was in self.before.items():
            if now.get(name) == was:
                continue
            if os.path.lexists(name):
                os.remove(name)
            if was.startswith("-> "):
                os.symlink(was[3:], name)
            elif name in self.contents:
                self.write(name, self.contents[name])
            else:
                os.mkfifo(name)


def main():
    program, tries, first = sys.argv[1], int((sys.argv[2:3] or ["500"])[0]), int((sys.argv[3:4] or ["0"])[0])
    with tempfile.TemporaryDirectory(prefix="fogproof-attack-") as folder:
        attack = Attack(program, folder)
        try:
            for number in range(first, first + tries):
                attack.once(number)
        finally:
            for (kind, outcome), count in sorted(attack.counts.items()):
                print(f"{kind:8} {outcome:10} {count:6}")
            print(f"{sum(attack.counts.values())} tries, {attack.findings} findings")
            os.chmod(attack.path("shut"), 0o700)
    return 1 if attack.findings else 0


if __name__ == "__main__":
    sys.exit(main())
