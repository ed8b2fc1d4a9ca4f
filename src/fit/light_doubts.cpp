// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/light_doubts.hpp"

#include <algorithm>
#include <cmath>
#include <compare>
#include <map>
#include <optional>

#include "base/stop.hpp"
#include "base/words.hpp"
#include "fit/stated_densities.hpp"
#include "fit/treated_patch.hpp"
#include "fogproof/emulsion/emulsion.hpp"
#include "pack/grade_words.hpp"

namespace fogproof::fit {
namespace {

// Filters of a set, and what restrainer costs, are known to a stop or so before they are read; what is beyond
// is doubted. Judgement.
constexpr double kBelievedStops = 2;
// log10. A pack's speed that nobody knows better may be anywhere.
constexpr double kSpeedIsKnown = 0.15;

struct WayLit {
    std::optional<double> filter;
    double restrainer_ml_l, develop_s;
    friend auto operator<=>(const WayLit&, const WayLit&) = default;
};

bool speed_was_known(const Prior& prior) {
    const auto speed = std::ranges::find(prior.unknowns, "speed.log_seconds", &Unknown::name);
    return prior.pack.darkroom.anchored && speed != prior.unknowns.end() &&
           speed->prior_knowledge.origin != Origin::assumed && speed->doubt <= kSpeedIsKnown;
}

// log10 of the light that a way of working wants on a pack.
double light_wanted(const Pack& pack, const WayLit& way) {
    const Developer developer(paper_model(pack).emulsion,
                              DevelopStep{way.restrainer_ml_l, way.develop_s, pack.development.nominal_c});
    const auto filter = std::ranges::find_if(
        pack.filters, [&](const PackFilter& each) { return way.filter && each.grade == *way.filter; });
    return developer.log_threshold() - (filter == pack.filters.end() ? 0 : filter->speed);
}

std::string words_of_way(const WayLit& way) {
    return (way.filter ? "filter " + grade_name(*way.filter) : std::string("this paper")) +
           (way.restrainer_ml_l > 0 ? " with restrainer " + decimal(way.restrainer_ml_l, 1) + " ml/L" : "");
}

}  // namespace

std::vector<std::string> light_doubts(const Prior& prior, std::span<const Reading> readings,
                                      const Fitted& fit) {
    if (!speed_was_known(prior)) return {};
    Pack fitted = prior.pack;
    for (std::size_t i = 0; i < prior.unknowns.size(); ++i)
        prior.unknowns[i].put(fitted, fit.mean[Eigen::Index(i)]);
    std::map<WayLit, std::string> strips;  // one of each way
    for (const Reading& reading : readings) {
        if (is_stated_density(reading)) continue;
        const TreatedPatch patch = treated(reading, prior.pack);
        if (patch.exposure_s > 0 && patch.develop_s > 0 && !exposure_guessed(reading))
            strips.emplace(WayLit{patch.filter, patch.restrainer_ml_l, patch.develop_s}, reading.strip);
    }
    std::vector<std::string> warnings;
    for (const auto& [way, strip] : strips) {
        const double slower = (light_wanted(fitted, way) - light_wanted(prior.pack, way)) / kLogPerStop;
        if (std::abs(slower) <= kBelievedStops) continue;
        warnings.push_back("by its labels strip \"" + strip + "\" had " + fixed(std::abs(slower), 1) +
                           " stops " + (slower > 0 ? "more" : "less") +
                           " light than its densities show, going by the pack; the fit takes " +
                           words_of_way(way) + " to be that much " + (slower > 0 ? "slower" : "faster") +
                           ": check its seconds, head setting, filter and restrainer");
    }
    return warnings;
}

}  // namespace fogproof::fit
