// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "base/quantile.hpp"
#include "reading/scanner_bed.hpp"

namespace fogproof::reading {
namespace {

// Judgement, in density: paper that differs less from the lid is not seen as paper.
constexpr double kStandsOut = 0.03;
constexpr double kFaintly = 0.012;  // white paper on a white lid, or the shadow of its edges
constexpr int kFewestBlocks = 30;
// Single blocks at the rim of a place (shadows, dust) do not widen it.
constexpr double kStragglers = 0.004;

// Paper fills its rectangle; shadows, threads and noise do not.
constexpr double kFilled = 0.6, kFaintFilled = 0.8;
// An edge's shadow runs along two sides at least, over most of them, and hardly anywhere else.
constexpr double kAlongSides = 0.85, kOfASide = 0.7;

using Block = std::pair<int, int>;

std::vector<std::vector<Block>> connected(const std::vector<bool>& stands_out, int width, int height) {
    std::vector<bool> left = stands_out;
    const auto index = [&](int x, int y) { return std::size_t(y) * std::size_t(width) + std::size_t(x); };
    std::vector<std::vector<Block>> all;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            if (!left[index(x, y)]) continue;
            std::vector<Block> blocks{{x, y}};
            left[index(x, y)] = false;
            for (std::size_t next = 0; next < blocks.size(); ++next) {
                const auto [bx, by] = blocks[next];
                for (const auto& [nx, ny] : {Block{bx + 1, by}, {bx - 1, by}, {bx, by + 1}, {bx, by - 1}}) {
                    if (nx < 0 || ny < 0 || nx >= width || ny >= height || !left[index(nx, ny)]) continue;
                    left[index(nx, ny)] = false;
                    blocks.emplace_back(nx, ny);
                }
            }
            if (blocks.size() >= kFewestBlocks) all.push_back(std::move(blocks));
        }
    return all;
}

// From the lowest to the highest, stragglers left aside.
std::pair<double, double> extent(std::vector<double>& along) {
    const auto spare = std::size_t(kStragglers * double(along.size()));
    const double lowest = in_order(along, spare);
    return {lowest - 0.5, in_order(along, along.size() - 1 - spare) + 0.5};
}

StripPlace rectangle(const std::vector<Block>& blocks, int block, double degrees) {
    const double angle = degrees * std::numbers::pi / 180, c = std::cos(angle), s = std::sin(angle);
    std::vector<double> us, vs;
    for (const auto& [x, y] : blocks) {
        us.push_back((x + 0.5) * c + (y + 0.5) * s);
        vs.push_back((y + 0.5) * c - (x + 0.5) * s);
    }
    const auto [u0, u1] = extent(us);
    const auto [v0, v1] = extent(vs);
    const double u = (u0 + u1) / 2, v = (v0 + v1) / 2;
    return {block * (u * c - v * s), block * (u * s + v * c), angle, block * (u1 - u0), block * (v1 - v0)};
}

// The area grows from the right angle to both sides, so that the rough search ends next to it.
StripPlace smallest_rectangle(const std::vector<Block>& blocks, int block) {
    StripPlace best;
    double smallest = 1e300, at = 0;
    for (const auto& [reach, step] : {std::pair{45.0, 3.0}, {3.0, 0.5}, {0.5, 0.1}}) {
        const double middle = at;
        for (double degrees = middle - reach; degrees < middle + reach; degrees += step) {
            const StripPlace tried = rectangle(blocks, block, degrees);
            if (tried.length * tried.width >= smallest) continue;
            smallest = tried.length * tried.width;
            best = tried;
            at = degrees;
        }
    }
    return best;
}

bool is_filled(const std::vector<Block>& blocks, int block, const StripPlace& place, double share) {
    return double(blocks.size()) * block * block >= share * place.length * place.width;
}

// Shadows of edges: which blocks lie along which side.
bool outlines(const std::vector<Block>& blocks, int block, const StripPlace& place) {
    constexpr double kNear = 1.6;  // blocks
    std::array<std::vector<bool>, 4> sides;
    const std::array lengths{place.width, place.width, place.length, place.length};
    for (std::size_t i = 0; i < 4; ++i) sides.at(i).assign(std::size_t(lengths.at(i) / block) + 1, false);
    std::size_t along = 0;
    for (const auto& [x, y] : blocks) {
        const auto [u, v] = place.uv((x + 0.5) * block, (y + 0.5) * block);
        const std::array off{u, place.length - u, v, place.width - v};
        const std::array at{v, v, u, u};
        bool is_along = false;
        for (std::size_t i = 0; i < 4; ++i) {
            if (off.at(i) > kNear * block) continue;
            is_along = true;
            auto& side = sides.at(i);
            side[std::min(side.size() - 1, std::size_t(std::max(0.0, at.at(i)) / block))] = true;
        }
        along += is_along;
    }
    const auto is_seen = [&](std::size_t i) {
        return double(std::ranges::count(sides.at(i), true)) >= kOfASide * double(sides.at(i).size());
    };
    return double(along) >= kAlongSides * double(blocks.size()) && (is_seen(0) || is_seen(1)) &&
           (is_seen(2) || is_seen(3));
}

class LidMap {
  public:
    LidMap(const ScannerBed& bed, const CoarseImage& image) : image_(image), apart_(apart_from(bed, image)) {}
    [[nodiscard]] std::vector<std::vector<Block>> beyond(double threshold) const {
        std::vector<bool> stands_out;
        for (const double apart : apart_) stands_out.push_back(std::abs(apart) > threshold);
        return connected(stands_out, image_.width, image_.height);
    }
    /// Above 0 for what is darker than the lid as a whole.
    [[nodiscard]] double darker(const std::vector<Block>& blocks) const {
        double sum = 0;
        for (const auto& [x, y] : blocks) sum += apart_[image_.index(x, y)];
        return sum / double(blocks.size());
    }

  private:
    const CoarseImage& image_;
    std::vector<double> apart_;
};

// Both lie in one row, alike in width, no farther apart than a band or two.
bool continues(const StripPlace& place, const StripPlace& other, int block) {
    constexpr double kWidths = 0.02, kGap = 0.5;
    for (const StripPlace& along : {place, place.turned()}) {
        double u0 = 1e300, u1 = -1e300, v0 = 1e300, v1 = -1e300;
        for (const auto& [x, y] : other.corners(0, other.length, 0, other.width)) {
            const auto [u, v] = along.uv(x, y);
            u0 = std::min(u0, u), u1 = std::max(u1, u), v0 = std::min(v0, v), v1 = std::max(v1, v);
        }
        const double slack = 2 * block + kWidths * along.width, gap = std::max(u0 - along.length, -u1);
        if (std::abs(v0) < slack && std::abs(v1 - along.width) < slack && gap > -slack &&
            gap < kGap * (along.length + u1 - u0))
            return true;
    }
    return false;
}

// How far the end of one piece that looks at the other differs from the lid: a strip comes near it there, in
// steps of less than this (judgement).
constexpr double kNextStep = 0.5, kEndShare = 0.15;

double end_apart(const std::vector<Block>& blocks, const StripPlace& other, const LidMap& map, int block) {
    std::vector<std::pair<double, std::size_t>> away;
    for (std::size_t i = 0; i < blocks.size(); ++i)
        away.emplace_back(std::hypot((blocks[i].first + 0.5) * block - other.middle_x,
                                     (blocks[i].second + 0.5) * block - other.middle_y),
                          i);
    std::ranges::sort(away);
    std::vector<Block> end;
    for (std::size_t i = 0; i < std::max<std::size_t>(1, std::size_t(kEndShare * double(away.size()))); ++i)
        end.push_back(blocks[away[i].second]);
    return std::abs(map.darker(end));
}

// A strip whose tones run through the lid's own is parted there: its dark part and its light part are one.
void join_parted(std::vector<std::vector<Block>>& pieces, const LidMap& map, int block) {
    for (std::size_t light = 0; light < pieces.size(); ++light)
        for (std::size_t dark = 0; dark < pieces.size(); ++dark) {
            if (light == dark || map.darker(pieces[light]) > 0 || map.darker(pieces[dark]) < 0) continue;
            const StripPlace of_light = smallest_rectangle(pieces[light], block),
                             of_dark = smallest_rectangle(pieces[dark], block);
            if (!continues(of_light, of_dark, block) ||
                end_apart(pieces[light], of_dark, map, block) > kNextStep ||
                end_apart(pieces[dark], of_light, map, block) > kNextStep)
                continue;
            pieces[light].insert(pieces[light].end(), pieces[dark].begin(), pieces[dark].end());
            pieces.erase(pieces.begin() + std::ptrdiff_t(dark));
            return join_parted(pieces, map, block);
        }
}

bool touches(const StripPlace& place, const StripPlace& other, double slack) {
    const auto reach = [](const StripPlace& p) { return std::hypot(p.length, p.width) / 2; };
    if (std::hypot(place.middle_x - other.middle_x, place.middle_y - other.middle_y) >
        reach(place) + reach(other) + slack)
        return false;
    const auto within = [&](const StripPlace& inner, const StripPlace& outer) {
        for (const double du : {0.0, 0.25, 0.5, 0.75, 1.0})
            for (const double dv : {0.0, 0.25, 0.5, 0.75, 1.0}) {
                const auto [x, y] = inner.at(du * inner.length, dv * inner.width);
                const auto [u, v] = outer.uv(x, y);
                if (u > -slack && v > -slack && u < outer.length + slack && v < outer.width + slack)
                    return true;
            }
        return false;
    };
    return within(place, other) || within(other, place);
}

}  // namespace

std::vector<StripPlace> places_on(const ScannerBed& bed, const CoarseImage& image) {
    const LidMap map(bed, image);
    std::vector<StripPlace> places;
    auto pieces = map.beyond(std::max(kStandsOut, 5 * bed.noise));
    std::erase_if(pieces, [&](const auto& blocks) {
        return !is_filled(blocks, image.block, smallest_rectangle(blocks, image.block), kFilled);
    });
    join_parted(pieces, map, image.block);
    for (const auto& blocks : pieces) places.push_back(smallest_rectangle(blocks, image.block));
    const std::size_t plain = places.size();
    for (const auto& blocks : map.beyond(std::max(kFaintly, 5 * bed.noise))) {
        StripPlace place = smallest_rectangle(blocks, image.block);
        place.is_faint = true;
        const bool is_known =
            std::any_of(places.begin(), places.begin() + std::ptrdiff_t(plain),
                        [&](const auto& other) { return touches(place, other, 2 * image.block); });
        if (!is_known &&
            (is_filled(blocks, image.block, place, kFaintFilled) || outlines(blocks, image.block, place)))
            places.push_back(place);
    }
    return places;
}

}  // namespace fogproof::reading
