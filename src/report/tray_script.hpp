// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The print in the bleach, drawn in the page: every small pixel holds a few lights and their shares, and
// tables tell the colour of each light after each time in the bath. Nothing is computed here but the way
// between table entries.
#pragma once

#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::report {

inline constexpr std::string_view kTrayScript = R"js(
(() => {
  const byId = (id) => document.getElementById(id);
  const tray = byId("tray");
  if (!tray || !("DecompressionStream" in window)) return;
  const told = JSON.parse(byId("tray-numbers").textContent);
  const cubic = (a, b, c, d, t) =>
    b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));
  const still = matchMedia("(prefers-reduced-motion: reduce)");

  const run = (pairs, finer, tables, frame, masks) => {
    const { width, height, steps, lights, doses, border, slip } = told;
    const { mean, low, more, share, whole, manyAt, firstOf, placeOf, shareOf } = trayPixels(told, pairs, finer);
    const manyOnto = manyAt.map((at) => (Math.floor(at / width) + border) * (width + 2 * border + slip) + border + at % width);
    const manyColumn = Uint16Array.from(manyAt, (at) => at % width);
    const table = new Uint16Array(tables.buffer), paper = new Uint16Array(frame.buffer);
    const wayLength = 4 * doses * (lights + 1);
    const encoded = new Uint8Array(65536);
    for (let i = 0; i < 65536; ++i) {
      const v = i / 65535;
      encoded[i] = Math.round(255 * (v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055));
    }
    const canvas = byId("tray-print"), pen = canvas.getContext("2d", { alpha: false });
    canvas.width = width + 2 * border + slip;
    canvas.height = height + 2 * border;
    const image = pen.createImageData(canvas.width, canvas.height);
    const pixels = new Uint32Array(image.data.buffer);

    const way = byId("tray-way"), time = byId("tray-time"), stops = byId("tray-stops"), line = byId("tray-line");
    const pressed = (id) => byId(id)?.getAttribute("aria-pressed") === "true";
    const seconds = () => told.longest * time.value / time.max;
    const doseAt = (s) => {
      const place = Math.min(s / told.longest, 1) * (told.dose.length - 1), at = Math.min(Math.floor(place), told.dose.length - 2);
      return told.dose[at] + (place - at) * (told.dose[at + 1] - told.dose[at]);
    };
    // The four entries about a dose, with the way between the middle two. Doses are squares, so that what lies
    // before the first is the second.
    const about = (dose) => {
      const place = Math.sqrt(dose) * (doses - 2), at = Math.min(Math.floor(place), doses - 3);
      return [Math.abs(at - 1), at, at + 1, at + 2, place - at];
    };
    // Red, green, blue (linear, of 65535) and density (in 1/10000) of every light of the frame.
    const looks = (w, dose, exposure) => {
      const from = w * wayLength, [a, b, c, d, t] = about(dose), row = new Float64Array(4 * lights);
      for (let i = 0; i < 4 * lights; ++i) {
        const v = (k) => table[from + 4 * lights * k + i];
        row[i] = cubic(v(a), v(b), v(c), v(d), t);
      }
      const made = [0, 1, 2, 3].map(() => new Float32Array(steps));
      const light = Math.log10(2) * told.reciprocity * exposure - told.firstLight + told.darkest;
      for (let i = 0; i < steps; ++i) {
        const place = (light + told.step * i) / told.lightStep;
        const x = Math.min(Math.max(Math.floor(place), 1), lights - 3), u = place - x;
        for (let channel = 0; channel < 4; ++channel) {
          const at = 4 * x + channel;
          made[channel][i] = Math.min(Math.max(cubic(row[at - 4], row[at], row[at + 4], row[at + 8], u), 0), 65535);
        }
      }
      const edge = from + 4 * doses * lights;
      made.border = [0, 1, 2].map((channel) => cubic(
        ...[a, b, c, d].map((k) => table[edge + 4 * k + channel]), t));
      return made;
    };
    const freshLooks = () => {
      const made = [0, 1, 2, 3].map(() => new Float32Array(steps)), last = told.frameLights - 1;
      for (let i = 0; i < steps; ++i) {
        const place = Math.min(told.step * i / (told.brightest - told.darkest), 1) * last, x = Math.min(Math.floor(place), last - 1);
        const near = [Math.max(x - 1, 0), x, x + 1, Math.min(x + 2, last)];
        for (let channel = 0; channel < 4; ++channel)
          made[channel][i] = cubic(...near.map((k) => paper[4 * k + channel]), place - x);
      }
      made.border = told.freshBorder;
      return made;
    };
    const bath = () => (pressed("tray-bath") ? told.bath : [1, 1, 1]);
    const packed = (rgb) => {
      const [r, g, b] = rgb.map((v, i) => encoded[Math.round(Math.min(v * bath()[i], 65535))]);
      return 0xff000000 | (b << 16) | (g << 8) | r;
    };
    const paint = (look, from, to) => {
      // Whole numbers in one array: what is asked a million times must lie close together. Shares are of 4096.
      const under = bath(), light = new Int32Array(4 * steps), plain = new Uint32Array(steps), half = whole >> 1;
      for (let i = 0; i < steps; ++i) {
        for (let channel = 0; channel < 3; ++channel) light[4 * i + channel] = Math.round(look[channel][i] * under[channel]);
        plain[i] = 0xff000000 | (encoded[light[4 * i + 2]] << 16) | (encoded[light[4 * i + 1]] << 8) | encoded[light[4 * i]];
      }
      for (let y = 0; y < height; ++y) {
        let at = y * width + from, to32 = (y + border) * canvas.width + border + from;
        for (let x = from; x < to; ++x, ++at, ++to32) {
          const apart = more[at];
          if (apart === 0) { pixels[to32] = plain[low[at]]; continue; }
          const a = 4 * low[at], b = a + 4 * apart, s = share[at], r = whole - s;
          pixels[to32] = 0xff000000
            | (encoded[(Math.imul(light[a + 2], r) + Math.imul(light[b + 2], s) + half) >> 12] << 16)
            | (encoded[(Math.imul(light[a + 1], r) + Math.imul(light[b + 1], s) + half) >> 12] << 8)
            | encoded[(Math.imul(light[a], r) + Math.imul(light[b], s) + half) >> 12];
        }
      }
      for (let k = 0; k < manyAt.length; ++k) {
        if (manyColumn[k] < from || manyColumn[k] >= to) continue;
        let red = half, green = half, blue = half;
        for (let j = firstOf[k], end = firstOf[k + 1]; j < end; ++j) {
          const a = placeOf[j], s = shareOf[j];
          red = (red + Math.imul(light[a], s)) | 0;
          green = (green + Math.imul(light[a + 1], s)) | 0;
          blue = (blue + Math.imul(light[a + 2], s)) | 0;
        }
        pixels[manyOnto[k]] = 0xff000000 | (encoded[blue >> 12] << 16) | (encoded[green >> 12] << 8) | encoded[red >> 12];
      }
      const edge = packed(look.border), left = from === 0 ? 0 : border + from;
      const right = to === width ? canvas.width - slip : border + to;
      for (let y = 0; y < canvas.height; ++y) {
        const row = y * canvas.width;
        if (y < border || y >= border + height) { pixels.fill(edge, row + left, row + right); continue; }
        if (from === 0) pixels.fill(edge, row, row + border);
        if (to === width) pixels.fill(edge, row + border + width, row + right);
      }
    };
    const outline = () => {
      pen.lineWidth = Math.max(2, width / 500);
      for (let m = 0; m < told.masks.length; ++m) {
        const { across, down, left, top, right, bottom, name } = told.masks[m];
        const level = (x, y) => masks[told.masks[m].from + y * across + x];
        const px = (x) => border + left + (right - left) * x / across, py = (y) => border + top + (bottom - top) * y / down;
        pen.beginPath();
        for (let y = 0; y < down; ++y)
          for (let x = 0; x < across; ++x) {
            const full = level(x, y) >= 128;
            if (x + 1 < across && full !== level(x + 1, y) >= 128) { pen.moveTo(px(x + 1), py(y)); pen.lineTo(px(x + 1), py(y + 1)); }
            if (y + 1 < down && full !== level(x, y + 1) >= 128) { pen.moveTo(px(x), py(y + 1)); pen.lineTo(px(x + 1), py(y + 1)); }
          }
        for (const [colour, dash] of [["#ffffff", []], ["#000000", [9, 9]]]) {
          pen.strokeStyle = colour;
          pen.setLineDash(dash);
          pen.stroke();
        }
      }
      pen.setLineDash([]);
    };

    let shown = null;
    // As the words under the prints: two digits, or three where two are another time.
    const rounded = (s) => {
      const two = Number(s.toPrecision(2));
      return (s < 1 || Math.abs(Math.log2(two / s)) <= 1 / 24 ? two : Number(s.toPrecision(3))) + " s";
    };
    const words = () => {
      const own = told.ways[way.value], s = seconds();
      const percent = own.clears ? ", " + Math.round(100 * doseAt(s) / doseAt(own.clears)) + " % of clearing" : "";
      byId("tray-time-words").value = rounded(s) + percent;
      time.setAttribute("aria-valuetext", byId("tray-time-words").value);
      const exposure = own.told * 2 ** stops.value;
      const moved = Math.round(100 * stops.value) / 100 || 0;  // no -0
      byId("tray-stops-words").value = (moved > 0 ? "+" : "") + moved.toFixed(2) + " stop"
        + (told.anchored && !own.several ? ", " + rounded(exposure) : "");
      stops.setAttribute("aria-valuetext", byId("tray-stops-words").value);
      byId("tray-state").textContent = pressed("tray-fresh")
        ? "Fresh paper, for comparison: what this pack was before it fogged. Nothing is bleached."
        : own.words + (pressed("tray-split") ? ". Left of the line before the bleach, right of it as set." : ".");
      for (const mark of tray.querySelectorAll(".mark")) {
        const at = mark.dataset.mark === "clears" ? own.clears : mark.dataset.mark === "over" ? own.over
          : mark.dataset.mark === "pull" ? own.pull : null;
        mark.hidden = !at || at > told.longest;
        if (mark.hidden) continue;
        mark.style.left = 100 * at / told.longest + "%";
        // Each on a line of its own. Words before their mark meet no other one; those of the last have no room after it.
        mark.classList.toggle("before", at / told.longest > (mark.dataset.mark === "over" ? 0.75 : 0.3));
      }
      const span = byId("tray-interval"), reach = own.interval;
      span.hidden = !reach;
      if (reach) {
        span.style.left = 100 * reach[0] / told.longest + "%";
        span.style.width = 100 * (Math.min(reach[1], told.longest) - reach[0]) / told.longest + "%";
      }
    };
    const draw = () => {
      const cut = pressed("tray-split") && !pressed("tray-fresh") ? Math.round(width * line.value / line.max) : 0;
      shown = pressed("tray-fresh") ? freshLooks() : looks(Number(way.value), doseAt(seconds()), Number(stops.value));
      shown.before = cut > 0 ? looks(Number(way.value), 0, Number(stops.value)) : null;
      shown.cut = cut;
      const white = packed(told.fixed);
      for (let y = 0; y < canvas.height; ++y)
        pixels.fill(white, (y + 1) * canvas.width - slip, (y + 1) * canvas.width);
      if (cut > 0) paint(shown.before, 0, cut);
      if (cut < width) paint(shown, cut, width);
      pen.putImageData(image, 0, 0);
      if (cut > 0) {
        pen.fillStyle = "#ffffff";
        pen.fillRect(border + cut - 2, 0, 4, canvas.height);
        pen.fillStyle = "#000000";
        pen.fillRect(border + cut - 1, 0, 2, canvas.height);
      }
      if (pressed("tray-outlines")) outline();
      words();
    };
    let waiting = false;
    const soon = () => {
      if (waiting) return;
      waiting = true;
      requestAnimationFrame(() => { waiting = false; draw(); });
    };

    // What lies under a place of the picture.
    const lightness = (y) => (y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : y * 24389 / 27);
    const read = (event) => {
      const box = canvas.getBoundingClientRect();
      const x = Math.floor((event.clientX - box.left) / box.width * canvas.width) - border;
      const y = Math.floor((event.clientY - box.top) / box.height * canvas.height) - border;
      if (x < 0 || y < 0 || x >= width || y >= height) { byId("tray-reading").value = ""; return; }
      const at = y * width + x, look = x < shown.cut ? shown.before : shown;
      const k = manyAt.indexOf(at), of = k < 0 ? [[low[at], whole - share[at]], [low[at] + more[at], share[at]]]
        : Array.from(placeOf.slice(firstOf[k], firstOf[k + 1]), (place, j) => [place / 4, shareOf[firstOf[k] + j]]);
      const there = (channel) => of.reduce((sum, [light, part]) => sum + channel[light] * part / whole, 0);
      const [red, green, blue, density] = look.map(there);
      const l = lightness((0.2225 * red + 0.7169 * green + 0.0606 * blue) / 65535);
      const place = Math.min(told.step * mean[at] / (told.brightest - told.darkest), 1) * (told.frameLights - 1);
      const band = paper[4 * told.frameLights + Math.round(place)] / 100;
      byId("tray-reading").value = "density " + (density / 10000).toFixed(2) + ", L* " + l.toFixed(1)
        + (pressed("tray-fresh") ? "" : " (95 %: " + Math.max(l - band, 0).toFixed(0) + " to " + Math.min(l + band, 100).toFixed(0) + ")");
    };
    const toggle = (id, change) => byId(id)?.addEventListener("click", () => {
      byId(id).setAttribute("aria-pressed", String(!pressed(id)));
      change?.();
      soon();
    });
    for (const id of ["tray-fresh", "tray-bath", "tray-split", "tray-outlines"]) toggle(id);
    for (const control of [time, stops, line]) control.addEventListener("input", soon);
    way.addEventListener("change", soon);

    // The tray's own pace, or so many times faster; in steps where motion is not wanted.
    let since = null;
    const play = (now) => {
      if (!pressed("tray-play")) { since = null; return; }
      const pause = still.matches ? 1000 : 0;
      if (since === null) since = now;
      if (now - since >= pause) {
        const next = seconds() + (now - since) / 1000 * byId("tray-pace").value;
        since = now;
        time.value = next / told.longest * time.max;
        if (next >= told.longest) byId("tray-play").setAttribute("aria-pressed", "false");
        draw();
      }
      requestAnimationFrame(play);
    };
    toggle("tray-play", () => {
      if (!pressed("tray-play")) return;
      if (Number(time.value) >= Number(time.max)) time.value = 0;
      requestAnimationFrame(play);
    });
    const nudge = (control, by) => { control.value = Number(control.value) + by; soon(); };
    const keys = {
      ArrowLeft: () => nudge(time, -time.max / 100), ArrowRight: () => nudge(time, time.max / 100),
      ArrowUp: () => nudge(stops, 1 / 6), ArrowDown: () => nudge(stops, -1 / 6),
      " ": () => byId("tray-play").click(), f: () => byId("tray-fresh").click(), b: () => byId("tray-bath").click(),
      s: () => byId("tray-split").click(), o: () => byId("tray-outlines")?.click(),
    };
    canvas.addEventListener("keydown", (event) => {
      if (event.altKey || event.ctrlKey || event.metaKey || !(event.key in keys)) return;
      event.preventDefault();
      keys[event.key]();
    });
    let dragged = false;
    const drag = (event) => {
      const box = canvas.getBoundingClientRect();
      const x = (event.clientX - box.left) / box.width * canvas.width - border;
      line.value = Math.min(Math.max(x / width, 0), 1) * line.max;
      soon();
    };
    canvas.addEventListener("pointerdown", (event) => {
      read(event);
      if (!pressed("tray-split")) return;
      dragged = true;
      canvas.setPointerCapture(event.pointerId);
      drag(event);
    });
    canvas.addEventListener("pointermove", (event) => { if (dragged) drag(event); read(event); });
    for (const end of ["pointerup", "pointercancel"]) canvas.addEventListener(end, () => { dragged = false; });
    tray.hidden = false;
    draw();
    tray.dataset.ready = "true";
  };
  Promise.all(["tray-pairs", "tray-finer", "tray-tables", "tray-frame", "tray-masks"].map(trayUnpacked))
    .then(([pairs, finer, tables, frame, masks]) => run(pairs, finer, tables, frame, masks));
})();
)js";

}  // namespace fogproof::report
