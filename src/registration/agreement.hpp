// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Whether a scan shows this very negative where a warp says, and which part of it: each block with a texture
// is searched for a little way around its place. In a print of another negative, be it of the same scene,
// most blocks are best alike somewhere else.
#pragma once

#include <cstddef>
#include <initializer_list>
#include <optional>
#include <vector>

#include "fogproof/rooms.hpp"
#include "registration/seen_frame.hpp"

namespace fogproof::registration {

/// A rectangle of a frame's grid, in its pixels; right and bottom not included.
struct FramePart {
    int left = 0, top = 0, right = 0, bottom = 0;
    [[nodiscard]] double area() const { return double(right - left) * double(bottom - top); }
};

/// What each block of the frame says of the warp, row by row: 1 for it, less than 0 against it, 0 nothing.
struct BlockVotes {
    int side = 0;  ///< of a block, pixels
    int columns = 0, rows = 0;
    std::vector<double> votes;
    [[nodiscard]] double at(int column, int row) const {
        return votes[std::size_t(row) * std::size_t(columns) + std::size_t(column)];
    }
};

struct Agreement {
    FramePart part{};          ///< of the frame that the print shows
    double votes_of_part = 0;  ///< sum of its blocks' votes
    std::size_t asked = 0;     ///< blocks in this part that have a texture
    std::size_t alike = 0;     ///< of these: alike, and best alike where the warp has them
    std::size_t against = 0;   ///< blocks elsewhere that show a picture, but not what the negative has there
    std::size_t around = 0;    ///< blocks with a texture among those that are alike
    std::size_t agreeing = 0;  ///< of these: alike
    std::size_t other = 0;     ///< and such blocks as above whose neighbours are, too
    double drift = 0;          ///< by which neighbouring blocks are off together, rms pixels
    BlockVotes votes{};
    [[nodiscard]] double share() const { return asked > 0 ? double(alike) / double(asked) : 0; }
};

/// Whether whole regions of a print show something else than the negative, or too little of it: somebody
/// moved between two exposures. All pieces of the print together.
[[nodiscard]] bool have_other_regions(std::initializer_list<Agreement> pieces);

/// `expected`: the negative as this print would show it, through its tone curve. Of the whole frame, or of a
/// part of it alone.
[[nodiscard]] Agreement agreement(const GreyImage& expected, const SeenFrame&,
                                  const std::optional<FramePart>& within = std::nullopt);

}  // namespace fogproof::registration
