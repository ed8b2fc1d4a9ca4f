// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/time_doubts.hpp"

#include <algorithm>
#include <boost/math/tools/minima.hpp>
#include <cmath>
#include <map>
#include <memory>

#include "choose/lightness_curve.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/uncertainty.hpp"
#include "print/clearing.hpp"

namespace fogproof::choose {
namespace {

constexpr std::size_t kTones = 40;  // enough for the exposure to move by less than 0.002 in log10
constexpr double kReach = 0.8;      // log10 exposure either side of the recipe's
constexpr double kShortest_s = 1e-3;

// What filters depend on: grains but for their speed, and how plain silver looks.
struct FilterGround {
    Grains grains;
    SheetConstants sheet;
    std::vector<PackFilter> filters;
    friend bool operator==(const FilterGround&, const FilterGround&) = default;
};
FilterGround ground_of(const Pack& pack, const PaperModel& paper) {
    FilterGround ground{paper.emulsion.grains, pack.sheet, pack.filters};
    ground.grains.log_threshold = 0;
    ground.sheet.thinned_tone = ground.sheet.redeveloped_tone = ground.sheet.stain = 0;
    return ground;
}

// One state of the pack, asked for all recipes.
class State {
  public:
    State(const Pack& pack, const Easel& easel, std::shared_ptr<const ShareTable> table)
        : pack_(pack),
          paper_(paper_model(pack)),
          table_(table->serves(paper_.emulsion.grains)
                     ? std::move(table)
                     : std::make_shared<const ShareTable>(paper_.emulsion.grains)),
          population_(paper_.emulsion.grains, table_),
          mean_(easel.frame().mean_transmitted(pack.enlarger.callier)) {}

    [[nodiscard]] const Pack& pack() const { return pack_; }
    [[nodiscard]] const PaperModel& paper() const { return paper_; }
    [[nodiscard]] double log_light(NegativeDensity at) const {
        return std::log10(transmitted(at, mean_, pack_.enlarger));
    }
    [[nodiscard]] FilterGround ground() const { return ground_of(pack_, paper_); }
    [[nodiscard]] FilterSet filters() const { return {pack_, paper_, table_}; }

    [[nodiscard]] LightnessCurve curve(const DevelopStep& step, const Filter& filter,
                                       const Finishing& finishing, double from, double to) const {
        return {paper_, Developer(paper_.emulsion, step, population_), filter, finishing, from, to};
    }
    [[nodiscard]] LightnessCurve fresh_curve(const Filter& filter, double from, double to) const {
        const PaperModel fresh = before_fog(paper_);
        const Developer developer(fresh.emulsion, nominal_step(pack_.development), population_);
        return {fresh, developer, filter, {}, from, to};
    }

  private:
    const Pack& pack_;
    PaperModel paper_;
    std::shared_ptr<const ShareTable> table_;
    GrainPopulation population_;
    double mean_;
};

// Neighbouring tones of what is wanted taken together.
Wanted gathered(const Wanted& wanted) {
    const auto [thinnest, densest] =
        std::ranges::minmax(wanted.tones, {}, [](const Tone& tone) { return tone.density; });
    const double width = std::max(densest.density.value - thinnest.density.value, 1e-6) / kTones;
    std::map<int, std::pair<Tone, double>> bins;
    for (std::size_t i = 0; i < wanted.tones.size(); ++i) {
        const Tone& tone = wanted.tones[i];
        auto& [sum, lightness] = bins[int((tone.density - thinnest.density).value / width)];
        sum.density = sum.density + tone.share * tone.density;
        sum.share += tone.share;
        lightness += tone.share * wanted.lightness[i];
    }
    Wanted few{{}, {}, wanted.fresh, wanted.white};
    for (const auto& [bin, sums] : bins) {
        const auto& [tone, lightness] = sums;
        if (tone.share <= 0) continue;
        few.tones.push_back({1 / tone.share * tone.density, tone.share});
        few.lightness.push_back(lightness / tone.share);
    }
    return few;
}

class Asked {
  public:
    Asked(const Easel& easel, const Wanted& wanted, std::span<const StartingPoint> points)
        : easel_(easel),
          wanted_(gathered(wanted)),
          points_(points),
          table_(std::make_shared<const ShareTable>(easel.paper().emulsion.grains)) {
        const State here(easel.pack(), easel, table_);
        ground_ = here.ground();
        lights_ = filters_on(here);
        const double thin = here.log_light(easel.frame().quantile(0)),
                     dense = here.log_light(easel.frame().quantile(1));
        speed_point_ = speed_point(here, fresh_curve(here, lights_.back(), dense, thin));
    }

    // Exposure and bleach of every recipe in log10 seconds, then three tones of the fresh print. Prints may
    // all come out darker than their curve.
    [[nodiscard]] std::vector<double> operator()(const Pack& pack, PrintDensity darker = {}) const {
        const State state(pack, easel_, table_);
        const auto lights = state.ground() == ground_ ? lights_ : filters_on(state);
        std::vector<double> log_light;
        for (const Tone& tone : wanted_.tones) log_light.push_back(state.log_light(tone.density));
        const auto [dimmest, brightest] = std::ranges::minmax(log_light);

        const LightnessCurve fresh = fresh_curve(state, lights.back(), dimmest, brightest);
        const double fresh_at = easel_.target().exposure.value + speed_point(state, fresh) - speed_point_;
        std::vector<double> wished = wanted_.lightness;
        if (wanted_.fresh)
            for (std::size_t i = 0; i < wished.size(); ++i) wished[i] = fresh(fresh_at + log_light[i]);
        const auto white = wanted_.fresh && wanted_.white ? std::optional(fresh.border()) : wanted_.white;
        const auto comes_out = [&](double lightness) {
            return darker == PrintDensity{} ? lightness : darkened(lightness, darker);
        };

        std::vector<double> answers;
        for (std::size_t p = 0; p < points_.size(); ++p) {
            const StartingPoint& point = points_[p];
            const DevelopStep step = develop_step(pack, point.recipe);
            const double share = point.proof.clearing_percent.value_or(0) / 100;
            const double dose = share * clearing_dose(state.paper(), step).value_or(0);
            const double needed = share * clearing_dose(state.paper(), step, darker).value_or(0);
            const double guess = point.found.exposure.value;
            const LightnessCurve curve =
                state.curve(step, lights[p], {dose, Seconds{point.recipe.redevelop_s}},
                            guess - kReach + dimmest, guess + kReach + brightest);
            // The eye stays with the likely border: how a sheet's own density divides between border and
            // picture nobody knows, and a shift of both alike would be adapted away as if it did no harm.
            const Adaptation seen = Adaptation::between(curve.border(), white);
            const auto miss = [&](double log_h) {
                double sum = 0;
                for (std::size_t i = 0; i < wished.size(); ++i)
                    sum += wanted_.tones[i].share *
                           std::pow(seen.miss(comes_out(curve(log_h + log_light[i])), wished[i]), 2);
                return sum;
            };
            const double log_h =
                boost::math::tools::brent_find_minima(miss, guess - kReach, guess + kReach, 14).first;
            answers.push_back(std::log10(time_giving({log_h}, pack.enlarger).value));
            answers.push_back(std::log10(
                std::max(bleach_time(state.paper().bleach, bleach_bath(pack, point.recipe), needed).value,
                         kShortest_s)));
        }
        for (const double end : {kThinEnd, 0.5, kDenseEnd})
            answers.push_back(fresh(fresh_at + state.log_light(easel_.frame().quantile(end))));
        return answers;
    }

  private:
    [[nodiscard]] LightnessCurve fresh_curve(const State& state, const Filter& filter, double dimmest,
                                             double brightest) const {
        constexpr double kRoom = 1.5;
        const double about =
            easel_.target().exposure.value + state.pack().speed_log_s - easel_.pack().speed_log_s;
        return state.fresh_curve(filter, about + dimmest - kRoom, about + brightest + kRoom);
    }

    // Log exposure that prints 0.60 above white, the best-read point of any curve: the fresh print is held
    // there. Its toe, which lies under the fog, goes where the pack takes it.
    [[nodiscard]] double speed_point(const State& state, const LightnessCurve& fresh) const {
        const double wanted = lightness(state.paper().sheet.white() + PrintDensity{0.60});
        double lighter = fresh.from(), darker = fresh.to();
        while (darker - lighter > 1e-6) {
            const double middle = (lighter + darker) / 2;
            (fresh(middle) > wanted ? lighter : darker) = middle;
        }
        return lighter;
    }

    // Of every recipe, then of the fresh print.
    [[nodiscard]] std::vector<Filter> filters_on(const State& state) const {
        const FilterSet set = state.filters();
        std::vector<Filter> filters;
        for (const auto& point : points_) filters.push_back(set.at(point.found.grade));
        filters.push_back(set.at(easel_.target().grade));
        return filters;
    }

    const Easel& easel_;
    Wanted wanted_;
    std::span<const StartingPoint> points_;
    std::shared_ptr<const ShareTable> table_;
    FilterGround ground_;
    std::vector<Filter> lights_;
    double speed_point_ = 0;
};

}  // namespace

TimeDoubts time_doubts(const Easel& easel, const Wanted& wanted, std::span<const StartingPoint> points) {
    const Asked asked(easel, wanted, points);
    auto deviation = deviations([&](const Pack& pack) { return asked(pack); }, easel.pack());
    // What no number of the pack explains. A fresh print is a law, not a sheet: its tones keep their doubts.
    if (const PrintDensity scatter{unexplained_scatter(easel.pack())}; scatter.value > 0) {
        const auto likely = asked(easel.pack()), darker = asked(easel.pack(), scatter);
        for (std::size_t i = 0; i < 2 * points.size(); ++i)
            deviation[i] = std::hypot(deviation[i], darker[i] - likely[i]);
    }
    TimeDoubts doubts;
    for (std::size_t p = 0; p < points.size(); ++p)
        doubts.points.push_back({deviation[2 * p], deviation[2 * p + 1]});
    const auto half = [&](std::size_t i) { return kWithin95Percent * deviation[2 * points.size() + i]; };
    doubts.target = {half(0), half(1), half(2)};
    return doubts;
}

}  // namespace fogproof::choose
