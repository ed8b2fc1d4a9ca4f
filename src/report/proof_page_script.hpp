// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The glass of the proof page: a print laid under it can be moved about, and the same spot looked at on the
// prints beside it. Without the script the page is still whole, only nothing enlarges.
#pragma once

#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::report {

inline constexpr std::string_view kProofPageScript = R"js(
"use strict";
(() => {
  const byId = (id) => document.getElementById(id);
  const prints = [...document.querySelectorAll("button.print")];
  const columns = document.querySelectorAll("thead th").length;
  const glass = byId("glass"), field = byId("field"), view = field.querySelector("img");
  const steps = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
  let at = 0, scale = 1;

  // The print beside another in the direction of an arrow key; -1 past the edge.
  const beside = (from, key) => {
    const [dx, dy] = steps[key];
    const column = from % columns + dx, row = Math.floor(from / columns) + dy;
    const rows = prints.length / columns;
    return column < 0 || column >= columns || row < 0 || row >= rows ? -1 : row * columns + column;
  };

  // The spot in the middle of the field, as shares of the print.
  const spot = () => [
    (field.scrollLeft + field.clientWidth / 2) / view.offsetWidth,
    (field.scrollTop + field.clientHeight / 2) / view.offsetHeight,
  ];
  const lookAt = ([x, y]) => field.scrollTo(
    x * view.offsetWidth - field.clientWidth / 2, y * view.offsetHeight - field.clientHeight / 2);

  const lay = (index, where) => {
    at = index;
    const small = prints[at].querySelector("img");
    view.src = small.src;
    view.alt = small.alt;
    view.width = small.naturalWidth * scale;
    view.height = small.naturalHeight * scale;
    byId("glass-title").textContent = small.alt;
    byId("glass-words").textContent = [...prints[at].parentNode.querySelectorAll("figcaption p")]
      .map((line) => line.textContent.trim()).join("; ");
    for (const button of glass.querySelectorAll("[data-step]"))
      button.setAttribute("aria-disabled", String(beside(at, button.dataset.step) < 0));
    lookAt(where);
  };
  const move = (key) => {
    const next = beside(at, key);
    if (next >= 0) lay(next, spot());
  };

  prints.forEach((print, index) => {
    print.addEventListener("click", (event) => {
      const box = print.getBoundingClientRect();
      const where = event.detail === 0 ? [0.5, 0.5]
        : [(event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height];
      glass.showModal();
      lay(index, where);
      field.focus();
    });
    print.addEventListener("keydown", (event) => {
      if (!(event.key in steps) || event.altKey || event.ctrlKey || event.metaKey) return;
      const next = beside(index, event.key);
      event.preventDefault();
      if (next >= 0) prints[next].focus();
    });
  });
  for (const button of glass.querySelectorAll("[data-step]"))
    button.addEventListener("click", () => move(button.dataset.step));
  byId("larger").addEventListener("click", () => {
    const where = spot();
    scale = scale === 1 ? 2 : 1;
    byId("larger").setAttribute("aria-pressed", String(scale === 2));
    lay(at, where);
  });
  byId("away").addEventListener("click", () => glass.close());
  glass.addEventListener("close", () => prints[at].focus());
  glass.addEventListener("keydown", (event) => {
    if (!event.shiftKey || !(event.key in steps)) return;
    event.preventDefault();
    move(event.key);
  });
  let held = null;
  field.addEventListener("pointerdown", (event) => {
    if (event.target === view) held = [event.clientX + field.scrollLeft, event.clientY + field.scrollTop];
  });
  field.addEventListener("pointermove", (event) => {
    if (held && event.buttons) field.scrollTo(held[0] - event.clientX, held[1] - event.clientY);
  });
  field.addEventListener("pointerup", () => { held = null; });
  view.addEventListener("dragstart", (event) => event.preventDefault());
  for (const words of document.querySelectorAll(".scripted")) words.hidden = false;
})();
)js";

}  // namespace fogproof::report
