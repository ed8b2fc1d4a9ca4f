# SPDX-License-Identifier: MIT
"""The folder that tries are made in: files, links, rights of others; what changed in it, and all of it as it was."""

import hashlib
import os
import re
import resource
import shutil
import stat
import struct
import subprocess
import zlib

NOBODY = 65534
# A program that is watched while it runs is so many times slower, and needs as much more room.
SLOWNESS = int(os.environ.get("SLOWNESS", "1"))
SECONDS, MEMORY = 20 * SLOWNESS, (3 << 30) + (SLOWNESS > 1) * (9 << 30)  # CPU and address space of one try
CONTROLS = re.compile(rb"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]|\xc2[\x80-\x9f]|\xef\xbf[\xbe\xbf]|\xe2\x80[\xa8\xa9]")


def limited():
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS + 1))
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def scan(width=120, height=88):
    """A 16-bit TIFF of a frame on clear film, deflated, TIFF 6.0."""
    rows = []
    for y in range(height):
        for x in range(width):
            inside = 10 <= x < width - 10 and 10 <= y < height - 10
            density = 0.25 + (0.15 + 1.3 * (x - 10) / (width - 20) + 0.02 * ((x * 7 + y * 13) % 11) if inside else 0)
            rows.append(int(65535 * 10 ** -density))
    pixels = zlib.compress(struct.pack(f"<{len(rows)}H", *rows))
    tags = [(256, 3, width), (257, 3, height), (258, 3, 16), (259, 3, 8), (262, 3, 1), (273, 4, 8), (277, 3, 1), (278, 3, height),
            (279, 4, len(pixels))]
    directory = b"".join(struct.pack("<HHII", tag, kind, 1, value) for tag, kind, value in tags)
    return struct.pack("<2sHI", b"II", 42, 8 + len(pixels)) + pixels + struct.pack("<H", len(tags)) + directory + b"\0" * 4


class World:
    """ROOT/work holds everything. Run by a superuser, it belongs to nobody and tries are made by nobody, so that rights count."""

    def __init__(self, program, root):
        self.program, self.root, self.work = os.path.abspath(program), root, os.path.join(root, "work")
        self.is_root = os.geteuid() == 0
        self.digests = {}
        os.chmod(root, 0o755)
        os.mkdir(self.work)
        if self.is_root:
            os.chown(self.work, NOBODY, NOBODY)
        self.filled()
        self.pristine = os.path.join(root, "pristine")
        self.before = self.seen()
        subprocess.run(["cp", "-a", self.work, self.pristine], check=True)
        os.chmod(self.pristine, 0o700)

    def filled(self):
        os.mkdir(self.path("settings"))
        os.mkdir(self.path("settings/fogproof"))
        if self.is_root:
            for name in ("settings", "settings/fogproof"):
                os.chown(self.path(name), NOBODY, NOBODY)
        self.ended(["--quiet", "demo", ".", "--megapixels", "0.3"])
        text = self.read("readings.csv").decode().replace("\r", "").split("\n")
        self.write("few.csv", "\n".join(line for line in text if not line.startswith("#")).encode())
        for name in ("negative.tif", "second.tif"):
            self.write(name, scan())
        self.write("list.txt", b"negative.tif\nsecond.tif\n")
        self.write("recipe.toml", b"fogproof_recipe = 1\n[[exposure]]\ngrade = 2\ntime_s = 9\n[develop]\ntime_s = 90\n[bleach]\ntime_s = 40\n")
        for name, mode in (("folder", 0o755), ("shut", 0o500), ("blind", 0o333), ("hidden", 0o000), ("full", 0o755), ("shared", 0o1777),
                           ("theirs", 0o755)):
            os.mkdir(self.path(name))
            self.given(name)
            for other in ("negative.tif", "pack.toml", "few.csv"):
                if name not in ("folder", "blind"):
                    shutil.copy(self.path(other), self.path(name + "/" + other))
                    # What lies in the last two is another user's.
                    if name not in ("shared", "theirs"):
                        self.given(name + "/" + other)
            if name == "theirs" and self.is_root:
                os.chown(self.path(name), 0, 0)
            os.chmod(self.path(name), mode)
        for name, mode in (("unreadable.tif", 0o000), ("unreadable.toml", 0o200), ("read-only.tif", 0o444), ("read-only.csv", 0o444)):
            shutil.copy(self.path({"tif": "negative.tif", "oml": "pack.toml", "csv": "few.csv"}[name[-3:]]), self.path(name))
            self.given(name)
            os.chmod(self.path(name), mode)
        for name, target in (("link.tif", "negative.tif"), ("loop", "loop"), ("dangling", "nowhere"), ("here", "."), ("dangling.tif", "no/where.tif"),
                             ("link.csv", "few.csv"), ("shared/link.tif", "../negative.tif"), ("to-shared.tif", "shared/negative.tif")):
            os.symlink(target, self.path(name))
        os.link(self.path("negative.tif"), self.path("hard.tif"))
        os.mkfifo(self.path("pipe"))
        self.given("pipe")

    def given(self, name):
        if self.is_root:
            os.chown(self.path(name), NOBODY, NOBODY, follow_symlinks=False)

    def path(self, name):
        return os.path.join(self.work, name)

    def read(self, name):
        with open(self.path(name), "rb") as file:
            return file.read()

    def write(self, name, content):
        with open(self.path(name), "wb") as file:
            file.write(content)
        self.given(name)

    def seen(self):
        """Every name below the root: what it is, whose, with which rights, and its content."""
        names, folders = {}, [self.root]
        while folders:
            for entry in os.scandir(folders.pop()):
                facts = entry.stat(follow_symlinks=False)
                what = (stat.S_IFMT(facts.st_mode), stat.S_IMODE(facts.st_mode), facts.st_uid)
                if entry.is_symlink():
                    names[entry.path] = what + (os.readlink(entry.path),)
                elif entry.is_file(follow_symlinks=False):
                    names[entry.path] = what + (self.digest(entry.path, facts),)
                else:
                    names[entry.path] = what
                    if entry.is_dir(follow_symlinks=False) and entry.name != "pristine":
                        folders.append(entry.path)
        return names

    def digest(self, path, facts):
        # A file whose inode was changed at the same time by the kernel's clock has the content it had.
        key = (facts.st_ino, facts.st_ctime_ns, facts.st_mtime_ns, facts.st_size)
        if key not in self.digests:
            with open(path, "rb") as file:
                self.digests[key] = hashlib.sha256(file.read()).hexdigest()
        return self.digests[key]

    def ended(self, words, settings="settings"):
        rights = {"user": NOBODY, "group": NOBODY, "extra_groups": []} if self.is_root else {}
        home = dict(os.environ, XDG_CONFIG_HOME=os.path.join(self.work, settings), XDG_CACHE_HOME="/nonexistent", HOME="/nonexistent")
        return subprocess.run([os.fsencode(self.program)] + [os.fsencode(word) for word in words], cwd=self.work, env=home, umask=0o022,
                              stdin=subprocess.DEVNULL, capture_output=True, preexec_fn=limited, timeout=120 * SLOWNESS, check=False, **rights)

    def restored(self, now):
        """Takes away what is new; makes everything anew if any of the old changed."""
        if all(now.get(name) == was for name, was in self.before.items() if not name.startswith(self.pristine)):
            new = sorted((name for name in now if name not in self.before and not name.startswith(self.pristine)), key=len, reverse=True)
            for name in new:
                (os.rmdir if os.path.isdir(name) and not os.path.islink(name) else os.remove)(name)
            return
        for entry in os.scandir(self.root):
            if entry.name == "pristine":
                continue
            if entry.is_dir(follow_symlinks=False):
                subprocess.run(["chmod", "-R", "u+rwx", entry.path], check=False, stderr=subprocess.DEVNULL)
                shutil.rmtree(entry.path)
            else:
                os.remove(entry.path)
        subprocess.run(["cp", "-a", self.pristine, self.work], check=True)
        os.chmod(self.work, 0o755)
