// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Pixels under local work: where all masks are empty or full, a table of that place is looked up; in between
// a pixel walks through the small tables (table/local_table.hpp).
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include "fogproof/rooms.hpp"
#include "pixels/entry_sums.hpp"
#include "pixels/level_grid.hpp"
#include "pixels/packed_table.hpp"
#include "table/local_table.hpp"

namespace fogproof::pixels {

/// The masks of all works, over the frame. Immutable, shared by all that draw it.
using Masks = std::vector<LevelGrid>;

/// Which masks are full: bit i for mask i.
using FullMasks = std::uint32_t;
/// Combinations of empty and full masks that are common enough to be given a table of their own, the
/// commonest first, at most so many; never that of empty masks alone, which has one anyway.
[[nodiscard]] std::vector<FullMasks> common_places(const Masks&, std::size_t most);
/// Levels of such a place, one for each mask.
[[nodiscard]] std::vector<double> levels_of(FullMasks, std::size_t masks);

/// Where the frame lies in what is drawn, which may be larger by a clear edge; beside it the masks go on as
/// they are at its rim.
struct FrameInPrint {
    int left = 0, top = 0, width = 0, height = 0;
};

class LocalPainter {
  public:
    struct Colours {
        PackedTable places;  ///< of the place without local work, then of `full`
        std::vector<FullMasks> full;
        std::vector<std::uint16_t> nodes;  ///< codes of the table's nodes, 16 bits a sample
    };
    LocalPainter(std::shared_ptr<const LocalTable>, std::shared_ptr<const Masks>, FrameInPrint, Colours,
                 std::vector<float> transmitted);

    /// In 8 bits what lies between empty and full masks is dithered, so that rims show no bands.
    /// Draws a line's pixels [begin, end), whose codes are given, and may write PackedTable::kSlack bytes
    /// past them. The sums are over the codes, as if nothing were local.
    EntrySums draw(const std::uint16_t* codes, int line, int begin, int end, std::byte* to) const;
    EntrySums draw(const std::uint8_t* codes, int line, int begin, int end, std::byte* to) const;

  private:
    template <class Code>
    EntrySums drawn(const Code*, int line, int begin, int end, std::byte* to) const;
    template <class Code>
    EntrySums walked(const Code*, const std::vector<LevelLine>&, int line, int begin, int end,
                     std::byte* to) const;

    struct Spot {
        const float *share, *dose;
        int count, column, line;  // how many pixels, and where the first lies
    };
    template <class Sample, int channels>
    std::byte* coloured(const Spot&, std::byte* to) const;

    std::shared_ptr<const LocalTable> table_;
    std::shared_ptr<const Masks> masks_;
    FrameInPrint frame_;
    PackedTable places_;
    std::vector<int> place_of_;  // by FullMasks; -1 where there is no table
    std::vector<float> nodes_;   // four a node, for the processor's sake
    std::vector<float> transmitted_;
};

}  // namespace fogproof::pixels
