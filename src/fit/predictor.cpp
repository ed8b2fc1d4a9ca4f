// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/predictor.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <mutex>
#include <utility>

#include "fit/asked_patches.hpp"
#include "fit/light_shares.hpp"
#include "fit/unknown_light.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/silver_path.hpp"
#include "pack/fresh_paper.hpp"
#include "pack/paper_model.hpp"
#include "system/threads.hpp"

namespace fogproof::fit {
namespace {

constexpr double kAtGrade = 1e-9;
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

struct Predictor::Work : AskedPatches {
    using AskedPatches::AskedPatches;
    // What the share of developable grains depends on.
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
        std::vector<double> share, layer, dose, density;
        std::vector<double> more_light;  // log10, of each unknown exposure over what treated() takes
        BleachRate bleach;
        Redevelopment redevelop;
        std::map<double, OwnFilter> filters;
        std::optional<LayeredPaper> paper;
        std::shared_ptr<const ShareTable> table;
        std::vector<std::shared_ptr<const LightShares>> shares;  // by grade, of many patches
        std::vector<double> slope;  // of density over layer, once detours ask for it
        Pack pack;                  // of the paper
    };
    Kept kept;
    std::mutex slopes_lock;

    [[nodiscard]] LayeredPaper paper_of(const Pack& pack) const {
        return kept.paper ? layered_paper(pack, kept.pack, *kept.paper) : layered_paper(pack);
    }
    [[nodiscard]] bool same_paper(const Pack& pack, const Grains& grains) const {
        return kept.grains == grains && kept.sheet == pack.sheet;
    }
};

Predictor::Predictor(const Pack& nominal, std::span<const Reading> readings)
    : work_(std::make_unique<Work>(nominal, readings)) {
    Work::Kept& kept = work_->kept;
    kept.light.resize(readings.size());
    for (auto* values : {&kept.share, &kept.layer, &kept.dose, &kept.density})
        values->resize(readings.size());
}

Predictor::~Predictor() = default;
Predictor::Predictor(Predictor&&) noexcept = default;
Predictor& Predictor::operator=(Predictor&&) noexcept = default;

// The answer for one pack: what the one before has in common with it is taken over room by room.
class Predictor::Prediction {
  public:
    Prediction(const Work& work, const Pack& pack)
        : work_(work),
          pack_(pack),
          paper_(work.paper_of(pack)),
          same_population_(work.kept.grains && same_population(*work.kept.grains, grains())),
          same_paper_(work.same_paper(pack, grains())),
          same_finish_(work.kept.paper && work.kept.sheet == pack.sheet &&
                       work.kept.bleach == model().bleach && work.kept.redevelop == model().redevelop) {
        now_.grains = grains();
        now_.sheet = pack.sheet;
        now_.bleach = model().bleach;
        now_.redevelop = model().redevelop;
        now_.light.resize(count());
        for (auto* values : {&now_.share, &now_.layer, &now_.dose, &now_.density}) values->resize(count());
        now_.table = work.kept.table && work.kept.table->serves(grains())
                         ? work.kept.table
                         : std::make_shared<ShareTable>(grains());
        population_.emplace(grains(), now_.table);
        developers_.reserve(work.developments.values.size());
        for (const auto& [restrainer_ml_l, develop_s] : work.developments.values)
            developers_.emplace_back(model().emulsion,
                                     DevelopStep{restrainer_ml_l, develop_s, pack.development.nominal_c},
                                     *population_);
        choose_filters();
        tabulate_shares();
        for (const auto& [bleach_s, parts] : work.baths.values) {
            BleachBath bath = pack.darkroom.bath;
            bath.parts = parts;
            doses_.push_back(bleach_dose(model().bleach, bath, Seconds{bleach_s}));
        }
    }

    /// Light -> share of the grains that it makes developable.
    void expose() {
        for (std::size_t group = 0; group < work_.unknown_light.size(); ++group)
            now_.more_light.push_back(closest_light_of(group));
        for_each_patch(count(), [&](std::size_t i) {
            if (work_.alike[i] < i || !work_.is_lit(i)) return;
            const double h =
                light_on(i) * (work_.is_known(i) ? 1 : std::pow(10.0, now_.more_light[work_.light_of[i]]));
            const Filter& through = filters_[work_.grades.of[i]];
            now_.light[i] = {h * through.blue, h * through.green, threshold_of(i)};
            now_.share[i] = same_population_ && now_.light[i] == work_.kept.light[i] ? work_.kept.share[i]
                                                                                     : share_at(i, h);
        });
    }

    /// Share -> silver -> what bleach and redevelopment leave of it -> density.
    void finish(const std::vector<double>* slopes) {
        for_each_patch(count(), [&](std::size_t i) {
            if (work_.same[i] < i) return;
            now_.light[i] = now_.light[work_.alike[i]];
            now_.share[i] = now_.share[work_.alike[i]];
            const Developer& developer = developers_[work_.developments.of[i]];
            now_.layer[i] = developer.with_share(now_.share[i]).density.value;
            now_.dose[i] = doses_[work_.baths.of[i]];
            const double beyond = now_.layer[i] - work_.kept.layer[i];
            const bool same_dose = same_finish_ && now_.dose[i] == work_.kept.dose[i];
            if (same_dose && beyond == 0)
                now_.density[i] = work_.kept.density[i];
            else if (same_dose && slopes && std::abs(beyond) < kStraight * work_.kept.layer[i])
                now_.density[i] = work_.kept.density[i] + (*slopes)[i] * beyond;
            else
                now_.density[i] = density_of(i, now_.layer[i], now_.dose[i]);
        });
        for (std::size_t i = 0; i < count(); ++i) now_.density[i] = now_.density[work_.same[i]];
    }

    [[nodiscard]] bool same_finish() const { return same_finish_; }
    /// Of density over layer, where the pack before had each patch.
    [[nodiscard]] std::vector<double> slopes() const {
        std::vector<double> slopes(count());
        for_each_patch(count(), [&](std::size_t i) {
            if (work_.same[i] < i) return;
            const double ahead = work_.kept.layer[i] + kSlopeStep;
            slopes[i] = (density_of(i, ahead, work_.kept.dose[i]) - work_.kept.density[i]) / kSlopeStep;
        });
        return slopes;
    }

    [[nodiscard]] const std::vector<double>& densities() const { return now_.density; }
    /// For the next pack.
    [[nodiscard]] Work::Kept kept() && {
        now_.paper = paper_;
        now_.pack = pack_;
        return std::move(now_);
    }

  private:
    [[nodiscard]] const PaperModel& model() const { return paper_.model; }
    [[nodiscard]] const Grains& grains() const { return paper_.model.emulsion.grains; }
    [[nodiscard]] std::size_t count() const { return work_.patches.size(); }
    [[nodiscard]] double threshold_of(std::size_t i) const {
        return developers_[work_.developments.of[i]].log_threshold();
    }
    // As told, or as treated() takes it.
    [[nodiscard]] double light_on(std::size_t i) const {
        const TreatedPatch& patch = work_.patches[i];
        double h = std::pow(patch.exposure_s, pack_.darkroom.enlarger.reciprocity) * work_.passed[i];
        if (patch.by_callier != 0)
            h *= std::pow(10.0, (work_.callier - pack_.darkroom.enlarger.callier) * patch.by_callier);
        return h;
    }
    [[nodiscard]] double share_at(std::size_t i, double h) const {
        const Filter& through = filters_[work_.grades.of[i]];
        return now_.shares.empty()
                   ? population_->developable({h * through.blue, h * through.green}, threshold_of(i))
                   : (*now_.shares[work_.grades.of[i]])(*population_, std::log10(h) - threshold_of(i));
    }

    // Of one unknown exposure, from where it was for the pack before.
    [[nodiscard]] double closest_light_of(std::size_t group) const {
        const auto& rows = work_.unknown_light[group];
        std::vector<double> read;
        for (const std::size_t i : rows) read.push_back(work_.read[i]);
        const auto densities = [&](double more) {
            std::vector<double> all;
            for (const std::size_t i : rows) {
                const double share = share_at(i, light_on(i) * std::pow(10.0, more));
                const double layer = developers_[work_.developments.of[i]].with_share(share).density.value;
                all.push_back(density_of(i, layer, doses_[work_.baths.of[i]]));
            }
            return all;
        };
        const bool is_kept = work_.kept.more_light.size() == work_.unknown_light.size();
        return closest_light(read, densities,
                             is_kept ? std::optional(work_.kept.more_light[group]) : std::nullopt);
    }

    void choose_filters() {
        std::optional<FreshPaper> fresh;
        for (const double grade : work_.grades.values) {
            if (grade == kNoGrade) {
                filters_.push_back({1, 0});
                continue;
            }
            const PackFilter* own = own_filter(pack_, grade);
            if (!own) {
                filters_.push_back(filter_for(pack_, model(), grade));
                continue;
            }
            const auto before = work_.kept.filters.find(grade);
            if (same_paper_ && before != work_.kept.filters.end() && before->second.balance == own->balance &&
                before->second.speed == own->speed) {
                filters_.push_back(before->second.filter);
            } else {
                if (!fresh) fresh.emplace(model(), *population_, paper_.layers.at);
                filters_.push_back(fresh->filter(own->balance, own->speed));
            }
            now_.filters[grade] = {own->balance, own->speed, filters_.back()};
        }
    }

    void tabulate_shares() {
        if (work_.different <= kTabulated) return;
        const bool has_shares = same_population_ && work_.kept.shares.size() == filters_.size();
        for (std::size_t g = 0; g < filters_.size(); ++g)
            now_.shares.push_back(
                has_shares && work_.kept.shares[g]->serves(filters_[g])
                    ? work_.kept.shares[g]
                    : std::make_shared<const LightShares>(*population_, grains().spread, filters_[g]));
    }

    [[nodiscard]] double density_of(std::size_t i, double layer, double dose) const {
        const Finishing finishing{dose, Seconds{work_.patches[i].redevelop_s}};
        return model().sheet.quick_density(finished(model(), {{layer}}, finishing)).value;
    }

    const Work& work_;
    const Pack& pack_;
    LayeredPaper paper_;
    bool same_population_, same_paper_, same_finish_;
    std::optional<GrainPopulation> population_;
    std::vector<Developer> developers_;
    std::vector<Filter> filters_;
    std::vector<double> doses_;
    Work::Kept now_;
};

std::vector<double> Predictor::densities(const Pack& pack, bool is_detour) {
    Prediction prediction(*work_, pack);
    prediction.expose();
    const bool by_slopes = is_detour && prediction.same_finish();
    if (by_slopes) {
        const std::lock_guard one(work_->slopes_lock);
        if (work_->kept.slope.empty()) work_->kept.slope = prediction.slopes();
    }
    prediction.finish(by_slopes ? &work_->kept.slope : nullptr);
    std::vector<double> densities = prediction.densities();
    if (!is_detour) work_->kept = std::move(prediction).kept();
    return densities;
}

}  // namespace fogproof::fit
