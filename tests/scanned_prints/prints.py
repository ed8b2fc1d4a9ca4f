# SPDX-License-Identifier: MIT
# Copyright the fogproof authors
#
# A negative of a photograph, a print of it on a paper of its own, and the print on a flatbed: everything that
# happens on the way is drawn at random from a seed and told.
import numpy
from PIL import Image
from scipy import ndimage

LUMINANCE = numpy.array([0.2126, 0.7152, 0.0722])  # IEC 61966-2-1
SCAN = 1500  # pixels along a flatbed scan
STOP = numpy.log10(2)


def photograph(path, rng):
    """Linear luminance of a picture at a size of its own."""
    image = Image.open(path).convert("RGB")
    scale = int(rng.integers(1500, 2600)) / max(image.size)
    size = [max(8, int(side * scale)) for side in image.size]
    code = numpy.asarray(image.resize(size, Image.LANCZOS)).astype(float) / 255
    linear = numpy.where(code <= 0.04045, code / 12.92, ((code + 0.055) / 1.055) ** 2.4)
    return linear @ LUMINANCE


def film(luminance, rng):
    """Density above base + fog, with grain."""
    light = numpy.log10(luminance + numpy.quantile(luminance, 0.002) + 2e-3)
    density = rng.uniform(0.5, 0.75) * (light - light.min())
    density = numpy.log1p(numpy.exp((density - 0.1) / 0.15)) * 0.15 * rng.uniform(0.85, 1.1)
    density = numpy.clip(density, 0, 2.2)
    density *= max(1, 0.7 / density.max())
    grain = ndimage.gaussian_filter(rng.standard_normal(density.shape), 0.7)
    size = rng.uniform(0.006, 0.02) * numpy.sqrt(density + 0.1)
    return numpy.maximum(density + grain / grain.std() * size, 0)


def negative_scan(density, rng):
    """Codes of a linear 16-bit scan, and options that say what it shows: every third is cut to the frame, without the
    clear film around it."""
    height, width = density.shape
    margin, base = int(rng.uniform(0.02, 0.05) * max(height, width)), rng.uniform(0.12, 0.35)
    light = 10 ** -(ndimage.gaussian_filter(numpy.pad(density, margin), 0.6) + base)
    code = numpy.clip(light * 60000 + rng.normal(0, 15, light.shape), 0, 65535).astype(numpy.uint16)
    if rng.random() > 1 / 3:
        return code, []
    return code[margin:-margin, margin:-margin], ["--whole", "--clear", str(60000 / 65535 * 10 ** -base)]


EXPOSURES = ("another exposure, from a step aside", "another exposure, framed otherwise",
             "another exposure, with somebody who moved")


def another_exposure(luminance, rng):
    """The same scene in one of these ways, and which."""
    height, width = luminance.shape
    y, x = numpy.mgrid[0:height, 0:width].astype(float)
    kind = int(rng.integers(0, 3))
    if kind == 0:
        field = ndimage.gaussian_filter(rng.standard_normal((height // 8 + 2, width // 8 + 2)),
                                        rng.uniform(0.08, 0.2) * width / 8)
        field = ndimage.zoom(field, 8, order=1)[:height, :width]
        x = x + rng.uniform(0.006, 0.03) * width * field / abs(field).max()
    elif kind == 1:
        zoom, angle = rng.uniform(0.96, 1.04), numpy.deg2rad(rng.uniform(-1.5, 1.5))
        right, down = x - width / 2, y - height / 2
        x = width / 2 + zoom * (right * numpy.cos(angle) - down * numpy.sin(angle))
        y = height / 2 + zoom * (right * numpy.sin(angle) + down * numpy.cos(angle))
        x = x + rng.choice([-1, 1]) * rng.uniform(0.015, 0.05) * width
        y = y + rng.uniform(-0.04, 0.04) * height
    else:
        for _ in range(int(rng.integers(2, 5))):
            wide, high = int(rng.uniform(0.2, 0.35) * width), int(rng.uniform(0.25, 0.45) * height)
            left, top = int(rng.uniform(0, width - wide)), int(rng.uniform(0, height - high))
            there, deep = int(rng.uniform(0, width - wide)), int(rng.uniform(0, height - high))
            mask = numpy.zeros((height, width))
            mask[top:top + high, left:left + wide] = 1
            mask = ndimage.gaussian_filter(mask, 6)
            moved = numpy.roll(numpy.roll(luminance, top - deep, 0), left - there, 1)
            luminance = luminance * (1 - mask) + moved * mask
    return kind, ndimage.map_coordinates(luminance, [y, x], order=1, mode="mirror")


class Paper:
    """Two populations of grains, fogged; not the program's own law."""

    def __init__(self, rng):
        self.white, self.black = rng.uniform(0.05, 0.11), rng.uniform(1.3, 2.0)
        self.fog, self.spread, self.skew = rng.uniform(0.05, 0.35), rng.uniform(0.16, 0.36), rng.uniform(-0.3, 0.3)

    def density(self, log_light):
        def share(x, spread):
            return 1 / (1 + numpy.exp(-x / (0.55 * spread)))
        hit = 0.5 * share(log_light, self.spread) + 0.5 * share(log_light - 0.3 * self.skew, 0.9 * self.spread)
        most = self.black - self.white
        return self.white + most * (1 - (1 - hit) * (1 - self.fog / most))


def handwork(shape, rng):
    """Log light added by hand, and the stops of it."""
    height, width = shape
    y, x = numpy.mgrid[0:height, 0:width]
    if rng.random() > 0.4:
        return numpy.zeros(shape)
    if rng.random() < 0.4:
        return 0.5 * STOP / (1 + numpy.exp((y / height - rng.uniform(0.15, 0.35)) / 0.03))
    far = numpy.hypot((x - rng.uniform(0.2, 0.8) * width) / (rng.uniform(0.1, 0.25) * width),
                      (y - rng.uniform(0.1, 0.9) * height) / (rng.uniform(0.1, 0.25) * height))
    stops = rng.choice([-0.5, 0.4, 0.5, 0.7, 1.0])
    return stops * STOP / (1 + numpy.exp((far - 1) / rng.uniform(0.05, 0.15)))


class Warp:
    """From places of the frame to the scan: lens, then a homography through its corners."""

    def __init__(self, shape, scan, rng):
        self.height, self.width = shape
        self.turn = int(rng.integers(0, 4))
        angle = self.turn * numpy.pi / 2 + numpy.deg2rad(rng.uniform(-5, 5))
        self.crop = rng.uniform(0.6, 1) if rng.random() < 0.5 else 1.0
        self.wide, self.high = self.width * self.crop, self.height * self.crop
        self.left, self.top = rng.uniform(0, self.width - self.wide), rng.uniform(0, self.height - self.high)
        along, across = (self.wide, self.high) if self.turn % 2 == 0 else (self.high, self.wide)
        fit = min(scan[0] / along, scan[1] / across)
        self.scale = fit * (rng.uniform(1.0, 1.3) if rng.random() < 0.12 else rng.uniform(0.5, 0.95))
        free = [max(side - part * self.scale, 0) * 0.4 for side, part in zip(scan, (along, across))]
        at = [side / 2 + rng.uniform(-1, 1) * room for side, room in zip(scan, free)]
        taper = rng.uniform(0, 0.008) * max(along, across) * self.scale
        corners = numpy.array([(0, 0), (self.width, 0), (self.width, self.height), (0, self.height)], float)
        about = (corners - (self.left + self.wide / 2, self.top + self.high / 2)) * self.scale
        turned = about @ numpy.array([[numpy.cos(angle), numpy.sin(angle)], [-numpy.sin(angle), numpy.cos(angle)]])
        there = turned + at + rng.uniform(-taper, taper, (4, 2))
        rows = []
        for (x, y), (u, v) in zip(corners, there):
            rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
        self.matrix = numpy.append(numpy.linalg.solve(numpy.array(rows), there.ravel()), 1).reshape(3, 3)
        self.lens = rng.uniform(-0.004, 0.004)
        self.corners = [self.on_scan(*corner) for corner in corners]

    def on_scan(self, x, y):
        right, down = x - self.width / 2, y - self.height / 2
        bent = 1 + self.lens * (right**2 + down**2) / (self.width**2 / 4 + self.height**2 / 4)
        u, v, w = self.matrix @ (self.width / 2 + right * bent, self.height / 2 + down * bent, 1)
        return u / w, v / w

    def on_frame(self, x, y):
        u, v, w = numpy.linalg.inv(self.matrix) @ numpy.stack([x.ravel(), y.ravel(), numpy.ones(x.size)])
        right, down = u / w - self.width / 2, v / w - self.height / 2
        a, b = right, down
        for _ in range(4):
            bent = 1 + self.lens * (a**2 + b**2) / (self.width**2 / 4 + self.height**2 / 4)
            a, b = right / bent, down / bent
        return (self.width / 2 + a).reshape(x.shape), (self.height / 2 + b).reshape(x.shape)


def print_scan(density, other, rng):
    """Light of a flatbed scan of a print of the negative, and what is true of it."""
    height, width = density.shape
    paper = Paper(rng)
    y, x = numpy.mgrid[0:height, 0:width]
    radius = ((x - width / 2)**2 + (y - height / 2)**2) / (width**2 / 4 + height**2 / 4)
    falloff, flare = rng.uniform(0, 0.035), rng.uniform(0.005, 0.03)
    worked = handwork(density.shape, rng)
    light = ndimage.gaussian_filter(10 ** (worked - density - falloff * radius), rng.uniform(0.3, 1.0))
    light = (1 - flare) * light + flare * light.mean()
    exposure = numpy.quantile(density, rng.uniform(0.35, 0.65)) + 0.4 * falloff
    sheet = 10 ** -paper.density(numpy.log10(light) + exposure)
    blank = 10 ** -paper.density(numpy.array(-9.0))
    scan = (SCAN, int(SCAN * rng.uniform(0.68, 0.8)))[::rng.choice([-1, 1])]
    warp = Warp(density.shape, scan, rng)
    v, u = numpy.mgrid[0:scan[1], 0:scan[0]] + 0.5
    fx, fy = warp.on_frame(u, v)
    if warp.scale < 0.95:
        sheet = ndimage.gaussian_filter(sheet, 0.45 * numpy.sqrt(1 / warp.scale**2 - 1))
    shown = ndimage.map_coordinates(sheet, [fy - 0.5, fx - 0.5], order=1, mode="nearest")
    border = rng.uniform(0.01, 0.06) * max(warp.wide, warp.high) if rng.random() < 0.75 else 0

    def within(more):
        return ((fx >= warp.left - more) & (fx <= warp.left + warp.wide + more) & (fy >= warp.top - more) &
                (fy <= warp.top + warp.high + more))
    lid = 10 ** -(rng.uniform(0.02, 0.08) if rng.random() < 0.6 else rng.uniform(1.2, 1.8))
    glass = numpy.full((scan[1], scan[0]), lid)
    beside = rng.random()
    if beside < 0.25:  # another print
        high, wide = min(other.shape[0], scan[1]), min(other.shape[1], scan[0])
        top, left = int(rng.uniform(-0.3, 0.8) * scan[1]), int(rng.uniform(-0.3, 0.8) * scan[0])
        y0, x0, y1, x1 = max(0, top), max(0, left), min(scan[1], top + high), min(scan[0], left + wide)
        if y1 > y0 and x1 > x0:
            glass[y0:y1, x0:x1] = 0.05 + 0.8 * other[y0 - top:y1 - top, x0 - left:x1 - left] ** 0.5
    glass[within(border)] = blank
    glass[within(0)] = shown[within(0)]
    if 0.25 <= beside < 0.35:  # a hand
        skin = ndimage.zoom(ndimage.gaussian_filter(rng.standard_normal((scan[1] // 8 + 1, scan[0] // 8 + 1)), 3), 8,
                            order=1)[:scan[1], :scan[0]]
        hand = ((u - rng.uniform(0, 1) * scan[0]) / (0.15 * scan[0]))**2 + \
            ((v - rng.choice([0, scan[1]])) / (0.3 * scan[1]))**2 < 1
        glass[hand] = (0.25 + 0.1 * skin / skin.std())[hand].clip(0.05, 0.6)
    glass = ndimage.gaussian_filter(glass, rng.uniform(0.5, 2.0 if rng.random() < 0.8 else 3.0))
    for _ in range(int(rng.integers(0, 40))):  # dust
        top, left, size = rng.integers(3, scan[1] - 3), rng.integers(3, scan[0] - 3), rng.integers(1, 3)
        glass[top - size:top + size, left - size:left + size] = rng.choice([0.02, 0.8])
    gain, stray = rng.uniform(0.85, 1.0), rng.uniform(0, 0.004)
    glass = glass * gain + stray
    glass *= 1 + rng.uniform(-0.01, 0.01) * (u / scan[0] - 0.5) + rng.uniform(-0.01, 0.01) * (v / scan[1] - 0.5)

    def read(over_paper):
        return -numpy.log10(10 ** -paper.density(exposure - over_paper) * gain + stray)
    unexposed = -numpy.log10(blank * gain + stray) if border else None
    return glass, {"corners": warp.corners, "flare": flare, "density": read, "worked": abs(worked).max() / STOP,
                   "border": unexposed, "margin": border * warp.scale, "stranger_beside": beside < 0.25}


def drawn(photographs, seed):
    """The seed's generator, photograph, luminance, film, the stranger's luminance, and a scan of the print."""
    rng = numpy.random.default_rng(seed)
    path = photographs[seed % len(photographs)]
    luminance = photograph(path, rng)
    density = film(luminance, rng)
    stranger = photograph(photographs[(7 * seed + 3) % len(photographs)], rng)
    return (rng, path, luminance, density, stranger, *print_scan(density, stranger, rng))


def bleached_from(density, white):
    """What is left of densities: thin silver goes first."""
    above = numpy.maximum(density - white, 0)
    return white + above * above / (above + 0.12)


def halves_apart(light, true, rng):
    """The same print cut in two across its longer side, one half bleached, the halves laid a little apart."""
    room = int(0.1 * max(light.shape))
    lid = 10 ** -(rng.uniform(0.02, 0.08) if rng.random() < 0.6 else rng.uniform(1.2, 1.8))
    corners = numpy.array(true["corners"]) + room - 0.5
    if numpy.hypot(*(corners[1] - corners[0])) < numpy.hypot(*(corners[3] - corners[0])):
        corners = corners[[1, 2, 3, 0]]
    along, across = corners[1] - corners[0], corners[3] - corners[0]
    long, short = numpy.hypot(*along), numpy.hypot(*across)
    along, across = along / long, across / short
    middle = corners.mean(axis=0)
    sheet = numpy.pad(light, room, constant_values=lid)
    v, u = numpy.mgrid[0:sheet.shape[0], 0:sheet.shape[1]].astype(float)
    glass = numpy.full(sheet.shape, lid)
    bleached, gap = rng.integers(0, 2), rng.uniform(0.02, 0.06) * long
    white = -numpy.log10(numpy.quantile(light, 0.999))
    for piece, side in enumerate((-1, 1)):
        turn = numpy.deg2rad(rng.uniform(-1.5, 1.5))
        right, down = u - middle[0] - side * gap * along[0], v - middle[1] - side * gap * along[1]
        from_x = middle[0] + right * numpy.cos(turn) + down * numpy.sin(turn)
        from_y = middle[1] - right * numpy.sin(turn) + down * numpy.cos(turn)
        far = (from_x - middle[0]) * along[0] + (from_y - middle[1]) * along[1]
        up = (from_x - middle[0]) * across[0] + (from_y - middle[1]) * across[1]
        there = (side * far > 0) & (abs(far) < long / 2 + true["margin"]) & (abs(up) < short / 2 + true["margin"])
        shown = ndimage.map_coordinates(sheet, [from_y, from_x], order=1, mode="nearest")
        if piece == bleached:
            shown = 10 ** -bleached_from(-numpy.log10(numpy.maximum(shown, 1e-4)), white)
        glass[there] = shown[there]
    true["bleached"] = lambda over: bleached_from(true["density"](over), white)
    return glass
