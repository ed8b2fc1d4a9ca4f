// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/rim_holder.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <utility>
#include <vector>

namespace fogproof::scan {
namespace {

// Judgement, all of them.
constexpr double kParting = 0.2;     // density above clear film; unevenness of light over the whole scan
constexpr int kSpeck = 2;            // pixels; what is no wider than twice as many is dust and no bridge
constexpr double kMiddle = 0.35;     // of width and height from every side: no holder reaches so far in
constexpr double kAlongRim = 0.5;    // of one side of the scan at least
constexpr double kThinHolder = 0.5;  // density above the brightest part; no film without picture has it
constexpr double kOneHolder = 0.1;   // density; noise and stray light on one holder
constexpr double kEvenly = 0.9;      // share of a side's rim that has the holder's tone

/// One byte a pixel of the scan.
struct Mask {
    int width, height;
    std::vector<std::uint8_t> set;
    [[nodiscard]] std::size_t index(int x, int y) const {
        return std::size_t(y) * std::size_t(width) + std::size_t(x);
    }
};

/// Pixels whose neighbourhood is all set, or has any that is; beyond the scan nothing is asked.
template <class Combine>
Mask neighbourhood(const Mask& mask, const Combine& combine) {
    const auto along = [&](const Mask& from, int step_x, int step_y) {
        Mask to = from;
        for (int by = -kSpeck; by <= kSpeck; ++by) {
            const int by_x = by * step_x, by_y = by * step_y;
            const int left = std::max(0, -by_x), right = std::min(from.width, from.width - by_x);
            const int top = std::max(0, -by_y), bottom = std::min(from.height, from.height - by_y);
            for (int y = top; y < bottom; ++y) {
                const std::uint8_t* near = from.set.data() + from.index(left + by_x, y + by_y);
                std::uint8_t* here = to.set.data() + to.index(left, y);
                for (int x = 0; x < right - left; ++x) here[x] = combine(here[x], near[x]);
            }
        }
        return to;
    };
    return along(along(mask, 1, 0), 0, 1);
}

/// The piece that hangs together with one pixel; its pixels are cleared in `open`.
std::vector<std::size_t> piece_from(Mask& open, std::size_t start) {
    std::vector<std::size_t> piece{start};
    open.set[start] = 0;
    for (std::size_t done = 0; done < piece.size(); ++done) {
        const int x = int(piece[done] % std::size_t(open.width)),
                  y = int(piece[done] / std::size_t(open.width));
        const auto visit = [&](int to_x, int to_y) {
            if (to_x < 0 || to_y < 0 || to_x >= open.width || to_y >= open.height) return;
            const std::size_t to = open.index(to_x, to_y);
            if (!open.set[to]) return;
            open.set[to] = 0;
            piece.push_back(to);
        };
        visit(x - 1, y);
        visit(x + 1, y);
        visit(x, y - 1);
        visit(x, y + 1);
    }
    return piece;
}

bool lies_along_the_rim(const Mask& mask, const std::vector<std::size_t>& piece) {
    std::array<int, 4> touched{};
    for (const std::size_t at : piece) {
        const int x = int(at % std::size_t(mask.width)), y = int(at / std::size_t(mask.width));
        const bool in_middle = std::min(x, mask.width - 1 - x) > kMiddle * mask.width &&
                               std::min(y, mask.height - 1 - y) > kMiddle * mask.height;
        if (in_middle) return false;
        touched[0] += y == 0;
        touched[1] += y == mask.height - 1;
        touched[2] += x == 0;
        touched[3] += x == mask.width - 1;
    }
    return std::max(touched[0], touched[1]) >= kAlongRim * mask.width ||
           std::max(touched[2], touched[3]) >= kAlongRim * mask.height;
}

/// The rim of the scan along one side of a frame, sorted by density.
std::vector<double> rim_beside(const SmallScan& scan, const std::array<double, 4>& inset, Side side) {
    const SideView view(scan, side);
    const auto [before, after] = side <= kBottom ? std::pair{kLeft, kRight} : std::pair{kTop, kBottom};
    const int first = int(inset[before]), last = view.length() - 1 - int(inset[after]);
    std::vector<double> rim;
    for (int along = first; along <= last; ++along)
        for (const int depth : {0, 1}) rim.push_back(view.at(along, depth));
    std::ranges::sort(rim);
    return rim;
}

bool is_mostly(double tone, const std::vector<double>& rim) {
    const auto first = std::ranges::lower_bound(rim, tone - kOneHolder);
    const auto last = std::ranges::upper_bound(rim, tone + kOneHolder);
    return double(last - first) >= kEvenly * double(rim.size());
}

}  // namespace

std::optional<SmallScan> with_rim_painted(const SmallScan& scan, double clear) {
    Mask denser{scan.width, scan.height, {}};
    denser.set.reserve(scan.density.size());
    for (const float density : scan.density) denser.set.push_back(density > clear + kParting);
    Mask open = neighbourhood(denser, std::bit_and<std::uint8_t>());
    Mask rim{scan.width, scan.height, std::vector<std::uint8_t>(scan.density.size())};
    bool is_any = false;
    for (int y = 0; y < scan.height; ++y)
        for (int x = 0; x < scan.width; ++x) {
            if (x > 0 && y > 0 && x < scan.width - 1 && y < scan.height - 1) continue;
            if (!open.set[open.index(x, y)]) continue;
            const auto piece = piece_from(open, open.index(x, y));
            if (!lies_along_the_rim(open, piece)) continue;
            is_any = true;
            for (const std::size_t at : piece) rim.set[at] = 1;
        }
    if (!is_any) return std::nullopt;
    const Mask grown = neighbourhood(rim, std::bit_or<std::uint8_t>());
    SmallScan painted = scan;
    for (std::size_t at = 0; at < painted.density.size(); ++at)
        if (grown.set[at] && denser.set[at]) painted.density[at] = kPainted;
    return painted;
}

std::array<bool, 4> sides_on_holder(const SmallScan& scan, const std::array<double, 4>& inset) {
    const double thin = brightest_density(scan) + kThinHolder;
    std::vector<double> tones;
    for (const Side side : kSides) {
        if (inset[side] <= 0) continue;
        const auto rim = rim_beside(scan, inset, side);
        const double tone = rim[rim.size() / 2];
        if (tone > thin && is_mostly(tone, rim)) tones.push_back(tone);
    }
    std::array<bool, 4> on_holder{};
    for (const Side side : kSides) {
        if (inset[side] > 0) continue;
        const auto rim = rim_beside(scan, inset, side);
        on_holder[side] = std::ranges::any_of(tones, [&](double tone) { return is_mostly(tone, rim); });
    }
    return on_holder;
}

}  // namespace fogproof::scan
