// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How the print in the bleach looks on its page: a sheet on a grey card, its scales under it.
#pragma once

#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::report {

inline constexpr std::string_view kTrayStyle = R"css(
#tray-print { display: block; max-width: 100%; max-height: max(14rem, calc(100vh - 22.2rem)); touch-action: pan-y; cursor: crosshair; }
#tray-state { min-height: 1.5em; font-weight: bold; }
#tray-reading { display: block; margin-top: .4rem; min-height: 1.5em; font-variant-numeric: tabular-nums; }
.scales { display: grid; grid-template-columns: max-content minmax(8rem, 1fr) 15rem; gap: .3rem 1rem;
  align-items: center; max-width: 90rem; margin-top: .6rem; }
.scales input, .scales select { width: 100%; margin: 0; font: inherit; min-height: 2rem; accent-color: #f2f2f2; }
.scales > label { grid-column: 1; }
.scales > span, .scales > select { grid-column: 2; }
.scales > output { grid-column: 3; }
.scales output { font-variant-numeric: tabular-nums; }
.marks { position: relative; height: 3.7rem; grid-column: 2; margin: 0 .5rem; font-size: .85rem; }
.mark { position: absolute; top: 0; border-left: 2px solid #ffffff; padding: .5rem 0 0 .3rem; white-space: nowrap;
  line-height: 1; }
.mark.before { transform: translateX(-100%); border-left: 0; border-right: 2px solid #ffffff; padding: .5rem .3rem 0 0; }
.mark[data-mark="pull"] { padding-top: 1.6rem; font-weight: bold; }
.mark[data-mark="over"] { padding-top: 2.7rem; }
#tray-interval { position: absolute; top: 0; height: .4rem; background: #ffffff; }
.switches { display: flex; flex-wrap: wrap; gap: .5rem; margin-top: .6rem; align-items: center; }
.switches button, .switches select { font: inherit; color: #111111; background: #e6e6e6; border: 1px solid #111111;
  padding: .35rem .8rem; min-height: 2.4rem; }
.switches button[aria-pressed="true"] { background: #ffffff; box-shadow: inset 0 0 0 3px #111111; }
@media (max-width: 46rem) {
  body { padding: 1rem .8rem; }
  .scales { grid-template-columns: 1fr; gap: .2rem; }
  .scales > label, .scales > span, .scales > select, .scales > output, .marks { grid-column: 1; }
  .scales output { margin-bottom: .5rem; }
}
@media (prefers-contrast: more) { #tray-reading, .scales output, .mark { color: #ffffff; }
  .switches button { border-width: 3px; } }
@media (forced-colors: active) { .switches button[aria-pressed="true"] { outline: 3px solid Highlight; } }
@media print { #tray { display: none; } }
)css";

}  // namespace fogproof::report
