// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/print_measures.hpp"

#include <algorithm>
#include <cmath>

namespace fogproof::picture {
namespace {

constexpr double kBorderShare = 0.045;  // of the print's longer side

BorderWidths border_around(PictureSize picture, const SheetFog* fog) {
    if (fog != nullptr) return margins_of(fog->frame(), picture.width, picture.height);
    const int longest = std::max(picture.width, picture.height);
    return BorderWidths::even(std::max(4, int(std::lround(kBorderShare * longest))));
}

}  // namespace

PrintMeasures::PrintMeasures(PictureSize picture, const SheetFog* fog)
    : picture_(picture),
      border_(border_around(picture, fog)),
      slip_(std::max(8, std::max(picture.width, picture.height) / 16)) {}

}  // namespace fogproof::picture
