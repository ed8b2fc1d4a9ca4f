// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How the proof page looks: a neutral wall of L* 40 on screen, as the grid has it, so that whites can be told
// apart; white paper in print.
#pragma once

#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::report {

inline constexpr std::string_view kProofPageStyle = R"css(
html { background: #5e5e5e; color: #f2f2f2; font: 16px/1.45 "DejaVu Sans", Verdana, sans-serif; }
body { margin: 0 auto; padding: 1.5rem 2rem 2rem; max-width: 130rem; }
a { color: inherit; }
h1 { margin: 0 0 .4rem; font-size: 1.9rem; line-height: 1.2; overflow-wrap: anywhere; }
h2 { margin: 2.2rem 0 .6rem; font-size: 1.25rem; }
p { margin: .3rem 0; max-width: 62rem; }
.sideways { display: none; }
.skip { position: absolute; left: -100rem; }
.skip:focus { position: static; }
:focus-visible { outline: 3px solid #ffffff; outline-offset: 3px; }
.wall { overflow-x: auto; padding: 6px; }
table { border-collapse: separate; border-spacing: 1.1rem .9rem; margin: 0 -6px 0 -1.1rem; }
caption { text-align: left; padding: 0 1.1rem; }
.wall thead th { text-align: left; vertical-align: bottom; }
.wall tbody th { text-align: left; vertical-align: top; min-width: 5.5rem; padding-top: .3rem; }
th b { display: block; font-size: 1.15rem; white-space: nowrap; }
th span { font-weight: normal; font-size: .85rem; }
.wall tbody td { vertical-align: top; width: 24rem; min-width: 9.2rem; padding: 0; }
figure { margin: 0; }
.print { display: block; margin: 0; padding: 0; border: 0; background: none; width: 100%; cursor: zoom-in; }
.print img { display: block; width: 100%; height: auto; }
.closest .print { outline: 4px solid #ffffff; }
.closest .print:focus-visible { outline: 8px double #ffffff; }
figcaption { margin-top: .5rem; font-size: .8rem; line-height: 1.4; }
figcaption p { margin: 0; text-wrap: pretty; }
.chart img { display: block; width: 100%; max-width: 60rem; height: auto; background: #ffffff; }
.charts { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(34rem, 100%), 1fr)); gap: 1rem 2rem; }
footer { margin-top: 2rem; border-top: 1px solid #b8b8b8; padding-top: .8rem; font-size: .9rem; }
dialog { box-sizing: border-box; width: 96vw; height: 96vh; max-width: none; max-height: none; padding: 1rem 1.2rem;
  border: 1px solid #b8b8b8; background: #5e5e5e; color: #f2f2f2; }
dialog[open] { display: flex; flex-direction: column; gap: .6rem; }
dialog::backdrop { background: rgb(30 30 30 / 70%); }
dialog h2 { margin: 0; }
dialog p { max-width: none; }
.field { flex: 1; overflow: auto; min-height: 6rem; text-align: center; }
.field img { display: inline-block; max-width: none; cursor: grab; }
.tools { display: flex; flex-wrap: wrap; gap: .5rem; }
.tools button { font: inherit; color: #111111; background: #e6e6e6; border: 1px solid #111111; padding: .35rem .8rem; }
.tools button[aria-disabled="true"] { color: #4a4a4a; background: #c4c4c4; }
.tools button[aria-pressed="true"] { background: #ffffff; box-shadow: inset 0 0 0 3px #111111; }
@media screen and (max-width: 45rem) {
  caption { max-width: calc(100vw - 7rem); }
  .sideways { display: block; font-weight: bold; }
  .drawing { overflow-x: auto; }
  .drawing img { width: 46rem; max-width: none; }
}
@page { margin: 9mm; }
@media print {
  html { background: #ffffff; color: #000000; font-size: 8.5pt; }
  body { padding: 0; max-width: none; }
  .skip, dialog, .onscreen { display: none; }
  .wall { overflow: visible; padding: 0; }
  table { width: 100%; table-layout: fixed; border-spacing: 2mm 1.5mm; margin: 0; }
  caption { padding: 0; }
  thead { display: table-header-group; }
  tr, figure, .paragraphs p { break-inside: avoid; }
  h2 { break-after: avoid; margin-top: 1.2rem; }
  .wall thead td { width: 17mm; }
  .wall tbody th { min-width: 0; }
  .wall tbody td { width: auto; min-width: 0; }
  th b { font-size: 1rem; white-space: normal; }
  figcaption { font-size: 7.5pt; line-height: 1.25; margin-top: 1mm; }
  .closest .print { outline: 1mm solid #000000; }
  .closest figcaption { margin-top: 2mm; }
  .charts { gap: 3mm; }
  .chart img { width: 135mm; max-width: 100%; }
}
)css";

}  // namespace fogproof::report
