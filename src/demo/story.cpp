// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "demo/demo.hpp"

namespace fogproof::demo {

std::string demo_story() {
    return R"(A box of paper from the attic of a mountain hut

Everything here is invented: the hut, the negative and the paper. No photograph
was taken and no pack was measured; the numbers are plausible, no more.

The story. Under the roof of a hut lay an opened box of photographic paper,
24 sheets of 18 x 24 cm, variable contrast, semi-matt, older than anyone could
tell. Two slips cut from one sheet gave the first verdict: a slip that was only
fixed reads 0.09, a slip developed without any light reads 0.42. The paper has
fogged by a third of a density; nothing printed on it will be whiter than grey,
unless the print is bleached a little afterwards.

The negative is a 35 mm frame of that hut in the snow, with highlights that a
fogged paper swallows first.

  negative.tif   the scanned frame: 16-bit grey, linear transmittance, with the
                 clear film edge, the perforations and the film holder around it
  pack.toml      the pack of paper, as far as it is known
  readings.csv   densities read off its test strips
  README.txt     this page

What to try:

  fogproof pack show pack.toml
  fogproof grid negative.tif --pack pack.toml -o grid.tif
  fogproof pack fit readings.csv --pack pack.toml -o measured.toml
  fogproof start negative.tif --pack measured.toml
  fogproof print negative.tif --pack pack.toml --grade 4 --bleach 100% -o print.tif

Before you do it in real trays: keep potassium ferricyanide away from acids,
from heat and from strong sunlight, which can set free a very poisonous gas.
Wear gloves and eye protection, air the room, keep trays and food apart, label
every bottle. Follow the labels and safety data sheets of your chemicals and
your local rules, also for what may go down the drain.
)";
}

}  // namespace fogproof::demo
