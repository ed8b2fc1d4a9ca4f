// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Edges of a picture on clear film, told to a part of a pixel.
#include "registration/film_edges.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

constexpr int kViewWide = 400, kViewTall = 300;
// A sharp step at the share f of a pixel, looked at straight between middles of pixels, is seen at 1.5 - 0.5
// / f for f above one half: off by at most 1.5 - sqrt 2.
const double kStraightLine = 1.5 - std::sqrt(2.0) + 1e-6;

// Picture of an even density between two places across and two down, pixels cut at exact shares.
SmallNegative view_of(double left, double top, double right, double bottom, double picture) {
    SmallNegative view{kViewWide, kViewTall, {}};
    const auto share = [](int i, double from, double to) {
        return std::clamp(std::min(i + 1.0, to) - std::max(double(i), from), 0.0, 1.0);
    };
    for (int y = 0; y < kViewTall; ++y)
        for (int x = 0; x < kViewWide; ++x) {
            const double covered = share(x, left, right) * share(y, top, bottom);
            view.density.push_back({-std::log10(1 - covered + covered * std::pow(10.0, -picture))});
        }
    return view;
}

TEST(FilmEdges, AreFoundToAPartOfAPixel) {
    for (const double shift : {0.0, 0.25, 0.5, 0.71, 0.9}) {
        const FilmEdges edges =
            film_edges(view_of(8 + shift, 7 - shift, kViewWide - 9 + shift, kViewTall - 6 - shift, 0.9), 7);
        EXPECT_NEAR(edges.left * kViewWide, 8 + shift, kStraightLine) << shift;
        EXPECT_NEAR(edges.top * kViewTall, 7 - shift, kStraightLine) << shift;
        EXPECT_NEAR(edges.right * kViewWide, kViewWide - 9 + shift, kStraightLine) << shift;
        EXPECT_NEAR(edges.bottom * kViewTall, kViewTall - 6 - shift, kStraightLine) << shift;
    }
}

TEST(FilmEdges, AreTheUsualOnesWhereThePictureIsAsClearAsTheFilm) {
    const FilmEdges edges = film_edges(view_of(12, 12, kViewWide - 12, kViewTall - 12, 0.04), 7);
    EXPECT_DOUBLE_EQ(edges.left * kViewWide, 7);
    EXPECT_DOUBLE_EQ(edges.top * kViewTall, 7);
    EXPECT_DOUBLE_EQ(edges.right * kViewWide, kViewWide - 7);
    EXPECT_DOUBLE_EQ(edges.bottom * kViewTall, kViewTall - 7);
}

}  // namespace
}  // namespace fogproof::tests
