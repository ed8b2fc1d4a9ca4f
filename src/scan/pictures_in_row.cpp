// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/pictures_in_row.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/quantile.hpp"

namespace fogproof::scan {
namespace {

// All judgement. A line across the frame is even when all but the outermost twentieths of it lie so close, D;
// it is film where it is as clear as that, and belongs to a bar where it is even beside such film.
constexpr double kEven = 0.08, kOutermost = 0.05;
constexpr int kMostPictures = 12;
constexpr int kNarrowest = 2;      // pixels of a bar
constexpr double kOneSize = 0.12;  // parts differ by less from their mean
constexpr double kShortest = 0.3;  // of a part, over the other side of the frame

struct Line {
    bool is_even, is_clear;
};

Line line_of(std::vector<double> densities, double clear) {
    const double low = quantile(densities, kOutermost), high = quantile(densities, 1 - kOutermost);
    return {high - low < kEven, std::abs((low + high) / 2 - clear) < kClearTolerance};
}

struct Part {
    int from, to;
    [[nodiscard]] int length() const { return to - from; }
};

// What lies between bars.
std::vector<Part> parts_between(const std::vector<Line>& lines) {
    std::vector<Part> parts{{0, 0}};
    const int count = int(lines.size());
    for (int at = 0; at < count;) {
        int end = at;
        bool is_film = false;
        while (end < count && lines[std::size_t(end)].is_even)
            is_film = is_film || lines[std::size_t(end)].is_clear, ++end;
        if (end - at < kNarrowest || !is_film) {
            at = std::max(end, at + 1);
            continue;
        }
        parts.back().to = at;
        parts.push_back({end, end});
        at = end;
    }
    parts.back().to = count;
    std::erase_if(parts, [](const Part& part) { return part.length() < kNarrowest; });
    return parts;
}

bool are_of_one_size(const std::vector<Part>& parts, int across) {
    const double mean = [&] {
        double sum = 0;
        for (const Part& part : parts) sum += part.length() / double(parts.size());
        return sum;
    }();
    return mean >= kShortest * across && std::ranges::all_of(parts, [mean](const Part& part) {
               return std::abs(part.length() - mean) < kOneSize * mean;
           });
}

}  // namespace

std::optional<PicturesInRow> pictures_in_row(const SmallScan& scan, const Region& frame, double clear) {
    for (const bool is_beside : {true, false}) {
        const int along = is_beside ? frame.width : frame.height,
                  across = is_beside ? frame.height : frame.width;
        std::vector<Line> lines;
        for (int at = 0; at < along; ++at) {
            std::vector<double> densities;
            for (int i = 0; i < across; ++i)
                densities.push_back(is_beside ? scan.at(frame.left + at, frame.top + i)
                                              : scan.at(frame.left + i, frame.top + at));
            lines.push_back(line_of(std::move(densities), clear));
        }
        const std::vector<Part> parts = parts_between(lines);
        if (parts.size() < 2 || parts.size() > kMostPictures || !are_of_one_size(parts, across)) continue;
        const Part& first = parts.front();
        return PicturesInRow{int(parts.size()),
                             is_beside
                                 ? Region{frame.left + first.from, frame.top, first.length(), frame.height}
                                 : Region{frame.left, frame.top + first.from, frame.width, first.length()}};
    }
    return std::nullopt;
}

}  // namespace fogproof::scan
