// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/predictor.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

#include "fit/light_shares.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/silver_path.hpp"
#include "pack/fresh_paper.hpp"
#include "system/threads.hpp"

namespace fogproof::fit {
namespace {

// log10 exposure from the speed point to the shoulder of any paper. Judgement.
constexpr double kNominalAboveSpeed = 1.2;
constexpr double kAtGrade = 1e-9;
constexpr double kNoGrade = -100;
// So many different patches are read off a table of their filter's light.
constexpr std::size_t kTabulated = 1200;
// Over so small a share of a layer its density runs straight, as far as a derivative can tell; the slope is
// taken over this much layer density.
constexpr double kStraight = 3e-5, kSlopeStep = 1e-7;

const PackFilter* own_filter(const Pack& pack, double grade) {
    for (const auto& filter : pack.filters)
        if (std::abs(filter.grade - grade) < kAtGrade) return &filter;
    return nullptr;
}

}  // namespace

bool exposure_guessed(const Reading& reading) {
    return reading.wedge_density && !reading.exposure_s;
}

Patched patched(const Reading& reading, const Pack& nominal) {
    Patched patch;
    patch.wedge_density = reading.wedge_density.value_or(0);
    if (reading.carrier_density)
        patch.wedge_density -= log_gain_through(*reading.carrier_density, nominal.enlarger);
    patch.exposure_s = reading.exposure_s.value_or(
        exposure_guessed(reading)
            ? time_at_anchor({nominal.speed_log_s + kNominalAboveSpeed}, nominal.enlarger).value
            : 0);
    if (nominal.contrast == Contrast::variable) patch.filter = reading.filter.value_or(kUnfilteredGrade);
    patch.restrainer_ml_l = reading.restrainer_ml_l.value_or(0);
    patch.develop_s = reading.develop_s.value_or(nominal.development.nominal_s);
    patch.bleach_s = reading.bleach_s;
    patch.bleach_parts = reading.bleach_parts.value_or(nominal.bath.parts);
    patch.redevelop_s = reading.redevelop_s;
    return patch;
}

// Different values in the order in which they came first, and which one each patch has.
template <class Value>
struct Numbered {
    std::vector<Value> values;
    std::vector<std::size_t> of;

    void add(const Value& value) {
        const auto [at, is_new] = number.emplace(value, values.size());
        if (is_new) values.push_back(value);
        of.push_back(at->second);
    }

  private:
    std::map<Value, std::size_t> number;
};

// Patches that one thread goes through at a time; fewer than two such bands are not worth a thread.
constexpr std::size_t kBand = 1000;

template <class Each>
void for_each_patch(std::size_t count, const Each& each) {
    const auto in_band = [&](std::size_t band) {
        for (std::size_t i = band * kBand; i < std::min(count, (band + 1) * kBand); ++i) each(i);
    };
    const std::size_t bands = (count + kBand - 1) / kBand;
    in_parallel(bands, in_band, bands > 2 ? 0 : 1);
}

struct Predictor::Work {
    // What the share of developable grains hangs on.
    struct Light {
        double blue = 0, green = 0, threshold = 0;
        bool operator==(const Light&) const = default;
    };
    struct OwnFilter {
        double balance, speed;
        Filter filter;
    };
    struct Paper {
        PaperModel model;
        SheetLayers layers;
    };
    // Everything worked out for one pack that may serve the next one too.
    struct Kept {
        std::optional<Grains> grains;  // threshold and maximum included
        SheetConstants sheet;
        std::vector<Light> light;
        std::vector<double> share, layer, dose, density;
        BleachRate bleach;
        Redevelopment redevelop;
        std::map<double, OwnFilter> filters;
        std::optional<Paper> paper;
        std::shared_ptr<const ShareTable> table;
        std::vector<std::shared_ptr<const LightShares>> shares;  // by grade, of many patches
        std::vector<double> slope;  // of density over layer, once detours ask for it
        Pack pack;                  // of the paper
    };
    std::vector<Patched> patches;
    std::vector<std::size_t> alike;  // for each patch the first one exposed and developed like it
    std::vector<std::size_t> same;   // and the first one that is the same in all
    std::vector<double> passed;      // light that the wedge lets through
    std::size_t different = 0;       // patches exposed and developed like none before
    Numbered<std::pair<double, double>> developments, baths;
    Numbered<double> grades;
    Kept kept;

    // What was derived from the sheet is taken over where the sheet and its densities are as before.
    [[nodiscard]] Paper paper_of(const Pack& pack) const {
        const Pack& old = kept.pack;
        const bool as_before = kept.paper && old.sheet == pack.sheet &&
                               old.black_density == pack.black_density &&
                               old.blank_density == pack.blank_density &&
                               pack.development.induction_s < pack.development.nominal_s;
        if (as_before)
            return {paper_model(pack, kept.paper->model.sheet, kept.paper->layers), kept.paper->layers};
        PaperModel model = paper_model(pack);
        const SheetLayers layers = sheet_layers(pack, model.sheet);
        return {std::move(model), layers};
    }
    [[nodiscard]] bool same_population(const Grains& grains) const {
        if (!kept.grains) return false;
        Grains other = *kept.grains;
        other.log_threshold = grains.log_threshold;
        other.max_density = grains.max_density;
        return other == grains;
    }
    [[nodiscard]] bool same_paper(const Pack& pack, const Grains& grains) const {
        return kept.grains == grains && kept.sheet == pack.sheet;
    }
};

Predictor::Predictor(const Pack& nominal, std::span<const Reading> readings)
    : work_(std::make_unique<Work>()) {
    for (const auto& reading : readings) work_->patches.push_back(patched(reading, nominal));
    std::map<std::array<double, 5>, std::size_t> first;
    std::map<std::pair<std::array<double, 5>, std::array<double, 3>>, std::size_t> same;
    for (std::size_t i = 0; i < work_->patches.size(); ++i) {
        const Patched& p = work_->patches[i];
        const std::array key{p.wedge_density, p.exposure_s, p.filter.value_or(kNoGrade), p.restrainer_ml_l,
                             p.develop_s};
        const auto [at, is_new] = first.emplace(key, i);
        work_->alike.push_back(at->second);
        work_->different += is_new;
        const std::array after{p.bleach_s, p.bleach_parts, p.redevelop_s};
        work_->same.push_back(same.emplace(std::pair{key, after}, i).first->second);
        work_->passed.push_back(std::pow(10.0, -p.wedge_density));
        work_->developments.add({p.restrainer_ml_l, p.develop_s});
        work_->baths.add({p.bleach_s, p.bleach_parts});
        const bool has_light = p.exposure_s > 0 && p.develop_s > 0;
        work_->grades.add(has_light && p.filter ? *p.filter : kNoGrade);
    }
    Work::Kept& kept = work_->kept;
    kept.light.resize(readings.size());
    for (auto* values : {&kept.share, &kept.layer, &kept.dose, &kept.density})
        values->resize(readings.size());
}

Predictor::~Predictor() = default;
Predictor::Predictor(Predictor&&) noexcept = default;
Predictor& Predictor::operator=(Predictor&&) noexcept = default;

std::vector<double> Predictor::densities(const Pack& pack, bool is_detour) {
    Work& work = *work_;
    const Work::Paper made = work.paper_of(pack);
    const PaperModel& paper = made.model;
    const Grains& grains = paper.emulsion.grains;
    const bool same_population = work.same_population(grains), same_paper = work.same_paper(pack, grains);
    const std::size_t count = work.patches.size();
    const bool same_finish = work.kept.paper && work.kept.sheet == pack.sheet &&
                             work.kept.bleach == paper.bleach && work.kept.redevelop == paper.redevelop;
    Work::Kept now;
    now.grains = grains;
    now.sheet = pack.sheet;
    now.bleach = paper.bleach;
    now.redevelop = paper.redevelop;
    now.light.resize(count);
    for (auto* values : {&now.share, &now.layer, &now.dose, &now.density}) values->resize(count);
    now.table = work.kept.table && work.kept.table->serves(grains) ? work.kept.table
                                                                   : std::make_shared<ShareTable>(grains);
    const GrainPopulation population(grains, now.table);
    std::optional<FreshPaper> fresh;
    const auto light_through = [&](double grade) {
        if (const auto found = now.filters.find(grade); found != now.filters.end())
            return found->second.filter;
        const PackFilter* own = own_filter(pack, grade);
        if (!own)
            return now.filters.emplace(grade, Work::OwnFilter{0, 0, filter_for(pack, paper, grade)})
                .first->second.filter;
        const auto before = work.kept.filters.find(grade);
        if (same_paper && before != work.kept.filters.end() && before->second.balance == own->balance &&
            before->second.speed == own->speed)
            return now.filters.insert(*before).first->second.filter;
        if (!fresh) fresh.emplace(paper, population, made.layers.at);
        const Filter filter = fresh->filter(own->balance, own->speed);
        return now.filters.emplace(grade, Work::OwnFilter{own->balance, own->speed, filter})
            .first->second.filter;
    };
    std::vector<Developer> developers;
    developers.reserve(work.developments.values.size());
    for (const auto& [restrainer_ml_l, develop_s] : work.developments.values)
        developers.emplace_back(
            paper.emulsion, DevelopStep{restrainer_ml_l, develop_s, pack.development.nominal_c}, population);
    std::vector<Filter> filters;
    for (const double grade : work.grades.values)
        filters.push_back(grade == kNoGrade ? Filter{1, 0} : light_through(grade));
    if (work.different > kTabulated) {
        const bool has_shares = same_population && work.kept.shares.size() == filters.size();
        for (std::size_t g = 0; g < filters.size(); ++g)
            now.shares.push_back(
                has_shares && work.kept.shares[g]->serves(filters[g])
                    ? work.kept.shares[g]
                    : std::make_shared<const LightShares>(population, grains.spread, filters[g]));
    }
    const auto share_of = [&](std::size_t i, double h, EaselLight light, double threshold) {
        if (now.shares.empty()) return population.developable(light, threshold);
        return (*now.shares[work.grades.of[i]])(population, std::log10(h) - threshold);
    };
    std::vector<double> doses;
    for (const auto& [bleach_s, parts] : work.baths.values) {
        BleachBath bath = pack.bath;
        bath.parts = parts;
        doses.push_back(bleach_dose(paper.bleach, bath, Seconds{bleach_s}));
    }
    for_each_patch(count, [&](std::size_t i) {
        const Patched& patch = work.patches[i];
        if (work.alike[i] < i || !(patch.exposure_s > 0 && patch.develop_s > 0)) return;
        const Developer& developer = developers[work.developments.of[i]];
        const Filter& through = filters[work.grades.of[i]];
        const double h = std::pow(patch.exposure_s, pack.enlarger.reciprocity) * work.passed[i];
        const EaselLight light{h * through.blue, h * through.green};
        now.light[i] = {light.blue, light.green, developer.log_threshold()};
        now.share[i] = same_population && now.light[i] == work.kept.light[i]
                           ? work.kept.share[i]
                           : share_of(i, h, light, developer.log_threshold());
    });
    const auto density_of = [&](std::size_t i, double layer, double dose) {
        const Finishing finishing{dose, Seconds{work.patches[i].redevelop_s}};
        return paper.sheet.quick_density(finished(paper, {{layer}}, finishing)).value;
    };
    if (is_detour && same_finish && work.kept.slope.empty()) {
        work.kept.slope.resize(count);
        for_each_patch(count, [&](std::size_t i) {
            if (work.same[i] < i) return;
            const double ahead = work.kept.layer[i] + kSlopeStep;
            work.kept.slope[i] =
                (density_of(i, ahead, work.kept.dose[i]) - work.kept.density[i]) / kSlopeStep;
        });
    }
    for_each_patch(count, [&](std::size_t i) {
        if (work.same[i] < i) return;
        now.light[i] = now.light[work.alike[i]];
        now.share[i] = now.share[work.alike[i]];
        const DevelopedSilver silver = developers[work.developments.of[i]].with_share(now.share[i]);
        now.layer[i] = silver.density.value;
        now.dose[i] = doses[work.baths.of[i]];
        const double beyond = now.layer[i] - work.kept.layer[i];
        if (same_finish && now.dose[i] == work.kept.dose[i] &&
            (beyond == 0 || (is_detour && std::abs(beyond) < kStraight * work.kept.layer[i])))
            now.density[i] = work.kept.density[i] + (beyond == 0 ? 0 : work.kept.slope[i] * beyond);
        else
            now.density[i] = density_of(i, now.layer[i], now.dose[i]);
    });
    for (std::size_t i = 0; i < count; ++i) now.density[i] = now.density[work.same[i]];
    std::vector<double> densities = now.density;
    if (!is_detour) {
        now.paper = made;
        now.pack = pack;
        work.kept = std::move(now);
    }
    return densities;
}

}  // namespace fogproof::fit
