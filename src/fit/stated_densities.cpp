// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/stated_densities.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <set>
#include <utility>

#include "fit/treated_patch.hpp"
#include "pack/schema.hpp"
#include "pack/uncertainty.hpp"

namespace fogproof::fit {
namespace {

struct Stated {
    std::string_view number, strip;
};
constexpr std::string_view kBlack = "paper.black";
constexpr std::array kStated{Stated{"paper.white", "white that the pack states"},
                             Stated{"fog.blank", "blank that the pack states"},
                             Stated{kBlack, "black that the pack states"}};

// log10; over the speed point, where every grain is exposed whatever the filter.
constexpr double kBlackens = 6;

const Stated* stated_by(const Reading& reading) {
    const auto found = std::ranges::find(kStated, reading.strip, &Stated::strip);
    return found == kStated.end() ? nullptr : found;
}

// The only instrument that tells how it errs; nothing where several do.
std::optional<std::string> only_instrument(std::span<const Reading> readings) {
    std::set<std::string> names;
    for (const Reading& reading : readings)
        if (reading.common_error || reading.dark_error) names.insert(reading.instrument);
    return names.size() == 1 ? std::optional(*names.begin()) : std::nullopt;
}

// Of the doubt of an instrument: what is known that much better than it tells anything was read by another
// one. Judgement; slips that are typed without a doubt are taken for its readings.
constexpr double kFarBetter = 0.25;

// Errs as the instrument tells of the density that is nearest.
void read_by(Reading& stated, std::span<const Reading> readings, const std::string& instrument) {
    const Reading* nearest = nullptr;
    for (const Reading& reading : readings) {
        const bool tells = reading.common_error || reading.dark_error;
        if (!tells || reading.instrument != instrument) continue;
        if (!nearest ||
            std::abs(reading.density - stated.density) < std::abs(nearest->density - stated.density))
            nearest = &reading;
    }
    const double all = *stated.density_error,
                 shared = std::hypot(nearest->common_error.value_or(0), nearest->dark_error.value_or(0));
    if (all < kFarBetter * shared) return;
    stated.instrument = instrument;
    stated.common_error = nearest->common_error;
    stated.dark_error = nearest->dark_error;
}

}  // namespace

bool is_stated_density(const Reading& reading) {
    return stated_by(reading) != nullptr;
}

std::vector<Reading> with_stated_densities(std::span<const Reading> readings, const Pack& pack) {
    const auto lit = std::ranges::find_if(readings, [&](const Reading& reading) {
        const TreatedPatch patch = treated(reading, pack);
        return patch.exposure_s > 0 && patch.develop_s > 0;
    });
    const auto instrument = only_instrument(readings);
    std::vector<Reading> all(readings.begin(), readings.end());
    for (const auto& [number, strip] : kStated) {
        const PackNumber& row = *pack_number(number);
        const double deviation = deviation_of(pack, row);
        // Where no filter was read, none is asked for a black.
        const bool is_asked = number != kBlack || lit != readings.end();
        if (pack.known(row.name()).origin == Origin::assumed || deviation <= 0 || !is_asked) continue;
        Reading stated;
        stated.strip = strip;
        stated.exposure_s = 0;
        if (number == "paper.white") stated.develop_s = 0;
        if (number == kBlack) {
            stated.filter = lit->filter;
            stated.exposure_s = time_at_anchor({pack.speed_log_s + kBlackens}, pack.darkroom.enlarger).value;
        }
        stated.density = row.of(pack);
        stated.density_error = deviation;
        if (instrument) read_by(stated, readings, *instrument);
        all.push_back(std::move(stated));
    }
    return all;
}

Pack before_stated_densities(Pack pack, std::span<const Reading> readings) {
    for (const Reading& reading : readings)
        if (const Stated* stated = stated_by(reading)) pack.knowledge.erase(std::string(stated->number));
    return pack;
}

}  // namespace fogproof::fit
