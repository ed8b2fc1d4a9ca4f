// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/drawn_paper.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "base/stop.hpp"
#include "choose/closeness.hpp"
#include "fogproof/emulsion/paper_numbers.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/uncertainty.hpp"
#include "print/clearing.hpp"

namespace fogproof::choose {
namespace {

constexpr double kReach = 1.2;  // log10 either side of the fresh exposure: four stops
constexpr double kShortest_s = 1e-3;

constexpr double kSameGrade = 1e-9;

std::pair<double, double> minmax_of(const std::vector<double>& values) {
    const auto [least, most] = std::ranges::minmax(values);
    return {least, most};
}

double longest_bleach_s(const Printing& printing) {
    const double most = 2 * depth_unit(printing.paper(), nominal_step(printing.pack().development));
    return bleach_time(printing.paper().bleach, printing.pack().darkroom.bath, most).value;
}

// Within a twelfth of a stop, a second of bleach, and a twelfth of the edge's fog.
bool is_alike(const PlaceWork& a, const PlaceWork& b) {
    constexpr double kSameLight = 0.025, kSameBleach_s = 1, kSameFog = 1.0 / 12, kSameRatio = 0.05;
    return std::abs(a.log_light - b.log_light) <= kSameLight &&
           std::abs(a.bleach.value - b.bleach.value) <= kSameBleach_s &&
           std::abs(a.fog - b.fog) <= kSameFog &&
           std::ranges::equal(a.burns, b.burns, [](const PlaceWork::Burn& one, const PlaceWork::Burn& other) {
               return one.grade == other.grade && std::abs(one.ratio - other.ratio) <= kSameRatio;
           });
}

// Of each place the first that is worked on much like it.
std::vector<std::size_t> alike_places(const std::vector<PlaceWork>& places) {
    std::vector<std::size_t> like;
    for (const PlaceWork& work : places) {
        const auto first =
            std::ranges::find_if(places, [&](const PlaceWork& other) { return is_alike(other, work); });
        like.push_back(std::size_t(first - places.begin()));
    }
    return like;
}

}  // namespace

Wanted gathered(const Wanted& wanted, std::size_t most) {
    const auto [thinnest, densest] =
        std::ranges::minmax(wanted.tones, {}, [](const Tone& tone) { return tone.density; });
    const double width = std::max(densest.density.value - thinnest.density.value, 1e-6) / double(most);
    // By density, then by place; what is placed differs from its neighbours and stays by itself.
    std::map<std::tuple<int, std::size_t, std::size_t>, std::pair<Tone, double>> bins;
    const std::vector<std::size_t> like = alike_places(wanted.places);
    for (std::size_t i = 0; i < wanted.tones.size(); ++i) {
        const Tone& tone = wanted.tones[i];
        const std::size_t as_picture = wanted.tones.size() - wanted.placed;
        auto& [sum, lightness] =
            bins[{int((tone.density - thinnest.density).value / width),
                  tone.place < like.size() ? like[tone.place] : tone.place, i < as_picture ? 0 : i}];
        sum.density = sum.density + tone.share * tone.density;
        sum.share += tone.share;
        lightness += tone.share * wanted.lightness[i];
    }
    Wanted few{{}, {}, wanted.fresh, wanted.white, wanted.places};
    for (const auto& [bin, sums] : bins) {
        const auto& [tone, lightness] = sums;
        if (tone.share <= 0) continue;
        few.tones.push_back({1 / tone.share * tone.density, tone.share, std::get<1>(bin)});
        few.lightness.push_back(lightness / tone.share);
    }
    return few;
}

DrawnPaper::DrawnPaper(PackDraw draw, const Printing& printing, const Wanted& few, const ReadWays& read,
                       std::optional<double> held)
    : draw_(std::move(draw)),
      paper_(paper_model(draw_.pack)),
      table_(std::make_shared<const ShareTable>(paper_.emulsion.grains)),
      population_(paper_.emulsion.grains, table_),
      filters_(draw_.pack, paper_, table_),
      lightness_(paper_, paper_.emulsion.grains.max_density * 1.05,
                 bleach_dose(paper_.bleach, draw_.pack.darkroom.bath, Seconds{longest_bleach_s(printing)}),
                 printing.toner(), BleachedLightness::kCoarse),
      read_(read),
      light_(printing.frame(), draw_.pack.darkroom.enlarger),
      usual_light_(printing.frame(), printing.pack().darkroom.enlarger),
      nominal_threshold_(
          Developer(paper_.emulsion, nominal_step(draw_.pack.development), population_).log_threshold()),
      white_(few.white),
      fresh_(fresh_curve(printing)),
      speed_point_(found_speed_point()),
      fresh_at_(printing.target().exposure.value + (held ? speed_point_ - *held : 0.0)) {
    for (const Tone& tone : few.tones) {
        const PlaceWork work = few.work_at(tone);
        wanted_.log_light.push_back(light_.log_light(tone) + work.shift());
        wanted_.share.push_back(tone.share);
        wanted_.line.push_back(line_of(work, lines_));
    }
    std::tie(wanted_.dimmest, wanted_.brightest) = minmax_of(wanted_.log_light);
    wanted_.lightness = few.lightness;
    if (!few.fresh) return;
    for (std::size_t i = 0; i < wanted_.lightness.size(); ++i)
        wanted_.lightness[i] = fresh_lightness(few.tones[i].density);
    if (white_) white_ = fresh_.border();
}

LightnessCurve DrawnPaper::fresh_curve(const Printing& printing) const {
    constexpr double kRoom = 1.5;
    const double about =
        printing.target().exposure.value + draw_.pack.speed_log_s - printing.pack().speed_log_s;
    const double brightest = light_.log_light(printing.frame().quantile(0)),
                 dimmest = light_.log_light(printing.frame().quantile(1));
    const FreshTarget& target = printing.target();
    const FreshSheet sheet = target.own_filter
                                 ? FreshSheet{before_fog(paper_), filters_.nearest(target.grade)}
                                 : fresh_graded(draw_.pack, target.grade);
    const Developer developer(sheet.paper.emulsion, nominal_step(draw_.pack.development),
                              target.own_filter ? population_ : GrainPopulation(sheet.paper.emulsion.grains));
    return {sheet.paper, developer, sheet.filter, {}, about + dimmest - kRoom, about + brightest + kRoom};
}

double DrawnPaper::found_speed_point() const {
    const double wanted = lightness(paper_.sheet.white() + PrintDensity{kIsoSpeed});
    double lighter = fresh_.from(), darker = fresh_.to();
    while (darker - lighter > 1e-6) {
        const double middle = (lighter + darker) / 2;
        (fresh_(middle) > wanted ? lighter : darker) = middle;
    }
    return lighter;
}

double DrawnPaper::log_h(double log_seconds) const {
    return exposure_of(log_seconds, draw_.pack.darkroom.enlarger).value + brighter_;
}

double DrawnPaper::log_seconds(double log_h) const {
    return std::log10(time_giving({log_h - brighter_}, draw_.pack.darkroom.enlarger).value);
}

void DrawnPaper::stand_in(const TodaysLight& today, double lightness) {
    constexpr double kClose = 1e-4;
    const double seconds = std::log10(today.strip.exposure.value) - today.doubt * draw_.today;
    const Worked strip = worked(today.strip);
    double less = -kReach, more = kReach;
    while (more - less > kClose) {
        brighter_ = (less + more) / 2;
        (lightness_at(strip, log_h(seconds) + light_.log_light(today.tone), 0) > lightness ? less : more) =
            brighter_;
    }
}

double DrawnPaper::fresh_lightness(NegativeDensity at) const {
    return fresh_(fresh_at_ + usual_light_.log_light(at));
}

DevelopStep DrawnPaper::step_of(const ToldRecipe& told) const {
    return {told.restrainer_ml_l, told.develop_s, draw_.pack.development.nominal_c};
}

const DrawnPaper::WayOfDeveloping& DrawnPaper::way(const DevelopStep& step) {
    const std::pair key{step.restrainer_ml_l, step.time_s};
    const auto found = ways_.find(key);
    if (found != ways_.end()) return found->second;
    Developer developer(paper_.emulsion, step, population_);
    const double departs =
        draw_.unread * kPerDoubling * read_.doublings_from(step.restrainer_ml_l, step.time_s);
    const double slower = developer.log_threshold() + departs - nominal_threshold_;
    return ways_.try_emplace(key, WayOfDeveloping{std::move(developer), departs, slower}).first->second;
}

const ShareCurve& DrawnPaper::share_curve(long halves, std::size_t line) {
    const std::pair key{halves, lines_[line].burns.empty() ? 0 : line};
    const auto found = curves_.find(key);
    if (found != curves_.end()) return found->second;
    const Filter filter = lines_[line].light_through(
        filters_.nearest(double(halves) / 2), draw_.pack.darkroom.enlarger.reciprocity,
        [this](double grade) { return filters_.nearest(grade); });
    return curves_.try_emplace(key, population_, filter, ShareCurve::kCoarse).first->second;
}

double DrawnPaper::log_bleach_s(const ToldRecipe& told, std::optional<double> share_of_clearing,
                                PrintDensity darker) {
    const auto clearing =
        share_of_clearing ? clearing_dose(paper_, step_of(told), darker) : std::optional<double>();
    const double dose = clearing ? *share_of_clearing * *clearing : told.dose;
    return std::log10(
        std::max(bleach_time(paper_.bleach, draw_.pack.darkroom.bath, dose).value, kShortest_s));
}

DrawnPaper::Worked DrawnPaper::worked(const ToldRecipe& told) {
    const auto& [developer, departs, slower] = way(step_of(told));
    const auto below = std::lround(std::floor(2 * told.grade + kSameGrade));
    const double beyond = std::max(0.0, 2 * told.grade - double(below));
    const auto dose = [&](Seconds time) {
        return bleach_dose(paper_.bleach, draw_.pack.darkroom.bath, time);
    };
    Worked worked{developer, departs, slower, beyond, {}};
    for (std::size_t line = 0; line < lines_.size(); ++line) {
        const PlaceWork& place = lines_[line];
        worked.lines.push_back(
            {share_curve(below, line), share_curve(below + (beyond > kSameGrade), line),
             lightness_.at_dose(dose(told.bleach) + (place.bleach.value > 0 ? dose(place.bleach) : 0)),
             place.fog > 0 ? developer.more_fog(place.fog) : 0});
    }
    return worked;
}

double DrawnPaper::lightness_at(const Worked& worked, double log_h, std::size_t line) const {
    const double over = log_h - worked.developer.log_threshold() - worked.departs;
    const WorkedLine& here = worked.lines[line];
    double share = std::lerp(here.softer(over), here.harder(over), worked.beyond);
    if (here.more_fog > 0) share = with_more_fog(share, here.more_fog);
    return lightness_.lightness(here.thinned, worked.developer.with_share(share).density.value);
}

std::vector<double> DrawnPaper::print(const ToldRecipe& told, std::span<const double> log_light) {
    const Worked way = worked(told);
    const double as_told = log_h(std::log10(told.exposure.value));
    std::vector<double> lightness;
    for (const double light : log_light) lightness.push_back(lightness_at(way, as_told + light, 0));
    return lightness;
}

std::vector<double> DrawnPaper::misses(const ToldRecipe& told) {
    const Worked way = worked(told);
    const double as_told = log_h(std::log10(told.exposure.value));
    std::vector<double> misses;
    for (std::size_t i = 0; i < wanted_.log_light.size(); ++i)
        misses.push_back(lightness_at(way, as_told + wanted_.log_light[i], wanted_.line[i]) -
                         wanted_.lightness[i]);
    return misses;
}

std::vector<LightnessLine> DrawnPaper::curves(const Worked& worked, double from, double to) const {
    std::vector<LightnessLine> all;
    for (std::size_t line = 0; line < lines_.size(); ++line)
        all.emplace_back(from + wanted_.dimmest, to + wanted_.brightest,
                         [&](double log_h) { return lightness_at(worked, log_h, line); });
    return all;
}

double DrawnPaper::closest(const Worked& worked, std::span<const LightnessLine> curves,
                           PrintDensity darker) const {
    const double border =
        lightness_.lightness(worked.lines.front().thinned, worked.developer.with_share(0).density.value);
    // The eye adapts to the likely border: how a sheet's own density divides between border and picture
    // nobody knows, and a shift of both alike would be adapted away as if it did no harm.
    return closest_exposure(curves, wanted_, Adaptation::between(border, white_), dimming(darker.value),
                            fresh_at_ + worked.slower, kReach);
}

Outcome DrawnPaper::outcome(const ToldRecipe& told, PrintDensity darker) {
    const Worked here = worked(told);
    const double middle = fresh_at_ + here.slower;
    const double as_told = log_h(std::log10(told.exposure.value));
    const std::vector<LightnessLine> line = curves(here, middle - kReach, middle + kReach);
    const double closest_here = closest(here, line, darker);
    double right = closest_here;
    if (told.made_up_for) {
        ToldRecipe pulled = told;
        pulled.bleach = *told.made_up_for;
        const Worked in_time = worked(pulled);
        right = closest(in_time, curves(in_time, middle - kReach, middle + kReach), darker);
    }

    // A print on a sheet of its own, of a paper that does not quite obey the laws.
    const double scatter = draw_.pack.sheet_scatter;
    const double own_sheet = dimming(darker.value + scatter * draw_.sheet),
                 own_light = pack::kSheetInLight * scatter * draw_.sheet_light;
    const auto rms = [&](std::span<const LightnessLine> of, double log_h) {
        return rms_at(of, wanted_, log_h + own_light, own_sheet, draw_.pack.law_scatter);
    };
    Outcome outcome;
    outcome.first_sheet = std::abs(as_told - middle) <= kReach ? rms(line, as_told)
                                                               : rms(curves(here, as_told, as_told), as_told);
    for (std::size_t i = 0; i < kStripSteps.size(); ++i) {
        const double step = kStripSteps[i] * kLogPerStop * draw_.pack.darkroom.enlarger.reciprocity;
        // A strip is laid about the told exposure. Where that makes up for less than the bleach takes, the
        // closest print may lie beyond its bands.
        const double reach = told.made_up_for ? kBandsEachSide * step : 2 * kReach;
        const double best = std::clamp(closest_here, as_told - reach, as_told + reach);
        outcome.after_strip[i] = rms(line, best + draw_.between * step);
    }
    outcome.right_log_s = log_seconds(right);
    return outcome;
}

}  // namespace fogproof::choose
