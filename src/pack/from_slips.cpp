// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/from_slips.hpp"

#include <algorithm>
#include <cmath>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/pack/grades.hpp"
#include "pack/grade_words.hpp"
#include "pack/schema.hpp"
#include "pack/toml_file.hpp"

namespace fogproof::pack {
namespace {

// A label without a grade was most often the middle one. Judgement.
constexpr double kCommonGrade = 2;

// Judgement: what a printer calls neutral, cold and warm base, in CIELAB.
TintReading reading_of(Tint tint) {
    switch (tint) {
        case Tint::neutral:
            return {0, 0};
        case Tint::cold:
            return {0, -3};
        case Tint::warm:
            return {0.5, 6};
    }
    return {0, 0};
}

// One standard deviation of a density read once off a slip, in D; judgement: densitometers repeat to 0.01 to
// 0.02.
constexpr double kOneReading = 0.01;

// R; standard deviation of a label's grade. A grade's limits are 15 to 30 R apart (ANSI PH2.2-1966, from
// memory), labels differ by half a grade between makers, and an old paper is no longer what its label says.
// Judgement.
constexpr double kLabelledRange = 10;

void take(Pack& pack, const std::string& name, double value, Origin origin,
          std::optional<double> deviation = std::nullopt) {
    const PackNumber* row = pack_number(name);
    const Limits limits{row->minimum, row->maximum, row->unit};
    if (!within(value, limits))
        throw Error(Fault::usage, std::string(row->key), shortest(value), limits_in_words(limits));
    row->in(pack) = value;
    if (origin != Origin::assumed) pack.knowledge[name] = {origin, deviation};
}

void take_contrast(Pack& pack, const Slips& slips) {
    if (slips.contrast == Contrast::variable && (slips.grade || slips.iso_range))
        throw Error(Fault::usage, "grade or ISO range", "given for variable-contrast paper",
                    "with graded paper");
    if (slips.grade && slips.iso_range)
        throw Error(Fault::usage, "grade and ISO range", "both given", "one of them");
    if (slips.grade && !(*slips.grade >= 0 && *slips.grade <= 5))
        throw Error(Fault::usage, "grade", grade_name(*slips.grade), "0 to 5");
    if (slips.grade && *slips.grade != std::floor(*slips.grade))
        throw Error(Fault::usage, "grade", grade_name(*slips.grade) + " is no graded paper's number",
                    "0, 1, 2, 3, 4, 5; paper between two of them by its ISO range, here " +
                        decimal(iso_range_of_grade(*slips.grade), 0));
    pack.contrast = slips.contrast;
    pack.knowledge["paper.contrast"] = {Origin::given, std::nullopt};
    if (slips.iso_range)
        take(pack, "paper.iso_range", *slips.iso_range, Origin::given);
    else if (slips.grade)
        take(pack, "paper.iso_range", iso_range_of_grade(*slips.grade), Origin::given, kLabelledRange);
    else
        take(pack, "paper.iso_range", iso_range_of_grade(kCommonGrade), Origin::assumed);
}

// So strong or weak a stock would halve the fog by an amount that no pack may hold.
void require_stock_of_agent(const Pack& pack, const RestrainerDefaults& usual) {
    const PackNumber* half = pack_number("restrainer.half_ml_l");
    const PackNumber* stock = pack_number("restrainer.stock_percent");
    const double told = pack.darkroom.restrainer_stock_percent,
                 halves = usual.half_ml_l * usual.stock_percent;
    const Limits limits{std::max(stock->minimum, halves / half->maximum),
                        std::min(stock->maximum, halves / half->minimum), stock->unit};
    if (within(told, limits)) return;
    const std::string agent(pack.darkroom.restrainer_agent == RestrainerAgent::unknown
                                ? "restrainer"
                                : agent_words()[std::size_t(pack.darkroom.restrainer_agent)]);
    throw Error(Fault::usage, "restrainer stock", shortest(told) + " g of " + agent + " in 100 ml",
                limits_in_words(limits));
}

void take_words(Pack& pack, const Slips& slips) {
    pack.darkroom.restrainer_agent = slips.restrainer_agent;
    if (slips.restrainer_agent != RestrainerAgent::unknown)
        pack.knowledge["restrainer.agent"] = {Origin::given, std::nullopt};
    const RestrainerDefaults restrainer = restrainer_defaults(slips.restrainer_agent);
    take(pack, "restrainer.stock_percent", slips.restrainer_stock_percent.value_or(restrainer.stock_percent),
         slips.restrainer_stock_percent ? Origin::given : Origin::assumed);
    require_stock_of_agent(pack, restrainer);
    if (slips.ferricyanide_g_l) take(pack, "bath.ferricyanide_g_l", *slips.ferricyanide_g_l, Origin::given);
    // What it does goes by the agent, not by the water it comes in.
    take(pack, "restrainer.half_ml_l",
         restrainer.half_ml_l * restrainer.stock_percent / pack.darkroom.restrainer_stock_percent,
         Origin::assumed);
    pack.darkroom.head = slips.head;
    if (slips.head != Head::unknown) pack.knowledge["enlarger.head"] = {Origin::given, std::nullopt};
    take(pack, "enlarger.callier", head_defaults(slips.head).callier, Origin::assumed);
}

void take_tint(Pack& pack, const std::variant<Tint, TintReading>& tint) {
    const auto* word = std::get_if<Tint>(&tint);
    const TintReading reading = word ? reading_of(*word) : std::get<TintReading>(tint);
    // A word is given, but its numbers are ours.
    const Origin origin = word ? Origin::assumed : Origin::measured;
    take(pack, "paper.white_a", reading.a, origin);
    take(pack, "paper.white_b", reading.b, origin);
}

}  // namespace

Pack pack_from_slips(const Slips& slips) {
    Pack pack;
    if (slips.name) pack.name = *slips.name;
    take(pack, "paper.white", slips.white_density, Origin::measured, kOneReading);
    take(pack, "fog.blank", slips.blank_density, Origin::measured, kOneReading);
    pack.surface = slips.surface;
    pack.knowledge["paper.surface"] = {Origin::given, std::nullopt};
    if (slips.black_density)
        take(pack, "paper.black", *slips.black_density, Origin::measured, kOneReading);
    else
        take(pack, "paper.black", surface_defaults(slips.surface).black_density, Origin::assumed);
    take(pack, "paper.surface_light", surface_light_over(slips.surface, pack.black_density), Origin::assumed);
    take_contrast(pack, slips);
    if (slips.tint) take_tint(pack, *slips.tint);
    take_words(pack, slips);
    check(pack, "slips");
    static_cast<void>(paper_model(pack));  // refuses what contradicts itself
    return pack;
}

std::vector<std::string> slip_doubts(const Slips& slips) {
    // D. Papers that were only fixed read 0.04 to 0.12, yellowed ones more; blanks much over 1 are hardly
    // ever printed on. Common practice, no source.
    constexpr double kLightestWhite = 0.02, kDarkestWhite = 0.2, kDarkestBlank = 1.2;
    std::vector<std::string> doubts;
    if (slips.white_density < kLightestWhite)
        doubts.push_back("white " + decimal(slips.white_density, 3) +
                         " D is lighter than any paper: densities count from a perfect white, not from the "
                         "paper; 0.04 to 0.12 is usual");
    if (slips.white_density > kDarkestWhite)
        doubts.push_back("white " + decimal(slips.white_density, 3) +
                         " D is dark for a slip that was only fixed; 0.04 to 0.12 is usual. Is it the other "
                         "slip, or one that saw developer?");
    if (slips.blank_density > kDarkestBlank)
        doubts.push_back("blank " + decimal(slips.blank_density, 2) +
                         " D is a fog that leaves hardly a print; was the slip kept from light?");
    return doubts;
}

}  // namespace fogproof::pack
