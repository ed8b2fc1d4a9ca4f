// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/print_curve.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <utility>

#include "base/quantile.hpp"
#include "reading/light_density.hpp"
#include "registration/tone_relation.hpp"

namespace fogproof::reading {
namespace {

constexpr int kBins = 60;
// Once a print was looked at; log10 of light. Judgement.
constexpr double kFalloffAsRead = 0.005, kSettledFalloff = 0.003;
constexpr double kFalloffStep = 0.005, kCoarseFalloffStep = 0.02;
// Misses beyond this count no more: dust, handwork.
constexpr double kMostMiss = 0.1;
// A square is left out where a hand changed its light by so much (log10; a tenth of a stop), or that misses
// the curve by so many deviations. Judgement.
constexpr double kWorked = 0.03, kOutlying = 4, kLeastNoiseOfSquares = 0.008;
// What lies near handwork is left out, too, as parts of the frame's longer side: the skirts of a soft dodge
// are taken for falloff. The farthest that leaves so much of the tones. Judgement, tried on prints that
// others drew.
constexpr std::array<double, 3> kRims{0.15, 0.1, 0.05};
constexpr double kTonesLeft = 0.8;
constexpr int kPasses = 3;
// Light by which the ground that no hand changed may be another: the ground then found is at least such a
// part of what is found now. Judgement, tried on prints with wide and soft dodges.
constexpr double kAsMuchUnworked = 0.4, kLightStep = 0.005;
constexpr double kToneWidth = 0.05;
constexpr int kFewestTones = 10, kMostTones = 40;
constexpr std::size_t kFewestSquares = 8;
constexpr double kLeastShare = 0.0006;
// Squares close by err together (falloff that is no parabola, the scanner's light): so many count as one; and
// no tone is better known than this. Judgement.
constexpr double kTogether = 25, kFinest = 0.005;

struct Seen {
    double over_paper, squared_radius, density;
    std::size_t square;
};

double over_with(const Seen& seen, double falloff) {
    return seen.over_paper + falloff * seen.squared_radius;
}

// The print lightens with what lies over the paper; ToneRelation rises.
ToneRelation curve_of(const std::vector<Seen>& all, const std::vector<char>& counted, double falloff) {
    std::vector<ToneRelation::Pair> pairs;
    for (const Seen& seen : all)
        if (counted[seen.square]) pairs.push_back({float(over_with(seen, falloff)), float(-seen.density)});
    return {std::move(pairs), kBins};
}

double miss(const Seen& seen, const ToneRelation& curve, double falloff) {
    return seen.density + double(curve.at(float(over_with(seen, falloff))));
}

double cost(const std::vector<Seen>& all, const std::vector<char>& counted, double falloff) {
    const ToneRelation curve = curve_of(all, counted, falloff);
    double sum = 0;
    for (const Seen& seen : all)
        if (counted[seen.square]) sum += std::min(std::abs(miss(seen, curve, falloff)), kMostMiss);
    return sum;
}

double best_falloff(const std::vector<Seen>& all, const std::vector<char>& counted) {
    double best = 0, least = HUGE_VAL;
    const auto look = [&](double from, double to, double step) {
        for (double falloff = from; falloff <= to; falloff += step)
            if (const double now = cost(all, counted, falloff); now < least) least = now, best = falloff;
    };
    look(kLeastFalloff, kMostFalloff, kCoarseFalloffStep);
    look(std::max(kLeastFalloff, best - kCoarseFalloffStep + kFalloffStep),
         std::min(kMostFalloff, best + kCoarseFalloffStep - kFalloffStep / 2), kFalloffStep);
    const double before = cost(all, counted, best - kFalloffStep),
                 after = cost(all, counted, best + kFalloffStep);
    const double bend = before + after - 2 * least;
    return bend > 0 ? best + kFalloffStep * std::clamp((before - after) / (2 * bend), -0.5, 0.5) : best;
}

// Places in squares.
struct WorkedNode {
    double column, row;
};

std::vector<WorkedNode> worked_nodes(const LightGrid& grid) {
    std::vector<WorkedNode> nodes;
    for (int row = 0; row < grid.rows; ++row)
        for (int column = 0; column < grid.columns; ++column)
            if (std::abs(grid.light[std::size_t(row) * std::size_t(grid.columns) + std::size_t(column)]) >=
                kWorked)
                nodes.push_back({column * grid.pitch, row * grid.pitch});
    return nodes;
}

// Squares that no hand changed, so many squares from any place where one did.
std::vector<char> unworked(const std::vector<Seen>& all, const EvenGround& ground, const Handwork& work,
                           std::span<const WorkedNode> nodes, double apart) {
    std::vector<char> counted(ground.squares.size(), 0);
    const double limit = kOutlying * std::max(work.scatter, kLeastNoiseOfSquares);
    for (std::size_t i = 0; i < all.size(); ++i) {
        const EvenSquare& square = ground.squares[all[i].square];
        const double x = square.column + 0.5, y = square.row + 0.5;
        counted[all[i].square] = std::abs(work.grid.at(x, y)) < kWorked && std::abs(work.misses[i]) < limit &&
                                 std::ranges::none_of(nodes, [&](WorkedNode node) {
                                     return std::hypot(node.column - x, node.row - y) < apart;
                                 });
    }
    return counted;
}

std::vector<PrintTone> tones_of(const std::vector<Seen>& all, const std::vector<char>& counted,
                                const EvenGround& ground, const ToneRelation& curve, double falloff) {
    std::vector<Seen> kept;
    for (const Seen& seen : all)
        if (counted[seen.square]) kept.push_back(seen);
    if (kept.empty()) return {};
    std::ranges::sort(kept, {}, [&](const Seen& seen) { return over_with(seen, falloff); });
    const double first = over_with(kept.front(), falloff), range = over_with(kept.back(), falloff) - first;
    const int bins = std::clamp(int(range / kToneWidth), kFewestTones, kMostTones);
    const auto fewest = std::max(kFewestSquares, std::size_t(kLeastShare * double(ground.all)));
    std::vector<PrintTone> tones;
    auto from = kept.begin();
    for (int bin = 0; bin < bins; ++bin) {
        const double end = first + range * (bin + 1) / bins;
        const auto to = std::find_if(from, kept.end(), [&](const Seen& seen) {
            return bin + 1 < bins && over_with(seen, falloff) > end;
        });
        if (std::size_t(to - from) >= fewest) {
            double middle = 0;
            for (auto each = from; each != to; ++each) middle += over_with(*each, falloff);
            middle /= double(to - from);
            const double there = double(curve.at(float(middle)));
            std::vector<double> densities, apart;
            for (auto each = from; each != to; ++each)
                densities.push_back(each->density + double(curve.at(float(over_with(*each, falloff)))) -
                                    there);
            const double density = median(densities);
            for (const double each : densities) apart.push_back(std::abs(each - density));
            const double scatter = kMadToSigma * median(apart), alone = double(to - from) / kTogether;
            tones.push_back({middle, density, std::hypot(kFinest, scatter / std::sqrt(std::max(1.0, alone))),
                             double(to - from) / double(ground.all)});
        }
        from = to;
    }
    return tones;
}

double density_at(std::span<const PrintTone> tones, double over_paper) {
    const auto above = std::ranges::upper_bound(tones, over_paper, {}, &PrintTone::over_paper);
    if (above == tones.begin()) return tones.front().density;
    if (above == tones.end()) return tones.back().density;
    const PrintTone &low = *(above - 1), &high = *above;
    return std::lerp(low.density, high.density,
                     (over_paper - low.over_paper) / (high.over_paper - low.over_paper));
}

struct Unworked {
    std::vector<char> counted;
    double falloff;
    std::vector<PrintTone> tones;
};

Unworked read_apart(const std::vector<Seen>& all, const EvenGround& ground, const Handwork& work,
                    std::span<const WorkedNode> nodes, double apart) {
    Unworked read{unworked(all, ground, work, nodes, apart), 0, {}};
    read.falloff = best_falloff(all, read.counted);
    read.tones = tones_of(all, read.counted, ground, curve_of(all, read.counted, read.falloff), read.falloff);
    return read;
}

// The darkest and the lightest tone may lie near handwork only: they are as doubtful as the last one that
// does not.
void add_ends(std::vector<PrintTone>& far, std::vector<PrintTone> close) {
    const double first = far.front().over_paper, last = far.back().over_paper, thin = far.front().error,
                 dense = far.back().error;
    for (PrintTone& tone : close) {
        if (tone.over_paper > first - kToneWidth / 2 && tone.over_paper < last + kToneWidth / 2) continue;
        tone.error = std::hypot(tone.error, tone.over_paper < first ? thin : dense);
        far.push_back(tone);
    }
    std::ranges::sort(far, {}, &PrintTone::over_paper);
}

// As far from handwork as tones allow. How much that changes the tones is what the handwork leaves open.
Unworked read_far_from(const std::vector<Seen>& all, const EvenGround& ground, const Handwork& work,
                       std::span<const WorkedNode> nodes) {
    Unworked close = read_apart(all, ground, work, nodes, 0);
    if (nodes.empty() || close.tones.empty()) return close;
    for (const double rim : kRims) {
        Unworked far = read_apart(all, ground, work, nodes, rim * std::max(ground.columns, ground.rows));
        if (far.tones.empty() || double(far.tones.size()) < kTonesLeft * double(close.tones.size())) continue;
        for (PrintTone& tone : far.tones)
            tone.error = std::hypot(tone.error, tone.density - density_at(close.tones, tone.over_paper));
        add_ends(far.tones, tones_of(all, close.counted, ground, curve_of(all, close.counted, far.falloff),
                                     far.falloff));
        return far;
    }
    return close;
}

// A hand that changed the light of most of the frame leaves open what the enlarger alone gave: any light that
// much of the frame has may be it. By how much that may be off; log10.
double level_doubt(const EvenGround& ground, const LightGrid& grid) {
    std::vector<double> lights;
    for (const EvenSquare& square : ground.squares)
        if (!square.is_clipped) lights.push_back(grid.at(square.column + 0.5, square.row + 0.5));
    std::ranges::sort(lights);
    const auto with = [&lights](double level) {
        return std::ranges::upper_bound(lights, level + kWorked) -
               std::ranges::lower_bound(lights, level - kWorked);
    };
    std::ptrdiff_t most = 0;
    for (double level = lights.front(); level <= lights.back(); level += kLightStep)
        most = std::max(most, with(level));
    double farthest = 0;
    for (double level = lights.front(); level <= lights.back(); level += kLightStep)
        if (double(with(level)) >= kAsMuchUnworked * double(most))
            farthest = std::max(farthest, std::abs(level));
    return std::max(0.0, farthest - kWorked);
}

void tell_doubt_of_level(std::vector<PrintTone>& tones, double doubt) {
    std::vector<double> slopes;
    for (std::size_t i = 0; i < tones.size(); ++i) {
        const PrintTone &one = tones[i > 0 ? i - 1 : 0], &next = tones[std::min(i + 1, tones.size() - 1)];
        slopes.push_back((next.density - one.density) / (next.over_paper - one.over_paper));
    }
    for (std::size_t i = 0; i < tones.size(); ++i)
        tones[i].error = std::hypot(tones[i].error, doubt * slopes[i]);
}

}  // namespace

double FilmOverPaper::density(double negative) const {
    return -std::log10((1 - flare) * std::pow(10.0, -callier * negative) + flare * mean_transmitted);
}

std::optional<PrintCurve> print_curve(const EvenGround& ground, const FilmOverPaper& film) {
    std::vector<Seen> all;
    PrintCurve found;
    found.counted.assign(ground.squares.size(), 0);
    for (std::size_t i = 0; i < ground.squares.size(); ++i) {
        const EvenSquare& square = ground.squares[i];
        if (square.is_clipped) continue;
        all.push_back({film.density(square.negative), square.place.squared_radius(), square.density, i});
        found.counted[i] = 1;
    }
    if (all.size() < kFewestReadTones * kFewestSquares) return std::nullopt;
    std::vector<ToneSquare> squares;
    for (const Seen& seen : all) {
        const EvenSquare& square = ground.squares[seen.square];
        squares.push_back({square.column, square.row, seen.squared_radius, seen.over_paper, seen.density});
    }
    // Falloff and handwork look alike: each pass knows the falloff of the ground that the last left unworked.
    FalloffKnown known = kUsualFalloff;
    for (int pass = 0; pass < kPasses; ++pass) {
        found.work = handwork_on(squares, ground.columns, ground.rows, known);
        const std::vector<WorkedNode> nodes = worked_nodes(found.work.grid);
        Unworked read = read_far_from(all, ground, found.work, nodes);
        found.counted = std::move(read.counted), found.tones = std::move(read.tones);
        found.falloff = read.falloff;
        if (nodes.empty() || std::abs(read.falloff - known.usual) < kSettledFalloff) break;
        known = {read.falloff, kFalloffAsRead};
    }
    if (found.tones.size() < kFewestReadTones) return std::nullopt;
    if (!worked_nodes(found.work.grid).empty())
        tell_doubt_of_level(found.tones, level_doubt(ground, found.work.grid));
    return found;
}

double PrintCurve::density(double over_paper) const {
    return density_at(tones, over_paper);
}

std::optional<double> PrintCurve::over_paper(double asked) const {
    // Least change of density per change of log light that still tells light from density. Judgement.
    constexpr double kLeastSlope = 0.15;
    for (std::size_t i = 0; i + 1 < tones.size(); ++i) {
        const PrintTone &dark = tones[i], &light = tones[i + 1];
        if (asked > dark.density || asked < light.density) continue;
        const double fall = dark.density - light.density, width = light.over_paper - dark.over_paper;
        if (fall < kLeastSlope * width) return std::nullopt;
        return dark.over_paper + width * (dark.density - asked) / fall;
    }
    return std::nullopt;
}

}  // namespace fogproof::reading
