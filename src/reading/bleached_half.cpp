// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/bleached_half.hpp"

#include <algorithm>
#include <cmath>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"

namespace fogproof::reading {
namespace {

// Judgement, in density, all of them. Between tones that lie no farther apart a curve is taken as straight.
constexpr double kStraightBetween = 0.12;
// What two halves of one tone may differ by, also where nothing tells how even the scanner's light is; and
// what one tone counts at most, since it may be something else than the print.
constexpr double kLikeHalves = 0.01, kLikeHalvesUneven = 0.02, kMostOfATone = 0.1;
// So many of the tones may say the opposite, and fewer tones say nothing.
constexpr double kMostAgainst = 0.2;
constexpr std::size_t kFewestInCommon = 3;

struct Between {
    double least, most;
};

// What a print may have at a tone: denser than at any thicker place of the negative, lighter than at any
// thinner one.
Between between(const std::vector<PrintTone>& tones, double over_paper) {
    constexpr double kAny = 1e9;
    const auto above = std::ranges::upper_bound(tones, over_paper, {}, &PrintTone::over_paper);
    if (above == tones.begin()) return {tones.front().density, kAny};
    if (above == tones.end()) return {-kAny, tones.back().density};
    const PrintTone &thin = *(above - 1), &dense = *above;
    const double width = dense.over_paper - thin.over_paper;
    if (width <= kStraightBetween) {
        const double there = std::lerp(thin.density, dense.density, (over_paper - thin.over_paper) / width);
        return {there, there};
    }
    return {std::min(thin.density, dense.density), std::max(thin.density, dense.density)};
}

// How much denser one half is at each of its tones, at least; those at which that is open are left out.
std::vector<double> denser_by(const PrintCurve& one, const PrintCurve& other) {
    std::vector<double> apart;
    for (const PrintTone& tone : one.tones) {
        const Between there = between(other.tones, tone.over_paper);
        if (there.least == there.most || tone.density < there.least || tone.density > there.most)
            apart.push_back(tone.density - std::clamp(tone.density, there.least, there.most));
    }
    return apart;
}

// What the tones say of the first half against the second.
struct Evidence {
    double denser = 0, against = 0;  ///< D; share of the tones that say the opposite
    std::size_t tones = 0;
};

Evidence evidence(const std::array<HalfSeen, 2>& halves, double same) {
    const auto& [first, second] = halves;
    std::vector<double> apart = denser_by(first.curve, second.curve);
    for (const double each : denser_by(second.curve, first.curve)) apart.push_back(-each);
    if (first.border && second.border) apart.push_back(*first.border - *second.border);
    Evidence found{0, 0, apart.size()};
    if (apart.empty()) return found;
    for (const double each : apart) found.denser += std::clamp(each, -kMostOfATone, kMostOfATone);
    found.denser /= double(apart.size());
    const double sign = found.denser > 0 ? 1 : -1;
    found.against = double(std::ranges::count_if(apart, [&](double each) { return sign * each < -same; })) /
                    double(apart.size());
    return found;
}

// Why the tones do not tell, if so.
std::optional<std::string> open_question(const Evidence& found, double same) {
    const std::string which = "which half was bleached cannot be told: ";
    if (found.tones < kFewestInCommon) return which + "they have no tones in common";
    if (found.against > kMostAgainst) return which + "each is the denser one in some tones";
    if (std::abs(found.denser) < same)
        return which + "they differ by " + fixed(std::abs(found.denser), 3) + " D";
    return std::nullopt;
}

ScanPlace middle_of(const std::array<ScanPlace, 4>& corners) {
    ScanPlace middle{0, 0};
    for (const ScanPlace& corner : corners) middle.x += corner.x / 4, middle.y += corner.y / 4;
    return middle;
}

std::size_t half_at(HalfSide side, const std::array<HalfSeen, 2>& halves, const std::string& place) {
    const ScanPlace first = middle_of(halves[0].corners), second = middle_of(halves[1].corners);
    const double right = second.x - first.x, down = second.y - first.y;
    const bool across = side == HalfSide::left || side == HalfSide::right;
    if (across != (std::abs(right) > std::abs(down)))
        throw Error(Fault::data, place,
                    std::string("the bleached half is given as the ") + word_of(side) + " one",
                    across ? "upper or lower, as these halves lie" : "left or right, as these halves lie");
    const bool second_is_far = (across ? right : down) > 0;
    return second_is_far == (side == HalfSide::right || side == HalfSide::lower) ? 1 : 0;
}

}  // namespace

std::size_t bleached_half(const std::array<HalfSeen, 2>& halves, const HalfAsked& asked,
                          const std::string& place, std::vector<std::string>& warnings) {
    const double same = asked.is_evened ? kLikeHalves : kLikeHalvesUneven;
    const Evidence found = evidence(halves, same);
    const auto open = open_question(found, same);
    const std::size_t lighter = found.denser > 0 ? 1 : 0;
    if (asked.bleached) {
        const std::size_t told = half_at(*asked.bleached, halves, place);
        if (!open && told != lighter)
            warnings.push_back("the half that is told as bleached is the denser one, by " +
                               fixed(std::abs(found.denser), 2) + " D in the tones that both have");
        return told;
    }
    if (open)
        throw Error(Fault::data, place, *open,
                    std::string("--bleached-half ") + kHalfSidesAllowed + ", as it lies on the scan");
    return lighter;
}

}  // namespace fogproof::reading
