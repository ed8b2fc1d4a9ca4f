// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/proposed_place.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/stop.hpp"
#include "choose/smooth_part.hpp"
#include "fogproof/print/print_steps.hpp"
#include "print/response.hpp"

namespace fogproof::choose {
namespace {

// Judgement, all of them. A part counts that is off by more than kOff on the whole of it; a work is worth its
// trouble that brings the picture closer by kWorth and the part itself by kWorthThere, rms L*.
constexpr double kOff = 2, kWorth = 0.1, kWorthThere = 0.5;
constexpr double kMostBurnt = 2.5, kMostDodged = 1.5, kStopsTried = 0.1;  // stops
constexpr double kMostShift = 0.3;              // log exposure of the whole print: a stop
constexpr double kMostOverdone = 1;             // L* past what is wanted; more would show as a patch
constexpr double kMostMiss = 8;                 // L*; more of it makes no part of others
constexpr std::array kSofts{0.02, 0.04, 0.07};  // how far pixels are seen together, of the longer side
constexpr std::array kParts{0.75 * kOff, kOff, 1.5 * kOff};

double stops_as_log(const Enlarger& enlarger, double stops) {
    return stops * kLogPerStop * enlarger.reciprocity;
}

// L* over log exposure, to be asked by the ten million.
class Line {
  public:
    Line(const MonotoneCurve& curve, double from, double to) : from_(from) {
        for (double at = from; at < to + 2 * kNode; at += kNode) lightness_.push_back(curve(at));
    }
    double operator()(double log_h) const {
        const double place = std::clamp((log_h - from_) / kNode, 0.0, double(lightness_.size()) - 1.001);
        const auto cell = std::size_t(place);
        return std::lerp(lightness_[cell], lightness_[cell + 1], place - double(cell));
    }

  private:
    static constexpr double kNode = 0.01;
    double from_;
    std::vector<double> lightness_;
};

// Every pixel of a small negative: the light it gets and the L* it should have.
struct Pixels {
    std::vector<double> log_h, wanted, off;
};

// By the tones on both sides; those that are wanted twice count by their shares.
class WantedLightness {
  public:
    explicit WantedLightness(const Wanted& wanted) {
        std::vector<std::size_t> order(wanted.tones.size());
        for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
        std::ranges::stable_sort(order, {}, [&](std::size_t i) { return wanted.tones[i].density; });
        for (const std::size_t i : order) {
            density_.push_back(wanted.tones[i].density.value);
            lightness_.push_back(wanted.lightness[i]);
        }
    }
    double operator()(double density) const {
        const auto above = std::ranges::lower_bound(density_, density);
        if (above == density_.begin()) return lightness_.front();
        if (above == density_.end()) return lightness_.back();
        const auto i = std::size_t(above - density_.begin());
        const double wide = density_[i] - density_[i - 1];
        return wide <= 0 ? lightness_[i]
                         : std::lerp(lightness_[i - 1], lightness_[i], (density - density_[i - 1]) / wide);
    }

  private:
    std::vector<double> density_, lightness_;
};

struct Distance {
    double all = 0, there = 0, off = 0;  // rms of all pixels, of those of a part; mean of the part
    double seen = 0;                     // of all, by the measure that exposures are judged by
    double shift = 0;                    // log exposure of the whole print from that without the work
};

// What a candidate is held against: pixels, the paper's line and the eye's adaptation.
struct Trial {
    const Pixels& pixels;
    const Line& line;
    Adaptation eye;

    // `more`: log exposure where the mask is full, beside that of the whole.
    [[nodiscard]] Distance at(const std::vector<float>& level, double more, double shift) const {
        double all = 0, there = 0, off = 0, weight = 0, seen = 0;
        for (std::size_t i = 0; i < pixels.log_h.size(); ++i) {
            const double l = line(pixels.log_h[i] + shift + more * double(level[i]));
            const double miss = l - pixels.wanted[i], by_eye = eye.miss(l, pixels.wanted[i]);
            all += miss * miss;
            seen += by_eye * by_eye;
            there += double(level[i]) * miss * miss;
            off += double(level[i]) * miss;
            weight += double(level[i]);
        }
        return {std::sqrt(all / double(pixels.log_h.size())), std::sqrt(there / weight), off / weight, seen,
                shift};
    }
    // At the exposure of the whole that start would choose with the work: from a first guess on.
    [[nodiscard]] Distance exposed(const std::vector<float>& level, double more, double guess) const {
        constexpr double kFinestShift = 0.015;  // a twentieth of a stop
        Distance best = at(level, more, guess);
        for (const double step : {kFinestShift, -kFinestShift})
            while (std::abs(best.shift) < kMostShift) {
                const Distance next = at(level, more, best.shift + step);
                if (next.seen >= best.seen) break;
                best = next;
            }
        return best;
    }
};

struct Best {
    double all = 1e9, stops = 0;
    LocalWork::Kind kind = LocalWork::Kind::burn;
    std::vector<float> level;
    Distance before, after;
};

// The stops that bring the picture closest, by steps that a printer sets.
void look_at(Best& best, LocalWork::Kind kind, std::vector<float> level, const Trial& trial,
             const Enlarger& enlarger) {
    constexpr int kPatience = 3;  // steps without a gain
    const bool burns = kind == LocalWork::Kind::burn;
    const Distance before = trial.at(level, 0, 0);
    if ((burns ? before.off : -before.off) <= kOff) return;
    double stops = 0, shift = 0;
    Distance after = before;
    int idle = 0;
    for (double tried = kStopsTried; idle < kPatience && tried <= (burns ? kMostBurnt : kMostDodged) + 0.01;
         tried += kStopsTried) {
        const Distance then = trial.exposed(level, stops_as_log(enlarger, burns ? tried : -tried), shift);
        if ((burns ? -then.off : then.off) > kMostOverdone) break;
        shift = then.shift;
        ++idle;
        if (then.all >= after.all) continue;
        idle = 0;
        after = then;
        stops = tried;
    }
    if (stops <= 0 || after.all >= best.all || after.all > before.all - kWorth ||
        after.there > before.there - kWorthThere)
        return;
    best = {after.all, stops, kind, std::move(level), before, after};
}

}  // namespace

std::optional<ProposedPlace> proposed_place(const Printing& printing, const Wanted& wanted,
                                            const StartingPoint& point, const TonePlane& negative) {
    const SmallPlane plane = made_small(negative);
    const Enlarger& enlarger = printing.pack().darkroom.enlarger;
    const double log_h = exposure_of(std::log10(point.proof.exposures.front().value), enlarger).value;
    const WantedLightness wanted_of(wanted);
    Pixels pixels;
    for (const NegativeDensity density : plane.density) {
        pixels.log_h.push_back(log_h + printing.light().log_light(density));
        pixels.wanted.push_back(wanted_of(density.value));
    }
    const auto [dimmest, brightest] = std::ranges::minmax(pixels.log_h);
    const double least = dimmest - stops_as_log(enlarger, kMostDodged) - 2 * kMostShift,
                 most = brightest + stops_as_log(enlarger, kMostBurnt) + 2 * kMostShift;
    const Response response(printing.paper(), enlarger,
                            unit_steps(printing.pack(), printing.paper(), point.recipe));
    const Line line(response.lightness_between({least}, {most + 0.05}), least, most);
    for (std::size_t i = 0; i < pixels.log_h.size(); ++i)
        pixels.off.push_back(line(pixels.log_h[i]) - pixels.wanted[i]);

    const Trial trial{pixels, line, Adaptation::between(response.border().lab.l, wanted.white)};
    Best best;
    for (const auto kind : {LocalWork::Kind::burn, LocalWork::Kind::dodge}) {
        std::vector<float> need;
        for (const double off : pixels.off)
            need.push_back(
                float(std::clamp(kind == LocalWork::Kind::burn ? off : -off, -kMostMiss, kMostMiss)));
        for (const double soft : kSofts) {
            const std::vector<float> together = blurred(need, plane.width, plane.height, soft);
            for (const double from : kParts)
                for (auto& part : smooth_parts(together, plane.width, plane.height, float(from)))
                    look_at(best, kind, std::move(part), trial, enlarger);
        }
    }
    if (best.stops <= 0) return std::nullopt;

    ProposedPlace place{best.kind, best.stops, plane.width,     plane.height,  {},
                        0,         0,          best.before.off, best.after.off};
    double weight = 0;
    for (std::size_t i = 0; i < best.level.size(); ++i) {
        const double level = best.level[i];
        const std::size_t x = i % std::size_t(plane.width), y = i / std::size_t(plane.width);
        place.level.push_back(std::uint16_t(std::lround(65535 * level)));
        place.across += level * (double(x) + 0.5) / plane.width;
        place.down += level * (double(y) + 0.5) / plane.height;
        weight += level;
    }
    place.across /= weight;
    place.down /= weight;
    return place;
}

}  // namespace fogproof::choose
