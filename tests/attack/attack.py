# SPDX-License-Identifier: MIT
"""Tries the program with inputs that are wrong in structure and counts what it does; see attack.sh."""

import collections
import os
import random
import re
import resource
import shlex
import signal
import subprocess
import sys
import tempfile

import tries
from world import CONTROLS, SLOWNESS, World

# A message is a line of one fault: a place and a short text. Many bad rows or entries are told in one go.
LONGEST_LINE, MOST_LINES = 1000, 200
SLOW = 5 * SLOWNESS  # seconds of CPU
FAULTS = ("crash", "hang", "internal defect", "no message", "message over limits", "control character", "input changed", "left behind",
          "no output", "slow", "foreign code")
OUTPUTS = ("-o", "--output", "--curves", "--picture", "--ladder")


class Attack:
    def __init__(self, program, folder, told):
        self.world, self.told = World(program, folder), told
        self.options = tries.options_of(self.world)
        self.outcomes, self.faults = collections.Counter(), collections.Counter()
        self.slowest, self.findings = (0.0, -1), 0

    def tried(self, r, kind):
        words = getattr(tries, kind)(r, self.world, *([self.options] if kind == "options" else []))
        return words if kind == "options" and r.random() < 0.5 else ["--quiet"] + words

    def once(self, number):
        kind = tries.KINDS[number % len(tries.KINDS)]
        words = self.tried(random.Random(number), kind)
        own, spent = self.world.seen(), resource.getrusage(resource.RUSAGE_CHILDREN)
        try:
            end = self.world.ended(words)
            code, faults = end.returncode, self.faults_of_end(end)
        except subprocess.TimeoutExpired as end_:
            end, code, faults = end_, None, ["hang"]
        now, after = self.world.seen(), resource.getrusage(resource.RUSAGE_CHILDREN)
        seconds = after.ru_utime + after.ru_stime - spent.ru_utime - spent.ru_stime
        self.slowest = max(self.slowest, (seconds, number))
        if seconds > SLOW and "hang" not in faults:
            faults.append("slow: %.0f s" % seconds)
        faults += self.faults_of_files(words, end, code, own, now)
        outcome = "timeout" if code is None else "signal %d" % -code if code < 0 else "exit %d" % code
        self.outcomes[kind, outcome] += 1
        if self.told:
            with open(self.told + ".all", "a", encoding="utf-8") as file:
                print(f"{number} {outcome}: {shlex.join(words)[:200]!a}", file=file)
        for fault in {fault.split(":")[0] for fault in faults}:
            self.faults[kind, fault] += 1
        if faults:
            self.findings += 1
            print(f"try {number}: {', '.join(faults)} ({code}): {shlex.join(words)[:300]!a}")
            if end.stderr:
                print("    " + ascii(end.stderr[:400].decode("utf-8", "replace")))
        self.world.restored(now)

    @staticmethod
    def faults_of_end(end):
        faults = []
        if end.returncode < 0:
            faults.append("hang" if -end.returncode in (signal.SIGKILL, signal.SIGXCPU) else "crash")
        if end.returncode == 70:
            faults.append("internal defect")
        if end.returncode > 0 and not 64 <= end.returncode <= 78:  # sysexits.h, 4.3BSD; Valgrind's own is 99
            faults.append("foreign code")
        if end.returncode > 0 and not end.stderr.strip():
            faults.append("no message")
        lines = end.stderr.splitlines()
        if len(lines) > MOST_LINES or any(len(line) > LONGEST_LINE for line in lines):
            faults.append("message over limits: %d lines, longest %d" % (len(lines), max(map(len, lines))))
        if CONTROLS.search(end.stderr.replace(b"\r", b"\x01").replace(b"\t", b"\x01")):
            faults.append("control character: in messages")
        if CONTROLS.search(end.stdout):
            faults.append("control character: in the answer")
        # Faults of one file that are told in one go follow as "FILE:LINE: what".
        if lines and not lines[0].startswith(b"fogproof: ") or any(b": " not in line for line in lines):
            faults.append("message over limits: a line of somebody else")
        return faults

    def faults_of_files(self, words, end, code, own, now):
        faults = []
        outputs = {os.path.realpath(self.world.path(words[i + 1])) for i, word in enumerate(words[:-1]) if word in OUTPUTS and words[i + 1]}
        inputs = {os.path.realpath(self.world.path(word)) for i, word in enumerate(words)
                  if word and not word.startswith("-") and words[i - 1] not in OUTPUTS}
        replaces = any(word.startswith("--force") for word in words)
        for name in own:
            if now.get(name) == own[name]:
                continue
            short, real = os.path.relpath(name, self.world.work), os.path.realpath(name)
            # What is named as an output, or lies in its folder or beside it under its name, is replaced when that is asked for.
            owed = any(real == output or real.startswith((output + "/", output + ".", os.path.splitext(output)[0] + ".")) for output in outputs)
            appended = "read" in words[:2] and real in outputs
            if real in inputs and real not in outputs or not (appended or owed and replaces or "fit" in words and owed and replaces):
                faults.append("input changed: " + ascii(short))
        new = [name for name in now if name not in own]
        if code not in (0, None):
            # Of several negatives, those that can be printed are.
            several = b" failed: " in end.stderr
            faults += ["left behind: " + ascii(os.path.relpath(name, self.world.work)) for name in new if not several]
        faults += ["left behind: " + ascii(os.path.basename(name)) for name in new if name.endswith(".tmp")]
        if code == 0 and outputs and not {"--help", "-h", "--version"} & set(words):
            faults += ["no output: " + ascii(output) for output in outputs if not os.path.exists(output)]
        for name in new:
            if re.search(r"\.(txt|html|json|svg|toml|csv)$", name) and os.path.isfile(name) and not os.path.islink(name):
                with open(name, "rb") as file:
                    if CONTROLS.search(file.read()):
                        faults.append("control character: in " + ascii(os.path.basename(name)))
        return faults

    def table(self):
        """Tries and outcomes by kind, then faults by kind."""
        lines = []
        for title, counts, rows in (("outcome", self.outcomes, sorted({outcome for _, outcome in self.outcomes})), ("fault", self.faults, FAULTS)):
            lines.append(f"{title:20}" + "".join(f"{kind:>9}" for kind in tries.KINDS) + "      all")
            for row in rows:
                numbers = [counts[kind, row] for kind in tries.KINDS]
                lines.append(f"{row:20}" + "".join(f"{number:9}" for number in numbers) + f"{sum(numbers):9}")
        numbers = [sum(count for (of, _), count in self.outcomes.items() if of == kind) for kind in tries.KINDS]
        lines.append(f"{'tries':20}" + "".join(f"{number:9}" for number in numbers) + f"{sum(numbers):9}")
        lines.append(f"{self.findings} tries with a finding; the slowest, try {self.slowest[1]}, took {self.slowest[0]:.1f} s of CPU; by "
                     + ("nobody" if self.world.is_root else "this user"))
        return "\n".join(lines) + "\n"

    def told_so_far(self):
        if self.told:
            with open(self.told + ".new", "w", encoding="utf-8") as file:
                file.write(self.table())
            os.replace(self.told + ".new", self.told)


def main():
    program, count, first = sys.argv[1], int((sys.argv[2:3] or ["500"])[0]), int((sys.argv[3:4] or ["0"])[0])
    sys.stdout.reconfigure(line_buffering=True)
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))
    with tempfile.TemporaryDirectory(prefix="fogproof-attack-") as folder:
        attack = Attack(program, folder, (sys.argv[4:5] or [""])[0])
        try:
            for number in range(first, first + count):
                attack.once(number)
                if number % 50 == 49:
                    attack.told_so_far()
        finally:
            attack.told_so_far()
            print(attack.table(), end="")
    return 1 if attack.findings else 0


if __name__ == "__main__":
    sys.exit(main())
