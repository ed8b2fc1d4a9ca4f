// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The print in the bleach, unpacked in the page: letters to bytes (in_letters), bytes to the lights and
// shares of every small pixel (LightPairs).
#pragma once

#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::report {

inline constexpr std::string_view kTrayPixelsScript = R"js(
const trayUnpacked = async (id) => {
  const packed = document.getElementById(id);
  // Two letters are 13 bits.
  const text = packed.textContent, bytes = new Uint8Array(packed.dataset.bytes);
  const digit = (i) => { const code = text.charCodeAt(i); return code - (code > 60 ? 36 : 35); };
  for (let i = 0, at = 0, held = 0, bits = 0; at < bytes.length; i += 2) {
    held |= (91 * digit(i) + digit(i + 1)) << bits;
    for (bits += 13; bits >= 8 && at < bytes.length; bits -= 8, held >>>= 8) bytes[at++] = held;
  }
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate"));
  return new Uint8Array(await new Response(stream).arrayBuffer());
};
const trayPixels = (told, pairs, finer) => {
  const { width, height, steps } = told;
  const count = width * height;
  const mean = new Uint16Array(count), low = new Uint16Array(count), more = new Uint16Array(count);
  const share = new Uint16Array(count), whole = told.fineShares;
  for (let i = 0; i < count; ++i) {
    const left = i > 0 ? mean[i - 1] : 0, above = i >= width ? mean[i - width] : left;
    mean[i] = ((left + above) >> 1) + (pairs[i] << 8) + pairs[count + i];
    const apart = pairs[2 * count + i] * told.apart;
    low[i] = Math.max(Math.round(mean[i] - apart * pairs[3 * count + i] / told.shares), 0);
    more[i] = Math.min(apart, steps - 1 - low[i]);
    share[i] = pairs[3 * count + i] * whole / told.shares;
  }
  // Finer pixels: the darkest light has the share that is left and lies where the mean is kept. Of those of
  // three lights or more, the lights from first[k] on: places in a table of four samples, and shares.
  const many = [], first = [], lightAt = [], lightShare = [];
  for (let k = 0, gap = 0, at = 0, point = 0, n = told.finerLights; k < told.finer; ++k) {
    while (finer[gap] === 255) { at += 255; ++gap; }
    at += finer[gap++];
    const values = finer.length - 4 * n, others = finer[values - told.finer + k] - 1;
    const above = (j) => (finer[values + j] << 8) + finer[values + n + j], part = (j) => (finer[values + 2 * n + j] << 8) + finer[values + 3 * n + j];
    let over = 0, weighed = 0, left = whole;
    for (let j = point; j < point + others; ++j) {
      over += above(j);
      weighed += part(j) * over;
      left -= part(j);
    }
    let light = Math.max(mean[at] - Math.floor((weighed + whole / 2) / whole), 0);
    low[at] = light;
    if (others === 1) {
      more[at] = Math.min(over, steps - 1 - light);
      share[at] = whole - left;
    } else {
      many.push(at);
      first.push(lightAt.length);
      lightAt.push(4 * light);
      lightShare.push(left);
      for (let j = point; j < point + others; ++j) {
        light = Math.min(light + above(j), steps - 1);
        lightAt.push(4 * light);
        lightShare.push(part(j));
      }
    }
    point += others;
  }
  first.push(lightAt.length);
  return {
    mean, low, more, share, whole, manyAt: Uint32Array.from(many), firstOf: Uint32Array.from(first),
    placeOf: Uint16Array.from(lightAt), shareOf: Uint16Array.from(lightShare),
  };
};
)js";

}  // namespace fogproof::report
