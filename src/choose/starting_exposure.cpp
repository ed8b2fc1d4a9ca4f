// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/choose/starting_exposure.hpp"

#include <algorithm>
#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <limits>
#include <vector>

#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_steps.hpp"
#include "fogproof/print/response.hpp"

namespace fogproof {
namespace {

constexpr double kReach = 1.2;  // log10 either side of the fresh exposure: four stops
constexpr double kGrid = 0.1;   // a third of a stop; the error has one valley at this scale
constexpr double kFullBlack = 0.04;

// Response to a unit exposure: the recipe's exposures with their stops, or its seconds as shares.
Response unit_response(const Pack& pack, const PaperModel& paper, const Recipe& recipe) {
    return {paper, pack.enlarger, print_steps(pack, paper, recipe, Seconds{1})};
}

// L* against another white: X/Xw under the cube root of CIE 15 scales L* + 16 (above L* 8 exactly, below it
// by a trifle less, which no search feels).
double adaptation(double white_lightness) {
    return 116 / (white_lightness + 16);
}
double adapted(double lightness, double factor) {
    return (lightness + 16) * factor - 16;
}

}  // namespace

Seconds starting_exposure(const Tones& frame, std::span<const Tone> tones, const FreshTarget& target,
                          const Pack& pack, const PaperModel& paper, const Recipe& recipe) {
    Recipe unit = recipe;
    for (auto& exposure : unit.exposures)
        if (std::holds_alternative<Seconds>(exposure.amount)) exposure.amount = Stops{0};
    const Response response = unit_response(pack, paper, unit);
    const double mean = frame.mean_transmitted(pack.enlarger.callier);
    std::vector<double> log_light;
    for (const Tone& tone : tones)
        log_light.push_back(std::log10(transmitted(tone.density, mean, pack.enlarger)));

    const auto [dimmest, brightest] = std::ranges::minmax(log_light);
    constexpr double kBeyond = kReach + 2 * kGrid;
    const MonotoneCurve lightness = response.lightness_between({target.exposure.value + dimmest - kBeyond},
                                                               {target.exposure.value + brightest + kBeyond});

    // Both prints as the adapted eye sees them, each against its own white.
    const double own = adaptation(response.border().lab.l), fresh = adaptation(target.white_lightness);
    const auto error = [&](double log_h) {
        double sum = 0;
        for (std::size_t i = 0; i < tones.size(); ++i) {
            const double here = adapted(lightness(log_h + log_light[i]), own);
            const double miss = here - adapted(target.lightness[i], fresh);
            sum += tones[i].share * miss * miss;
        }
        return std::sqrt(sum);
    };

    double best = target.exposure.value, least = std::numeric_limits<double>::infinity();
    for (double shift = -kReach; shift <= kReach + kGrid / 2; shift += kGrid) {
        const double at = error(target.exposure.value + shift);
        if (at < least) {
            least = at;
            best = target.exposure.value + shift;
        }
    }
    const double log_h = boost::math::tools::brent_find_minima(error, best - kGrid, best + kGrid, 16).first;
    return time_giving({log_h}, pack.enlarger);
}

Seconds shortest_black(const Pack& pack, const PaperModel& paper, double grade) {
    return shortest_black(pack, paper, filter_for(pack, paper, grade));
}

Seconds shortest_black(const Pack& pack, const PaperModel& paper, const Filter& filter) {
    PaperModel fresh = paper;
    fresh.emulsion.fog.share = 0;
    const PrintModel print(fresh, pack.enlarger, {{}, {}, develop_step(pack, {}), 0, {}}, 0);
    const auto density = [&](double log_h) {
        const double h = std::pow(10.0, log_h);
        return print.lit({h * filter.blue, h * filter.green}).density.value;
    };
    constexpr double kDark = -6, kDazzling = 8;
    const double black = density(kDazzling) - kFullBlack;
    boost::math::tools::eps_tolerance<double> close(40);
    std::uintmax_t rounds = 100;
    const auto [low, high] = boost::math::tools::toms748_solve(
        [&](double log_h) { return density(log_h) - black; }, kDark, kDazzling, close, rounds);
    return time_giving({(low + high) / 2}, pack.enlarger);
}

Pack anchored_by_black(Pack pack, Seconds time, double grade) {
    pack.enlarger.anchor = pack.enlarger.setting;
    pack.anchored = true;
    const Seconds now = shortest_black(pack, paper_model(pack), grade);
    pack.speed_log_s += pack.enlarger.reciprocity * std::log10(time.value / now.value);
    pack.knowledge["speed.log_seconds"] = {Origin::given, std::nullopt};
    return pack;
}

}  // namespace fogproof
