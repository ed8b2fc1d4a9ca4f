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
caption { text-align: left; margin-bottom: .25rem; }
th, td { border: 1px solid #000000; padding: .3rem .5rem; text-align: left; vertical-align: top;
  font-variant-numeric: tabular-nums; overflow-wrap: anywhere; }
td:first-child, th:first-child { min-width: 8em; }
ol.steps { list-style: none; margin: .4rem 0; padding: 0; }
ol.steps li { position: relative; padding: .25rem 0 .25rem 2.2rem; }
ol.steps li::before { content: ""; position: absolute; left: .2rem; top: .45rem; width: 1.05rem; height: 1.05rem;
  border: 2px solid #000000; }
dl { margin: .4rem 0; }
dl div { display: flex; align-items: flex-end; gap: .6rem; margin-top: .9rem; }
dd { flex: 1; margin: 0; border-bottom: 1px solid #000000; min-height: 1.2rem; }
.caution { border: 3px solid #000000; padding: .4rem .8rem; margin: .6rem 0; }
figure { margin: .6rem 0; }
figure img { display: block; max-width: 100%; height: auto; }
figcaption { font-size: .85rem; margin-top: .3rem; }
footer { margin-top: 1.5rem; font-size: .85rem; }
@page { margin: 14mm; }
@media print {
  html { font-size: 10.5pt; }
  body { padding: 0; max-width: none; }
  .listing { overflow: visible; }
  h2 { break-after: avoid; }
  tr, li, figure, .caution, dl div { break-inside: avoid; }
  thead { display: table-header-group; }
  figure img { max-height: 72mm; width: auto; }
}
)css";

}  // namespace fogproof::report
