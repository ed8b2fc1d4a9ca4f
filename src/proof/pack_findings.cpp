// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "proof/pack_findings.hpp"

#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <cstdint>
#include <limits>
#include <optional>

#include "base/stop.hpp"
#include "fogproof/emulsion/paper_numbers.hpp"
#include "fogproof/print/silver_path.hpp"
#include "print/clearing.hpp"

namespace fogproof::proof {
namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

// A pack in one state: without fog or with it, bleached or not.
class State {
  public:
    State(const PaperModel& paper, const Developer& developer, double bleach_dose)
        : paper_(paper), developer_(developer), finishing_{bleach_dose, Seconds{0}} {}

    // Visual density where so many grains were made developable.
    [[nodiscard]] double density(double share) const {
        const FinishedSilver silver = finished(paper_, developer_.with_share(share), finishing_);
        return visual_density(paper_.sheet.reflectance(silver)).value;
    }
    // The share at which it shows a density; nothing beyond its black.
    [[nodiscard]] std::optional<double> share_showing(double wanted) const {
        const auto miss = [&](double share) { return density(share) - wanted; };
        const double least = miss(0), most = miss(1);
        if (least > 0 || most < 0) return std::nullopt;
        boost::math::tools::eps_tolerance<double> close(36);
        std::uintmax_t rounds = 100;
        const auto [a, b] = boost::math::tools::toms748_solve(miss, 0.0, 1.0, least, most, close, rounds);
        return (a + b) / 2;
    }

  private:
    const PaperModel& paper_;
    const Developer& developer_;
    Finishing finishing_;
};

// Shares of grains at the ends of the ISO range, as paper_numbers() has them; nothing where the net density
// is too small for a speed point.
struct EndShares {
    double toe, shoulder;
};
std::optional<EndShares> end_shares(const State& state) {
    const double minimum = state.density(0), net = state.density(1) - minimum;
    if (kIsoShoulder * net <= kIsoSpeed) return std::nullopt;
    const auto toe = state.share_showing(minimum + kIsoToe),
               shoulder = state.share_showing(minimum + kIsoShoulder * net);
    if (!toe || !shoulder) return std::nullopt;
    return EndShares{*toe, *shoulder};
}

// Where a filter's light reaches them, near where it did on another pack.
PackFindings::Ends ends(const std::optional<EndShares>& shares, const FilterSet& filters,
                        const std::optional<Filter>& filter, const PackFindings::Ends* about) {
    if (!shares || !filter) return {kNone, kNone};
    const auto reached = [&](double share, double PackFindings::Ends::*end) {
        return filters.log_exposure(
            *filter, share, about && std::isfinite(about->*end) ? std::optional(about->*end) : std::nullopt);
    };
    return {reached(shares->toe, &PackFindings::Ends::toe),
            reached(shares->shoulder, &PackFindings::Ends::shoulder)};
}

PackFindings found(const WorkedPack& worked, const PackFindings* about) {
    const Pack& pack = worked.pack();
    const PaperModel &paper = worked.paper(), fresh = before_fog(paper);
    const Developer plain = worked.developer(paper, 0), unfogged = worked.developer(fresh, 0);
    PackFindings all{pack.sheet.white_density,
                     State(paper, plain, 0).density(0),
                     pack.black_density,
                     kNone,
                     {},
                     {},
                     {},
                     {},
                     {},
                     std::log10(time_at_anchor({pack.speed_log_s}, pack.darkroom.enlarger).value)};
    for (std::size_t i = 0; i < kRestrainer_ml_l.size(); ++i) {
        const Developer slower = worked.developer(paper, kRestrainer_ml_l[i]);
        all.restrained[i] = State(paper, slower, 0).density(0);
        all.stops_lost[i] = (slower.log_threshold() - plain.log_threshold()) / kLogPerStop;
    }
    const auto clearing = clearing_dose(paper, plain);
    if (clearing) all.black_cleared = State(paper, plain, *clearing).density(1);
    for (std::size_t i = 0; i < kClearingPercents.size(); ++i) {
        const double dose = kClearingPercents[i] / 100 * clearing.value_or(kNone);
        all.bleached[i] = clearing ? State(paper, plain, dose).density(0) : kNone;
        all.bleach_log_s[i] =
            clearing ? std::log10(bleach_time(paper.bleach, pack.darkroom.bath, dose).value) : kNone;
    }
    const auto without_fog = end_shares(State(fresh, unfogged, 0)),
               with_fog = end_shares(State(paper, plain, 0)),
               without_it = clearing ? end_shares(State(paper, plain, *clearing)) : std::nullopt;
    for (std::size_t i = 0; i < worked.grades().size(); ++i) {
        const auto reached = [&](const std::optional<EndShares>& shares,
                                 PackFindings::Ends PackFindings::Grade::*state) {
            return ends(shares, worked.filters(), worked.filter(i),
                        about ? &(about->grades[i].*state) : nullptr);
        };
        all.grades.push_back({reached(without_fog, &PackFindings::Grade::fresh),
                              reached(with_fog, &PackFindings::Grade::fogged),
                              reached(without_it, &PackFindings::Grade::cleared)});
    }
    return all;
}

}  // namespace

PackFindings pack_findings(const WorkedPack& worked) {
    return found(worked, nullptr);
}

PackFindings pack_findings(const WorkedPack& worked, const PackFindings& about) {
    return found(worked, &about);
}

}  // namespace fogproof::proof
