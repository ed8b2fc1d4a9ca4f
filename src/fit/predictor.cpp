// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/predictor.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <mutex>
#include <tuple>
#include <utility>

#include "fit/light_shares.hpp"
#include "fit/likeness.hpp"
#include "fit/numbered.hpp"
#include "fit/treated_patch.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/silver_path.hpp"
#include "pack/fresh_paper.hpp"
#include "pack/paper_model.hpp"
#include "system/threads.hpp"

namespace fogproof::fit {
namespace {

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
    std::vector<TreatedPatch> patches;
    std::vector<double> read;                             // densities
    std::vector<std::vector<std::size_t>> unknown_light;  // patches of one exposure that nobody told
    std::vector<std::size_t> light_of;  // for each patch which of these, or how many there are
    std::vector<std::size_t> alike;     // for each patch the first one exposed and developed like it
    std::vector<std::size_t> same;      // and the first one that is the same in all
    std::vector<double> passed;         // light that the wedge lets through
    double callier = 1;                 // by which a negative does
    std::size_t different = 0;          // patches exposed and developed like none before
    Numbered<std::pair<double, double>> developments, baths;
    Numbered<double> grades;
    Kept kept;
    std::mutex slopes_lock;

    [[nodiscard]] LayeredPaper paper_of(const Pack& pack) const {
        return kept.paper ? layered_paper(pack, kept.pack, *kept.paper) : layered_paper(pack);
    }
    [[nodiscard]] bool same_paper(const Pack& pack, const Grains& grains) const {
        return kept.grains == grains && kept.sheet == pack.sheet;
    }
    // What lay behind one wedge was exposed at once, and both halves of a sheet were.
    [[nodiscard]] std::vector<std::size_t> by_unknown_light(std::span<const Reading> readings) {
        std::map<std::tuple<std::string, double, double, double>, std::vector<std::size_t>> exposures;
        for (std::size_t i = 0; i < readings.size(); ++i) {
            const TreatedPatch& p = patches[i];
            if (exposure_guessed(readings[i]) && p.develop_s > 0)
                exposures[{sheet_of(readings[i].strip), p.filter.value_or(kNoGrade), p.restrainer_ml_l,
                           p.develop_s}]
                    .push_back(i);
        }
        std::vector<std::size_t> of(readings.size(), exposures.size());
        for (auto& [key, rows] : exposures) {
            for (const std::size_t i : rows) of[i] = unknown_light.size();
            unknown_light.push_back(std::move(rows));
        }
        return of;
    }
};

Predictor::Predictor(const Pack& nominal, std::span<const Reading> readings)
    : work_(std::make_unique<Work>()) {
    work_->callier = nominal.darkroom.enlarger.callier;
    for (const auto& reading : readings) work_->patches.push_back(treated(reading, nominal));
    work_->light_of = work_->by_unknown_light(readings);
    for (const auto& reading : readings) work_->read.push_back(reading.density);
    std::map<std::array<double, 7>, std::size_t> first;
    std::map<std::pair<std::array<double, 7>, std::array<double, 3>>, std::size_t> same;
    for (std::size_t i = 0; i < work_->patches.size(); ++i) {
        const TreatedPatch& p = work_->patches[i];
        const std::array key{p.wedge_density,
                             p.by_callier,
                             p.exposure_s,
                             p.filter.value_or(kNoGrade),
                             p.restrainer_ml_l,
                             p.develop_s,
                             double(work_->light_of[i])};
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
            now_.more_light.push_back(closest_light(group));
        for_each_patch(count(), [&](std::size_t i) {
            if (work_.alike[i] < i || !is_lit(i)) return;
            const double h =
                light_on(i) * (is_known(i) ? 1 : std::pow(10.0, now_.more_light[work_.light_of[i]]));
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
    [[nodiscard]] bool is_lit(std::size_t i) const {
        return work_.patches[i].exposure_s > 0 && work_.patches[i].develop_s > 0;
    }
    [[nodiscard]] bool is_known(std::size_t i) const {
        return work_.light_of[i] == work_.unknown_light.size();
    }
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

    // log10 by which an exposure that nobody told is more than what treated() takes, so that its patches come
    // closest to what was read of them. Found anew for every pack, it takes from the readings what they could
    // otherwise say of speed, and leaves them what they say of all else (variable projection: Golub and
    // Pereyra 1973). Gauss and Newton's way, from where it was for the pack before.
    [[nodiscard]] double closest_light(std::size_t group) const {
        constexpr double kReach = 3, kApart = 0.25, kNear = 1e-3, kSettled = 1e-9;
        constexpr int kSteps = 40, kHalvings = 8;
        const auto& rows = work_.unknown_light[group];
        const auto densities = [&](double more) {
            std::vector<double> all;
            for (const std::size_t i : rows) {
                const double share = share_at(i, light_on(i) * std::pow(10.0, more));
                const double layer = developers_[work_.developments.of[i]].with_share(share).density.value;
                all.push_back(density_of(i, layer, doses_[work_.baths.of[i]]));
            }
            return all;
        };
        // Where all is black or nothing is, any light will do: the nearest.
        constexpr double kOpen = 1e-5;
        const auto off = [&](double more, const std::vector<double>& there) {
            double sum = kOpen * more * more;
            for (std::size_t k = 0; k < rows.size(); ++k) sum += std::pow(there[k] - work_.read[rows[k]], 2);
            return sum;
        };
        double at = 0;
        if (work_.kept.more_light.size() == work_.unknown_light.size()) {
            at = work_.kept.more_light[group];
        } else {
            double least = std::numeric_limits<double>::infinity();
            for (double more = -kReach; more <= kReach; more += kApart)
                if (const double sum = off(more, densities(more)); sum < least) least = sum, at = more;
        }
        auto here = densities(at);
        for (int step = 0; step < kSteps; ++step) {
            const auto less = densities(at - kNear), more = densities(at + kNear);
            double slope = kOpen * at, curvature = kOpen;
            for (std::size_t k = 0; k < rows.size(); ++k) {
                const double rise = (more[k] - less[k]) / (2 * kNear);
                slope += rise * (here[k] - work_.read[rows[k]]);
                curvature += rise * rise;
            }
            double by = -slope / curvature;
            const double before = off(at, here);
            for (int half = 0; half < kHalvings; ++half, by /= 2) {
                here = densities(at + by);
                if (off(at + by, here) <= before) break;
            }
            at += by;
            if (std::abs(by) < kSettled) break;
        }
        return at;
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
