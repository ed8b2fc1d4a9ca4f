// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/starting_exposure.hpp"

#include <algorithm>
#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <functional>
#include <limits>
#include <optional>
#include <vector>

#include "enlarger/frame_light.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "print/clearing.hpp"
#include "print/response.hpp"

namespace fogproof::choose {
namespace {

constexpr double kExposureReach = 1.2;  // log10 either side of the fresh exposure: four stops
constexpr double kExposureGrid = 0.1;   // a third of a stop; the error has one valley at this scale

Recipe pulled_in_time(const Pack& pack, const PaperModel& paper, Recipe recipe) {
    if (bleach_step(pack, paper, recipe).clearing_percent.value_or(0) > kMostMadeUpFor)
        recipe.bleach = ClearingPercent{kMostMadeUpFor};
    return recipe;
}

// The recipe's exposures that the search moves: those in stops, or all where there are none.
Recipe moved(Recipe recipe) {
    if (needs_start(recipe))
        std::erase_if(recipe.exposures,
                      [](const auto& e) { return std::holds_alternative<Seconds>(e.amount); });
    return recipe;
}

// Light of the exposures that stay, where the negative lets all through.
EaselLight staying(const Pack& pack, const PaperModel& paper, Recipe recipe) {
    if (!needs_start(recipe)) return {};
    std::erase_if(recipe.exposures, [](const auto& e) { return std::holds_alternative<Stops>(e.amount); });
    const PrintSteps steps = print_steps(pack, paper, recipe, std::nullopt);
    Enlarger clear = pack.darkroom.enlarger;
    clear.flare = 0;
    return light_at_easel({0}, 0, clear, steps.exposures);
}

// L* of every tone at an exposure.
class Lightnesses {
  public:
    Lightnesses(const Pack& pack, const PaperModel& paper, const Recipe& recipe, const Wanted& wanted,
                const FrameLight& light, double from, double to)
        : staying_(staying(pack, paper, recipe)) {
        std::vector<PlaceWork> lines;
        const PrintSteps steps = unit_steps(pack, paper, moved(recipe));
        for (const Tone& tone : wanted.tones) {
            const PlaceWork work = wanted.work_at(tone);
            log_light_.push_back(light.log_light(tone) + work.shift());
            line_.push_back(line_of(work, lines));
            if (line_.back() == responses_.size())
                responses_.emplace_back(paper, pack.darkroom.enlarger, worked_on(steps, pack, paper, work),
                                        work.fog);
        }
        const auto [dimmest, brightest] = std::ranges::minmax(log_light_);
        if (stays()) return;
        for (const Response& response : responses_)
            curves_.push_back(response.lightness_between({from + dimmest}, {to + brightest}));
    }
    [[nodiscard]] double operator()(std::size_t tone, double log_h) const {
        if (!curves_.empty()) return curves_[line_[tone]](log_h + log_light_[tone]);
        return responses_[line_[tone]].beside(staying_, std::pow(10.0, log_light_[tone]), {log_h}).lab.l;
    }

  private:
    [[nodiscard]] bool stays() const { return staying_.blue > 0 || staying_.green > 0; }

    static PrintSteps worked_on(PrintSteps steps, const Pack& pack, const PaperModel& paper,
                                const PlaceWork& work) {
        if (work.bleach.value > 0)
            steps.finishing.bleach_dose += bleach_dose(paper.bleach, pack.darkroom.bath, work.bleach);
        if (work.burns.empty()) return steps;
        const double all = exposed(steps).value;
        const double own = std::pow(10.0, work.log_light / pack.darkroom.enlarger.reciprocity);
        for (Exposure& exposure : steps.exposures) exposure.time = own * exposure.time;
        for (const PlaceWork::Burn& burn : work.burns)
            steps.exposures.push_back({filter_for(pack, paper, burn.grade), Seconds{burn.ratio * all}});
        return steps;
    }

    std::vector<Response> responses_;  // by what places share
    EaselLight staying_;
    std::vector<double> log_light_;
    std::vector<std::size_t> line_;  // of each tone, in responses_
    std::vector<MonotoneCurve> curves_;
};

double log_threshold(const PaperModel& paper, const DevelopStep& step) {
    return Developer(paper.emulsion, step).log_threshold();
}

}  // namespace

std::optional<double> most_made_up_for(const PaperModel& paper, const DevelopStep& step) {
    const auto clears = clearing_dose(paper, step);
    return clears ? std::optional(kMostMadeUpFor / 100 * *clears) : std::nullopt;
}

Seconds starting_exposure(const Tones& frame, const Wanted& wanted, LogExposure fresh, const Pack& pack,
                          const PaperModel& paper, const Recipe& asked) {
    Recipe recipe = pulled_in_time(pack, paper, asked);
    recipe.local.clear();  // `wanted` knows what it does
    const double slower =
        log_threshold(paper, develop_step(pack, recipe)) - log_threshold(paper, develop_step(pack, Recipe{}));
    const double middle = fresh.value + slower;
    const FrameLight light(frame, pack.darkroom.enlarger);
    constexpr double kBeyond = kExposureReach + 2 * kExposureGrid;
    const Lightnesses lightness(pack, paper, recipe, wanted, light, middle - kBeyond, middle + kBeyond);

    const Adaptation seen = Adaptation::between(
        Response(paper, pack.darkroom.enlarger, unit_steps(pack, paper, moved(recipe))).border().lab.l,
        wanted.white);
    const auto error = [&](double log_h) {
        double sum = 0;
        for (std::size_t i = 0; i < wanted.tones.size(); ++i)
            sum += wanted.tones[i].share * std::pow(seen.miss(lightness(i, log_h), wanted.lightness[i]), 2);
        return std::sqrt(sum);
    };

    double best = middle, least = std::numeric_limits<double>::infinity();
    for (double shift = -kExposureReach; shift <= kExposureReach + kExposureGrid / 2;
         shift += kExposureGrid) {
        const double at = error(middle + shift);
        if (at < least) {
            least = at;
            best = middle + shift;
        }
    }
    const double log_h =
        boost::math::tools::brent_find_minima(error, best - kExposureGrid, best + kExposureGrid, 16).first;
    return time_giving({log_h}, pack.darkroom.enlarger);
}

double log_exposure_of_black(const Pack& pack, const PaperModel& paper, const Filter& filter,
                             double short_by) {
    const TreatedSheet sheet(before_fog(paper), nominal_step(pack.development));
    const auto density = [&](double log_h) {
        const double h = std::pow(10.0, log_h);
        return sheet.lit({h * filter.blue, h * filter.green}).density.value;
    };
    constexpr double kDark = -6, kDazzling = 8;
    const double black = density(kDazzling) - short_by;
    boost::math::tools::eps_tolerance<double> close(40);
    std::uintmax_t rounds = 100;
    const auto [low, high] = boost::math::tools::toms748_solve(
        [&](double log_h) { return density(log_h) - black; }, kDark, kDazzling, close, rounds);
    return (low + high) / 2;
}

Seconds shortest_black(const Pack& pack, const PaperModel& paper, double grade) {
    return shortest_black(pack, paper, filter_for(pack, paper, grade));
}

Seconds shortest_black(const Pack& pack, const PaperModel& paper, const Filter& filter) {
    return time_giving({log_exposure_of_black(pack, paper, filter, kFullBlack)}, pack.darkroom.enlarger);
}

double black_stops(const Pack& pack, const PaperModel& paper, std::span<const Exposure> exposures) {
    const Enlarger& enlarger = pack.darkroom.enlarger;
    Filter mixed{0, 0};
    double all = 0;
    for (const Exposure& each : exposures) {
        const double h = std::pow(10.0, exposure_of(std::log10(each.time.value), enlarger).value);
        all += h;
        mixed.blue += h * each.filter.blue, mixed.green += h * each.filter.green;
    }
    mixed.blue /= all, mixed.green /= all;
    // A stop of all times is a stop of light to the power by which seconds count.
    const double beyond = std::log10(all) - log_exposure_of_black(pack, paper, mixed, kFullBlack);
    return std::log2(10.0) * beyond / enlarger.reciprocity;
}

}  // namespace fogproof::choose
