// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/local_print.hpp"

#include "picture/colour_coder.hpp"
#include "table/print_table.hpp"

namespace fogproof::picture {
namespace {

// A table of all codes takes as long as some ten million pixels' walk.
constexpr std::size_t kMostPlaces = 3;

std::vector<std::vector<double>> places_of(const std::vector<FullMasks>& full, std::size_t masks) {
    std::vector<std::vector<double>> places{levels_of(0, masks)};
    for (const FullMasks place : full) places.push_back(levels_of(place, masks));
    return places;
}

}  // namespace

LocalPrint::LocalPrint(const Printing& printing, const PrintSteps& steps, std::shared_ptr<const Masks> over,
                       std::optional<BathLayer> bath)
    : masks(std::move(over)),
      table(std::make_shared<const LocalTable>(printing.paper(), printing.pack().darkroom.enlarger, steps,
                                               printing.light().mean_transmitted(), bath)),
      places(printing.print(steps, bath)),
      full(common_places(*masks, kMostPlaces)) {
    places = PrintModel(printing.paper(), printing.pack().darkroom.enlarger, steps,
                        printing.light().mean_transmitted(), places_of(full, masks->size()), bath);
}

std::shared_ptr<const LocalPainter> LocalPrint::painter(const Scan& scan, const OutputProfile& profile,
                                                        Rendering rendering, int bits) const {
    const Lab white = places.fixed_only().lab;
    const ColourCoder coder(profile, rendering, white, bits);
    const Region frame = scan.frame_in_print();
    return std::make_shared<const LocalPainter>(
        table, masks, FrameInPrint{frame.left, frame.top, frame.width, frame.height},
        LocalPainter::Colours{coder.table(PrintTable(places, scan.scale()).lab()), full,
                              ColourCoder(profile, rendering, white, 16).codes(table->nodes())},
        table->transmitted(scan.scale()));
}

}  // namespace fogproof::picture
