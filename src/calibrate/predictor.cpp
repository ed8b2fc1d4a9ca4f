// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/calibrate/predictor.hpp"

#include <array>
#include <cmath>
#include <map>
#include <utility>

#include "fogproof/pack/grades.hpp"
#include "fogproof/print/silver_path.hpp"
#include "pack/fresh_paper.hpp"

namespace fogproof {
namespace {

// log10 exposure from the speed point to the shoulder of any paper. Judgement.
constexpr double kNominalAboveSpeed = 1.2;
constexpr double kSameGrade = 1e-9;
constexpr double kNoGrade = -100;

const PackFilter* own_filter(const Pack& pack, double grade) {
    for (const auto& filter : pack.filters)
        if (std::abs(filter.grade - grade) < kSameGrade) return &filter;
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
    // Everything worked out for one pack that may serve the next one too.
    struct Kept {
        std::optional<Grains> grains;  // threshold and maximum included
        SheetConstants sheet;
        std::vector<Light> light;
        std::vector<double> share;
        std::map<double, OwnFilter> filters;
        std::optional<PaperModel> paper;
        std::shared_ptr<const ShareTable> table;
        Pack pack;  // of the paper
    };
    std::vector<Patched> patches;
    std::vector<std::size_t> alike;  // for each patch the first one exposed and developed like it
    std::vector<std::size_t> same;   // and the first one that is the same in all
    Kept kept;

    // The kept model where nothing it was derived from has changed, the rest taken over as it is.
    [[nodiscard]] PaperModel paper_of(const Pack& pack) const {
        const Pack& old = kept.pack;
        const bool as_before = kept.paper && old.sheet == pack.sheet && old.grains == pack.grains &&
                               old.black_density == pack.black_density &&
                               old.blank_density == pack.blank_density && old.iso_range == pack.iso_range &&
                               old.speed_log_s == pack.speed_log_s &&
                               pack.development.induction_s < pack.development.nominal_s;
        if (!as_before) return paper_model(pack);
        PaperModel paper = *kept.paper;
        paper.emulsion.fog.time_exponent = pack.fog_time_exponent;
        paper.emulsion.restrainer = pack.restrainer;
        paper.emulsion.development = pack.development;
        paper.bleach = pack.bleach;
        paper.redevelop = pack.redevelop;
        return paper;
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
        work_->alike.push_back(first.emplace(key, i).first->second);
        const std::array after{p.bleach_s, p.bleach_parts, p.redevelop_s};
        work_->same.push_back(same.emplace(std::pair{key, after}, i).first->second);
    }
    work_->kept.light.resize(readings.size());
    work_->kept.share.resize(readings.size());
}

Predictor::~Predictor() = default;
Predictor::Predictor(Predictor&&) noexcept = default;
Predictor& Predictor::operator=(Predictor&&) noexcept = default;

std::vector<double> Predictor::densities(const Pack& pack, bool is_detour) {
    Work& work = *work_;
    const PaperModel paper = work.paper_of(pack);
    const Grains& grains = paper.emulsion.grains;
    const bool same_population = work.same_population(grains), same_paper = work.same_paper(pack, grains);
    Work::Kept now{grains,
                   pack.sheet,
                   std::vector<Work::Light>(work.patches.size()),
                   std::vector<double>(work.patches.size()),
                   {},
                   {},
                   {},
                   {}};
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
        if (!fresh) fresh.emplace(paper, population);
        const Filter filter = fresh->filter(own->balance, own->speed);
        return now.filters.emplace(grade, Work::OwnFilter{own->balance, own->speed, filter})
            .first->second.filter;
    };
    std::map<std::pair<double, double>, Developer> developers;
    std::vector<double> densities;
    densities.reserve(work.patches.size());
    for (std::size_t i = 0; i < work.patches.size(); ++i) {
        const Patched& patch = work.patches[i];
        const std::pair treatment{patch.restrainer_ml_l, patch.develop_s};
        auto found = developers.find(treatment);
        if (found == developers.end())
            found =
                developers
                    .emplace(treatment,
                             Developer(paper.emulsion,
                                       {patch.restrainer_ml_l, patch.develop_s, pack.development.nominal_c},
                                       population))
                    .first;
        const Developer& developer = found->second;
        if (const std::size_t like = work.alike[i]; like < i) {
            now.light[i] = now.light[like];
            now.share[i] = now.share[like];
        } else if (patch.exposure_s > 0 && patch.develop_s > 0) {
            const Filter through = patch.filter ? light_through(*patch.filter) : Filter{1, 0};
            const double h =
                std::pow(patch.exposure_s, pack.enlarger.reciprocity) * std::pow(10.0, -patch.wedge_density);
            const EaselLight light{h * through.blue, h * through.green};
            now.light[i] = {light.blue, light.green, developer.log_threshold()};
            now.share[i] = same_population && now.light[i] == work.kept.light[i]
                               ? work.kept.share[i]
                               : developer.population().developable(light, developer.log_threshold());
        }
        if (work.same[i] < i) {
            densities.push_back(densities[work.same[i]]);
            continue;
        }
        BleachBath bath = pack.bath;
        bath.parts = patch.bleach_parts;
        const double dose = bleach_dose(paper.bleach, bath, Seconds{patch.bleach_s});
        const FinishedSilver silver =
            finished(paper, developer.with_share(now.share[i]), {dose, Seconds{patch.redevelop_s}});
        densities.push_back(paper.sheet.quick_density(silver).value);
    }
    if (!is_detour) {
        now.paper = paper;
        now.pack = pack;
        work.kept = std::move(now);
    }
    return densities;
}

}  // namespace fogproof
