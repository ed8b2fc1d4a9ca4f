// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/black_time.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

#include "base/stop.hpp"
#include "choose/starting_exposure.hpp"
#include "fogproof/pack/grades.hpp"
#include "pack/carrier.hpp"
#include "pack/doubted.hpp"
#include "pack/schema.hpp"
#include "pack/uncertainty.hpp"

namespace fogproof::choose {
namespace {

// D; an eye takes a black for full that falls so much short of it, anywhere between these. Judgement.
constexpr double kLeastShort = 0.02, kMostShort = 0.08;

// D; one standard deviation of the base + fog of a film that nobody measured. Judgement.
constexpr double kBaseFogDoubt = 0.1;

// log10; how roughly an eye finds the first full black.
double doubt_of_eye(const Pack& pack, double grade) {
    const PaperModel paper = paper_model(pack);
    const Filter filter = filter_for(pack, paper, grade);
    const double spread = log_exposure_of_black(pack, paper, filter, kLeastShort) -
                          log_exposure_of_black(pack, paper, filter, kMostShort);
    return spread / std::sqrt(12.0);
}

// log10; how roughly the way is known from the speed point, where the middle tones lie, to the black that was
// seen: shoulders differ more than anything else between papers, and nobody measured this one.
double doubt_of_way_to_black(Pack pack, double grade) {
    constexpr std::array kShapes{"paper", "grains", "filter_set", "departure"};
    for (const PackNumber& row : pack_numbers())
        if (std::ranges::find(kShapes, row.section) == kShapes.end())
            pack.knowledge[row.name()] = {Origin::given, 0.0};
    const auto way = [grade](const Pack& other) {
        const PaperModel paper = paper_model(other);
        const Filter filter = FilterSet(other, paper).nearest(grade);
        return log_exposure_of_black(other, paper, filter, kFullBlack) - other.speed_log_s;
    };
    return Doubted<double>(pack, way).deviation(std::identity());
}

double density_of(const Carrier& carrier) {
    return carrier.held == Carrier::Held::density ? carrier.density : kUsualBaseFog;
}

// log10 seconds of full black through something in the carrier.
double log_black_s(Pack pack, double grade, const Carrier& through) {
    Enlarger& enlarger = pack.darkroom.enlarger;
    enlarger.anchor_carrier = Carrier::of(density_of(enlarger.anchor_carrier));
    enlarger.base_fog = density_of(through);
    const PaperModel paper = paper_model(pack);
    return std::log10(shortest_black(pack, paper, FilterSet(pack, paper).nearest(grade)).value);
}

}  // namespace

Pack anchored_by_black(Pack pack, const BlackTime& black) {
    pack.darkroom.enlarger.anchor = pack.darkroom.enlarger.setting;
    pack.darkroom.enlarger.anchor_carrier = black.through;
    pack.darkroom.anchored = true;
    const Seconds now = shortest_black(pack, paper_model(pack), black.grade);
    pack.speed_log_s += pack.darkroom.enlarger.reciprocity * std::log10(black.time.value / now.value);
    pack.knowledge["speed.log_seconds"] = {
        Origin::given, std::hypot(doubt_of_eye(pack, black.grade), doubt_of_way_to_black(pack, black.grade))};
    return pack;
}

bool has_own_seconds(const Pack& pack) {
    return pack.darkroom.anchored && pack.known("speed.log_seconds").origin != Origin::assumed;
}

BesideOwnSeconds beside_own_seconds(const Pack& pack, const BlackTime& black) {
    const Doubted<double> own(
        pack, [&black](const Pack& other) { return log_black_s(other, black.grade, black.through); });
    const Enlarger& enlarger = pack.darkroom.enlarger;
    const double of_film = black.through.held == enlarger.anchor_carrier.held ? 0 : kBaseFogDoubt;
    const double doubt = std::hypot(own.deviation(std::identity()), of_film / enlarger.reciprocity);
    const double of_eye = doubt_of_eye(pack, black.grade) / enlarger.reciprocity;
    const double here = own.likeliest(), apart = std::log10(black.time.value) - here;
    const auto seconds = [&](double sides) {
        return std::pow(10.0, here + sides * kWithin95Percent * doubt);
    };
    return {{seconds(0), seconds(-1), seconds(1)},
            apart / kLogPerStop,
            std::abs(apart) <= kWithin95Percent * std::hypot(doubt, of_eye)};
}

}  // namespace fogproof::choose
