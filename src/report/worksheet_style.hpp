// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How worksheets look: black on white, legible by a safelight at arm's length, no tone that a printer must
// hold.
#pragma once

#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::report {

inline constexpr std::string_view kWorksheetStyle = R"css(
html { background: #ffffff; color: #000000; font: 16px/1.45 "DejaVu Sans", Verdana, sans-serif; }
body { margin: 0 auto; padding: 1.5rem; max-width: 52rem; }
h1 { margin: 0 0 .3rem; font-size: 1.8rem; line-height: 1.2; overflow-wrap: anywhere; }
h2 { margin: 1.6rem 0 .5rem; font-size: 1.2rem; border-bottom: 2px solid #000000; }
p { margin: .35rem 0; }
.listing { overflow-x: auto; margin: .6rem 0; padding: 0 1px; }
.listing:focus-visible { outline: 3px solid #000000; }
table { border-collapse: collapse; width: 100%; }
caption { text-align: left; margin-bottom: .25rem; max-width: calc(100vw - 3rem); }
th, td { border: 1px solid #000000; padding: .3rem .5rem; text-align: left; vertical-align: top;
  font-variant-numeric: tabular-nums; }
.torn, figcaption { overflow-wrap: anywhere; }
td:first-child, th:first-child { min-width: 8em; }
thead th { white-space: nowrap; }
ol.steps { list-style: none; margin: .4rem 0; padding: 0; }
ol.steps li { position: relative; padding: .25rem 0 .25rem 3.5rem; }
ol.steps li::after { content: counter(list-item) "."; position: absolute; left: 1.5rem; top: .25rem; width: 1.7rem;
  text-align: right; font-variant-numeric: tabular-nums; }
ol.steps li::before { content: ""; position: absolute; left: .2rem; top: .45rem; width: 1.05rem; height: 1.05rem;
  border: 2px solid #000000; }
dl { margin: .4rem 0; }
dl div { display: flex; align-items: flex-end; gap: .6rem; margin-top: .9rem; }
dd { flex: 1; margin: 0; border-bottom: 1px solid #000000; min-height: 1.2rem; }
.caution { border: 3px solid #000000; padding: .4rem .8rem; margin: .6rem 0; }
figure { margin: .6rem 0; }
figure img { display: block; max-width: 100%; height: auto; }
figcaption { font-size: .85rem; margin-top: .3rem; }
.small { display: flex; flex-wrap: wrap; gap: .6rem; align-items: start; }
.small figure { margin: 0; width: 10rem; }
.marked { display: block; width: 100%; height: auto; }
.marked rect { fill: none; stroke: #000000; stroke-width: 6; }
.marked rect.mark { stroke: #ffffff; stroke-width: 2.5; }
.marked text { font-size: 28px; font-weight: bold; fill: #000000; stroke: #ffffff; stroke-width: 5; paint-order: stroke; }
footer { margin-top: 1.5rem; font-size: .85rem; }
@media screen and (max-width: 45rem) {
  body { padding: 1rem; }
  caption { max-width: calc(100vw - 2rem); }
  table { font-size: .8rem; }
  .many table { font-size: .66rem; }
  .many th, .many td { padding: .25rem .15rem; }
  .many tbody th { overflow-wrap: anywhere; }
  th, td { padding: .25rem .3rem; }
  td:first-child, th:first-child { min-width: 0; }
  thead th { white-space: normal; }
}
@page { margin: 11mm; }
@media print {
  html { font-size: 9pt; line-height: 1.32; }
  body { padding: 0; max-width: none; }
  h1 { font-size: 1.5rem; }
  h2 { margin: .6rem 0 .25rem; font-size: 1.1rem; break-after: avoid; }
  p { margin: .15rem 0; }
  .onscreen { display: none; }
  .columns { columns: 2; column-gap: 7mm; }
  .next { break-before: page; }
  .listing { overflow: visible; margin: .2rem 0; }
  caption, thead, tbody tr:first-child { break-after: avoid; }
  tbody tr:last-child { break-before: avoid; }
  caption { max-width: none; }
  th, td { padding: .12rem .35rem; }
  td:first-child, th:first-child { min-width: 0; }
  thead th { white-space: normal; }
  thead th:last-child { white-space: nowrap; }
  header { margin-bottom: 2.5mm; }
  ol.steps { break-inside: avoid; }
  .columns ol.steps { break-inside: auto; }
  ol.steps li { padding: .06rem 0 .06rem 3.1rem; }
  ol.steps li::after { left: 1.25rem; top: .06rem; width: 1.65rem; }
  ol.steps li::before { top: .14rem; width: .85rem; height: .85rem; border-width: 1.5px; }
  .caution { padding: .2rem .5rem; border-width: 2px; }
  dl div { margin-top: .6rem; }
  footer { margin-top: 0; }
  tr, li, figure, .caution, dl div { break-inside: avoid; }
  thead { display: table-header-group; }
  figure { margin: 0 0 .4rem; }
  .small figure { width: 26mm; margin: 0; }
}
)css";

}  // namespace fogproof::report
