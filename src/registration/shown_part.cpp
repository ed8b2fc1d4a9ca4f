// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/shown_part.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "registration/row_bands.hpp"
#include "registration/tone_relation.hpp"

namespace fogproof::registration {
namespace {

// Pixels of a cell, and from one that is looked at to the next.
constexpr int kCell = 12, kBetween = 2;
constexpr int kTones = 24;
constexpr std::size_t kPairsAsked = 100'000;
// Lightness (0 to 1) by which a print may depart from its tone curve more, or less, than one cell further in:
// falloff and soft burns change by less from cell to cell, a border, the lid or a hand by more. Judgement.
constexpr double kGoesOn = 0.015;
// The same of how much the tone curve leaves unexplained within a cell, and how often as much as further in:
// more is an edge that the negative does not have.
constexpr double kNoEdge = 0.02, kNoMoreEdge = 2;
// A cell whose own detail stands out so far (standard deviation) goes on where it is so alike (correlation):
// there the tone curve tells less of a mean. Judgement.
constexpr double kDetail = 0.03, kAlikeDetail = 0.7;
// Share of a line's cells that go on: dust lies on some.
constexpr double kMostGoOn = 0.9;
// Tones that only the ground beside has are learnt from what was taken before.
constexpr int kTimesLearnt = 3;

// How a print departs from its tone curve within a cell.
struct Cell {
    bool is_seen = false, is_alike = false;
    double departure = 0, left = 0;  ///< mean and standard deviation
};

struct Cells {
    int columns, rows;
    std::vector<Cell> all;
    [[nodiscard]] const Cell& at(int column, int row) const {
        return all[std::size_t(row) * std::size_t(columns) + std::size_t(column)];
    }
};

ToneRelation curve_of(const GreyImage& negative, const SeenFrame& seen, const FramePart& part) {
    const int every = 1 + int(std::sqrt(part.area() / double(kPairsAsked)));
    std::vector<ToneRelation::Pair> pairs;
    for (int y = part.top; y < part.bottom; y += every)
        for (int x = part.left; x < part.right; x += every)
            if (seen.inside[std::size_t(y) * std::size_t(negative.width) + std::size_t(x)])
                pairs.push_back({negative.at(x, y), seen.value.at(x, y)});
    return {std::move(pairs), kTones};
}

// The last of a row or column may be narrower.
Cells cells_of(const GreyImage& negative, const SeenFrame& seen, const ToneRelation& curve) {
    Cells cells{(negative.width + kCell - 1) / kCell, (negative.height + kCell - 1) / kCell, {}};
    cells.all.resize(std::size_t(cells.columns) * std::size_t(cells.rows));
    const auto cell_at = [&](int column, int row) -> Cell {
        double n = 0, sa = 0, sb = 0, saa = 0, sbb = 0, sab = 0;
        for (int y = row * kCell; y < std::min(negative.height, (row + 1) * kCell); y += kBetween)
            for (int x = column * kCell; x < std::min(negative.width, (column + 1) * kCell); x += kBetween) {
                if (!seen.inside[std::size_t(y) * std::size_t(negative.width) + std::size_t(x)]) return {};
                const double a = double(curve.at(negative.at(x, y))), b = double(seen.value.at(x, y));
                n += 1, sa += a, sb += b, saa += a * a, sbb += b * b, sab += a * b;
            }
        const double aa = std::max(0.0, saa / n - sa * sa / n / n),
                     bb = std::max(0.0, sbb / n - sb * sb / n / n), ab = sab / n - sa * sb / n / n;
        return {true, aa > kDetail * kDetail && ab > kAlikeDetail * std::sqrt(aa * bb), (sb - sa) / n,
                std::sqrt(std::max(0.0, aa + bb - 2 * ab))};
    };
    in_row_bands(cells.rows, [&](int first, int last) {
        for (int row = first; row < last; ++row)
            for (int column = 0; column < cells.columns; ++column)
                cells.all[std::size_t(row) * std::size_t(cells.columns) + std::size_t(column)] =
                    cell_at(column, row);
    });
    return cells;
}

// A line of cells beside a part, from its first cell, and the way to the line further in.
struct Line {
    int column, row, count;
    bool is_upright;
    int inwards;
};

bool goes_on(const Cells& cells, const Line& line) {
    int on = 0;
    for (int i = 0; i < line.count; ++i) {
        const int column = line.column + (line.is_upright ? 0 : i),
                  row = line.row + (line.is_upright ? i : 0);
        const Cell &here = cells.at(column, row),
                   &within = cells.at(column + (line.is_upright ? line.inwards : 0),
                                      row + (line.is_upright ? 0 : line.inwards));
        const bool is_level = here.is_seen && within.is_seen &&
                              std::abs(here.departure - within.departure) < kGoesOn &&
                              here.left < std::max(kNoEdge, kNoMoreEdge * within.left);
        on += here.is_alike || is_level;
    }
    return on >= kMostGoOn * line.count;
}

// In cells, right and bottom not included.
FramePart grown(const Cells& cells, FramePart part, const FramePart& most) {
    for (double before = -1; before < part.area();) {
        before = part.area();
        const int wide = part.right - part.left;
        if (part.top > most.top && goes_on(cells, {part.left, part.top - 1, wide, false, 1})) --part.top;
        if (part.bottom < most.bottom && goes_on(cells, {part.left, part.bottom, wide, false, -1}))
            ++part.bottom;
        const int high = part.bottom - part.top;
        if (part.left > most.left && goes_on(cells, {part.left - 1, part.top, high, true, 1})) --part.left;
        if (part.right < most.right && goes_on(cells, {part.right, part.top, high, true, -1})) ++part.right;
    }
    return part;
}

// Cells that lie wholly within a part; at the frame's edge the narrower ones, too.
FramePart in_cells(const FramePart& part, const GreyImage& grid) {
    const auto end = [](int pixel, int whole) {
        return pixel == whole ? (whole + kCell - 1) / kCell : pixel / kCell;
    };
    return {(part.left + kCell - 1) / kCell, (part.top + kCell - 1) / kCell, end(part.right, grid.width),
            end(part.bottom, grid.height)};
}

}  // namespace

FramePart with_even_ground(const GreyImage& negative, const SeenFrame& seen, FramePart part,
                           const FramePart& most) {
    for (int round = 0; round < kTimesLearnt; ++round) {
        const FramePart from = in_cells(part, negative);
        if (from.left >= from.right || from.top >= from.bottom) return part;
        const FramePart to =
            grown(cells_of(negative, seen, curve_of(negative, seen, part)), from, in_cells(most, negative));
        const FramePart next{std::min(part.left, to.left * kCell), std::min(part.top, to.top * kCell),
                             std::max(part.right, std::min(to.right * kCell, negative.width)),
                             std::max(part.bottom, std::min(to.bottom * kCell, negative.height))};
        if (!(next.area() > part.area())) return part;
        part = next;
    }
    return part;
}

}  // namespace fogproof::registration
