// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Ranges are what a paper, a bath or an enlarger can plausibly be, wide enough for odd ones; they are
// judgement and keep slips of the pen out.
#include "pack/schema.hpp"

#include <algorithm>
#include <array>

#include "pack/treatment_limits.hpp"

namespace fogproof::pack {
namespace {

template <class Owner, class Path>
constexpr NumberRow<Owner> row(std::string_view section, std::string_view key, std::string_view unit,
                               double minimum, double maximum, std::string_view description, double doubt,
                               Path) {
    return {section,
            key,
            unit,
            minimum,
            maximum,
            description,
            doubt,
            [](Owner& owner) -> double& { return Path{}(owner); },
            [](const Owner& owner) { return double(Path{}(owner)); }};
}

// The member a row stands for, of a constant or a changeable owner alike.
#define FOGPROOF_MEMBER(path)  \
    [](auto& owner) -> auto& { \
        return owner.path;     \
    }

// One of a departure's coefficients.
#define FOGPROOF_DEPARTURE(number, key, widest, doubt, words, member)                  \
    row<Pack>(kDepartureSection, key "_" #number, "", -(widest), widest, words, doubt, \
              FOGPROOF_MEMBER(member[(number)-1]))

// The numbers of one toner.
#define FOGPROOF_TONER_ROWS(i, toner)                                                                    \
    row<Pack>(kTonerSections[i], "covering", "", 0.1, 2,                                                 \
              "Density of toned silver over that of the silver it was", 0.06,                            \
              FOGPROOF_MEMBER(redevelop.toner.covering)),                                                \
        row<Pack>(kTonerSections[i], "rise_s", "s", 1, 3600, "Time constant of its toning", 15,          \
                  FOGPROOF_MEMBER(redevelop.toner.rise_s)),                                              \
        row<Pack>(kTonerSections[i], "tone", "", -2, 4, "Warmth of toned silver; 0 is neutral", 0.5,     \
                  FOGPROOF_MEMBER(sheet.toner.tone)),                                                    \
        row<Pack>(kTonerSections[i], "purple", "", -0.2, 1, "Its share of green density over that", 0.1, \
                  FOGPROOF_MEMBER(sheet.toner.purple)),                                                  \
        row<Pack>(kTonerSections[i], "patch_l", "", 0, 99,                                               \
                  "L* of a measured patch, all its silver toned, dry, under D50; 0: none", 0,            \
                  FOGPROOF_MEMBER(sheet.toner.patch.l)),                                                 \
        row<Pack>(kTonerSections[i], "patch_a", "", -20, 40, "Its a*", 0,                                \
                  FOGPROOF_MEMBER(sheet.toner.patch.a)),                                                 \
        row<Pack>(kTonerSections[i], "patch_b", "", -30, 60, "Its b*", 0,                                \
                  FOGPROOF_MEMBER(sheet.toner.patch.b))

// How far papers depart from the laws in their grains and their bleach. Judgement, tried on computed papers
// of other laws.
constexpr double kSlopeDoubt = 0.25, kMoreDoubt = 0.4, kSlowerDoubt = 0.06, kPaceDoubt = 0.3,
                 kQuickerDoubt = 0.2;

// What a departure's coefficients mean.
constexpr std::string_view kSteeper = "ln of how much steeper the grains are here";
constexpr std::string_view kMore = "ln of how many more grains have this sensitisation";
constexpr std::string_view kSlower = "log10 exposure these want more";
constexpr std::string_view kLonger = "ln of how much longer this density bleaches";
constexpr std::string_view kQuicker = "ln of how much faster the dose grows with ln of time here";

constexpr std::array kSections{
    PackSection{"paper", "The sheet itself. Densities are visual reflection densities of the dry sheet."},
    PackSection{"fog", "What age did to it."},
    PackSection{kEdgeFogSection,
                "Fog that came in from the edges of the sheets, over that of the middle, which [fog] tells."},
    PackSection{"speed", "How much light it wants."},
    PackSection{"grains", "How unlike each other its grains are; this makes the contrast."},
    PackSection{"restrainer", "What restrainer in the developer does; amounts in ml of stock per litre."},
    PackSection{"develop", "The development all numbers above refer to, and how the image grows."},
    PackSection{kFilterSetSection,
                "How far filters that nobody measured lie from the standard's table of ranges."},
    PackSection{"bleach", "How its silver goes in a bath of 1+50."},
    PackSection{"bath", "The bleach as mixed."},
    PackSection{"redevelop", "How bleached silver comes back."},
    PackSection{"tone", "The colour of the silver; 0 is neutral, higher is warmer."},
    PackSection{kTonerSections[0],
                "Sepia toner of sulphide, after a bleach. A patch_l above 0 is the L* of a measured patch, "
                "all its silver toned, dry, under D50."},
    PackSection{kTonerSections[1], "Sepia toner of thiourea, of one colour whatever its alkali."},
    PackSection{kTonerSections[2], "Selenium toner, which works on the silver that was not bleached."},
    PackSection{"enlarger", "The light path in use."},
    PackSection{
        "anchor",
        "The head setting at which the seconds of [speed] hold, and what they were measured through."},
    PackSection{kDepartureSection,
                "Where this paper does not go by the numbers above, learnt by a fit. Not made to be edited."},
    PackSection{"scatter", "What no constant explains, one standard deviation."},
};

constexpr std::array kNumbers{
    row<Pack>("paper", "white", "D", 0, 0.5, "Slip that was only fixed", 0.03,
              FOGPROOF_MEMBER(sheet.white_density)),
    row<Pack>("paper", "white_a", "", -20, 20, "Its CIELAB a* under D50", 1, FOGPROOF_MEMBER(sheet.white_a)),
    row<Pack>("paper", "white_b", "", -20, 40, "Its CIELAB b* under D50, below 0 bluish, above 0 cream", 3,
              FOGPROOF_MEMBER(sheet.white_b)),
    row<Pack>("paper", "surface_light", "", 0, 0.06,
              "Share of the viewing light that the surface throws into the eye", 0.002,
              FOGPROOF_MEMBER(sheet.surface)),
    row<Pack>("paper", "black", "D", 0.75, 2.6, "Every grain developed", 0.1, FOGPROOF_MEMBER(black_density)),
    row<Pack>("paper", "iso_range", "", 35, 220,
              "ISO range R of a graded paper without fog; variable-contrast paper ignores it", 15,
              FOGPROOF_MEMBER(iso_range)),
    row<Pack>("fog", "blank", "D", 0, 2.5, "Slip developed without exposure and without restrainer", 0.1,
              FOGPROOF_MEMBER(blank_density)),
    row<Pack>("fog", "time_exponent", "", 0, 3, "Fog grows with development time to this power", 0.3,
              FOGPROOF_MEMBER(fog_time_exponent)),
    row<Pack>(kEdgeFogSection, "density", "D", 0, 1.5,
              "At the very edge, over the blank's, of a sheet developed as the blank", 0.06,
              FOGPROOF_MEMBER(edge_fog.density)),
    row<Pack>(kEdgeFogSection, "reach_mm", "mm", 0, 500,
              "From the edge to where a tenth of it is left; a map goes before it", 5,
              FOGPROOF_MEMBER(edge_fog.reach_mm)),
    row<Pack>(
        "speed", "log_seconds", "log10 s", -3, 4,
        "log10 of the seconds, to the power of reciprocity, that give 0.60 above white without fog, through "
        "what lay in the carrier at the anchor",
        0.5, FOGPROOF_MEMBER(speed_log_s)),
    row<Pack>("grains", "spread", "log10", 0.05, 0.8,
              "Standard deviation of log sensitivity; graded paper takes it from its ISO range", 0.03,
              FOGPROOF_MEMBER(grains.spread)),
    row<Pack>("grains", "green_spread", "log10", 0, 1.5,
              "Standard deviation of log green sensitivity; 0 leaves filters without effect", 0.1,
              FOGPROOF_MEMBER(grains.green_spread)),
    row<Pack>("grains", "skew", "", -0.6, 0.6,
              "Departure from a normal population: above 0 the shoulder is steeper than the toe", 0.2,
              FOGPROOF_MEMBER(grains.skew)),
    row<Pack>("grains", "peak", "", -0.3, 1,
              "Departure from a normal population: above 0 the middle is steeper than both ends", 0.15,
              FOGPROOF_MEMBER(grains.peak)),
    row<Pack>("restrainer", "stock_percent", "g/100 ml", 0.1, 60, "Of its agent in the restrainer stock", 0,
              FOGPROOF_MEMBER(darkroom.restrainer_stock_percent)),
    row<Pack>("restrainer", "half_ml_l", "ml/L", 0.5, 500, "Amount that halves the fog in its reach", 6,
              FOGPROOF_MEMBER(restrainer.half_ml_l)),
    row<Pack>("restrainer", "steepness", "", 0.2, 5, "How abruptly it takes hold", 0.3,
              FOGPROOF_MEMBER(restrainer.steepness)),
    row<Pack>("restrainer", "fog_floor", "", 0, 0.9, "Share of the fog that no amount takes away", 0.07,
              FOGPROOF_MEMBER(restrainer.fog_floor)),
    row<Pack>("restrainer", "speed_loss", "log10", 0, 2,
              "Log exposure lost at nine times half_ml_l, with no bend", 0.45,
              FOGPROOF_MEMBER(restrainer.speed_loss)),
    row<Pack>("restrainer", "speed_bend", "", -1.5, 1.5,
              "The loss goes with the logarithm of the dose at 0, with the dose at 1, levels off at -1", 0.8,
              FOGPROOF_MEMBER(restrainer.speed_bend)),
    row<Pack>("develop", "time_s", "s", 10, 1800, "Nominal time", 0, FOGPROOF_MEMBER(development.nominal_s)),
    row<Pack>("develop", "temperature_c", "C", 10, 35, "Nominal temperature", 0,
              FOGPROOF_MEMBER(development.nominal_c)),
    row<Pack>("develop", "appears_s", "s", 0, 600, "Time until the image begins to show", 3,
              FOGPROOF_MEMBER(development.induction_s)),
    row<Pack>("develop", "rise_s", "s", 1, 600, "Time constant of the image's growth after that", 6,
              FOGPROOF_MEMBER(development.rise_s)),
    row<Pack>("develop", "speed_gain", "log10", 0, 2, "Log exposure gained by ten times the time", 0.1,
              FOGPROOF_MEMBER(development.speed_gain)),
    row<Pack>("develop", "per_kelvin", "1/K", 0, 0.3, "Relative quickening per kelvin", 0.02,
              FOGPROOF_MEMBER(development.per_kelvin)),
    row<Pack>(kFilterSetSection, "shift", "log10", -1.5, 1.5, "Green over blue light of all filters", 0.3,
              FOGPROOF_MEMBER(filter_set.shift)),
    row<Pack>(kFilterSetSection, "slope", "log10", -0.8, 0.8, "The same for each grade above 2 1/2", 0.15,
              FOGPROOF_MEMBER(filter_set.slope)),
    row<Pack>(kFilterSetSection, "loss", "log10", -0.5, 0.5, "Log exposure lost for each grade above 2 1/2",
              0.05, FOGPROOF_MEMBER(filter_set.loss)),
    row<Pack>(kFilterSetSection, "hard_loss", "log10", -0.5, 1,
              "Log exposure lost besides by filters 4 and harder; 0.3 where they want twice the time", 0.15,
              FOGPROOF_MEMBER(filter_set.hard_loss)),
    row<Pack>("bleach", "starvation", "D", 0, 50,
              "Layer density below which silver goes in proportion to itself, above it at a fixed rate; at "
              "0.03 to 0.06 mid-tones lighten less than blanks, at 0.10 to 0.15 the print that is right once "
              "cleared starts about a stop darker",
              0.04, FOGPROOF_MEMBER(bleach.starvation)),
    row<Pack>("bleach", "order", "", 0.4, 1.6,
              "Below 1 thin deposits clear in a finite time, above 1 they linger", 0.2,
              FOGPROOF_MEMBER(bleach.order)),
    row<Pack>("bleach", "time_exponent", "", 0.4, 1.6,
              "Dose grows with time to this power; below 1 the bleach slows down", 0.15,
              FOGPROOF_MEMBER(bleach.time_exponent)),
    row<Pack>("bleach", "per_second", "D/s", 1e-6, 1, "Layer density that goes in a second", 0.001,
              FOGPROOF_MEMBER(bleach.per_second)),
    row<Pack>("bleach", "dilution_exponent", "", 0, 3, "Rate goes with strength to this power", 0.2,
              FOGPROOF_MEMBER(bleach.dilution_exponent)),
    row<Pack>("bleach", "soak_s", "s", 0, 300, "Time until the bath has reached the silver", 3,
              FOGPROOF_MEMBER(bleach.soak_s)),
    row<Pack>("bleach", "per_kelvin", "1/K", 0, 0.3, "Relative quickening per kelvin", 0.01,
              FOGPROOF_MEMBER(bleach.per_kelvin)),
    row<Pack>("bath", "ferricyanide_g_l", "g/L", 1, 460, "Potassium ferricyanide in the concentrate", 0,
              FOGPROOF_MEMBER(darkroom.bath.ferricyanide_g_l)),
    row<Pack>("bath", "bromide_g_l", "g/L", 0, 650, "Potassium bromide in the concentrate", 0,
              FOGPROOF_MEMBER(darkroom.bath.bromide_g_l)),
    row<Pack>("bath", "parts", "", 0, 1000, "N of the dilution 1+N", 0, FOGPROOF_MEMBER(darkroom.bath.parts)),
    row<Pack>("bath", "temperature_c", "C", 10, 35, "Temperature of the bath", 0,
              FOGPROOF_MEMBER(darkroom.bath.temperature_c)),
    row<Pack>("redevelop", "covering", "", 0.1, 2,
              "Density of silver given back over that of the silver it was", 0.1,
              FOGPROOF_MEMBER(redevelop.covering)),
    row<Pack>("redevelop", "recoverable", "", 0, 1, "Share of the bleached silver that can come back", 0.1,
              FOGPROOF_MEMBER(redevelop.recoverable)),
    row<Pack>("redevelop", "rise_s", "s", 1, 600, "Time constant of its return", 10,
              FOGPROOF_MEMBER(redevelop.rise_s)),
    row<Pack>("tone", "silver", "", -2, 4, "Developed silver", 0.05, FOGPROOF_MEMBER(sheet.silver_tone)),
    row<Pack>("tone", "thinned", "", -2, 4, "Added where nearly all silver was bleached away", 0.2,
              FOGPROOF_MEMBER(sheet.thinned_tone)),
    row<Pack>("tone", "redeveloped", "", -2, 4, "Redeveloped silver", 0.3,
              FOGPROOF_MEMBER(sheet.redeveloped_tone)),
    row<Pack>("tone", "stain", "D", 0, 1, "Blue density of bleach stain per density of silver bleached away",
              0.03, FOGPROOF_MEMBER(sheet.stain)),
    FOGPROOF_TONER_ROWS(0, sulphide),
    FOGPROOF_TONER_ROWS(1, thiourea),
    FOGPROOF_TONER_ROWS(2, selenium),
    row<Pack>(kTonerSections[2], "lights", "D", 0, 2,
              "Layer density of which half the share of the darkest is toned", 0.08,
              FOGPROOF_MEMBER(redevelop.selenium_lights)),
    row<Pack>("enlarger", "callier", "", 1, 2, "Callier factor: 1 to 1.05 diffuser, 1.2 to 1.5 condenser",
              0.1, FOGPROOF_MEMBER(darkroom.enlarger.callier)),
    row<Pack>("enlarger", "flare", "", 0, 0.3, "Share of the frame's mean light spread evenly over the easel",
              0.01, FOGPROOF_MEMBER(darkroom.enlarger.flare)),
    row<Pack>("enlarger", "reciprocity", "", 0.5, 1.2,
              "Seconds count to this power; 1 where doubling the time doubles the effect", 0.04,
              FOGPROOF_MEMBER(darkroom.enlarger.reciprocity)),
    row<Pack>("enlarger", "magnification", "", kMagnificationLimits.minimum, kMagnificationLimits.maximum,
              "Long side of the print over that of the frame", 0,
              FOGPROOF_MEMBER(darkroom.enlarger.setting.magnification)),
    row<Pack>("enlarger", "f_number", "", kFNumberLimits.minimum, kFNumberLimits.maximum,
              "Aperture of the enlarging lens", 0, FOGPROOF_MEMBER(darkroom.enlarger.setting.f_number)),
    row<Pack>("anchor", "magnification", "", kMagnificationLimits.minimum, kMagnificationLimits.maximum,
              "Magnification then", 0, FOGPROOF_MEMBER(darkroom.enlarger.anchor.magnification)),
    row<Pack>("anchor", "f_number", "", kFNumberLimits.minimum, kFNumberLimits.maximum, "Aperture then", 0,
              FOGPROOF_MEMBER(darkroom.enlarger.anchor.f_number)),
    row<Pack>("anchor", "lux", "lx", 0, 100000,
              "Illuminance on the easel then, through what lay in the carrier; 0 if nobody measured it", 0,
              FOGPROOF_MEMBER(darkroom.anchor_lux)),
    FOGPROOF_DEPARTURE(1, "slope", 3, kSlopeDoubt, kSteeper, grains.departure.slope),
    FOGPROOF_DEPARTURE(2, "slope", 3, kSlopeDoubt, kSteeper, grains.departure.slope),
    FOGPROOF_DEPARTURE(3, "slope", 3, kSlopeDoubt, kSteeper, grains.departure.slope),
    FOGPROOF_DEPARTURE(4, "slope", 3, kSlopeDoubt, kSteeper, grains.departure.slope),
    FOGPROOF_DEPARTURE(5, "slope", 3, kSlopeDoubt, kSteeper, grains.departure.slope),
    FOGPROOF_DEPARTURE(6, "slope", 3, kSlopeDoubt, kSteeper, grains.departure.slope),
    FOGPROOF_DEPARTURE(7, "slope", 3, kSlopeDoubt, kSteeper, grains.departure.slope),
    FOGPROOF_DEPARTURE(1, "more", 4, kMoreDoubt, kMore, grains.departure.more),
    FOGPROOF_DEPARTURE(2, "more", 4, kMoreDoubt, kMore, grains.departure.more),
    FOGPROOF_DEPARTURE(3, "more", 4, kMoreDoubt, kMore, grains.departure.more),
    FOGPROOF_DEPARTURE(4, "more", 4, kMoreDoubt, kMore, grains.departure.more),
    FOGPROOF_DEPARTURE(5, "more", 4, kMoreDoubt, kMore, grains.departure.more),
    FOGPROOF_DEPARTURE(1, "slower", 1.2, kSlowerDoubt, kSlower, grains.departure.slower),
    FOGPROOF_DEPARTURE(2, "slower", 1.2, kSlowerDoubt, kSlower, grains.departure.slower),
    FOGPROOF_DEPARTURE(3, "slower", 1.2, kSlowerDoubt, kSlower, grains.departure.slower),
    FOGPROOF_DEPARTURE(4, "slower", 1.2, kSlowerDoubt, kSlower, grains.departure.slower),
    FOGPROOF_DEPARTURE(5, "slower", 1.2, kSlowerDoubt, kSlower, grains.departure.slower),
    FOGPROOF_DEPARTURE(1, "pace", 3, kPaceDoubt, kLonger, bleach.pace),
    FOGPROOF_DEPARTURE(2, "pace", 3, kPaceDoubt, kLonger, bleach.pace),
    FOGPROOF_DEPARTURE(3, "pace", 3, kPaceDoubt, kLonger, bleach.pace),
    FOGPROOF_DEPARTURE(4, "pace", 3, kPaceDoubt, kLonger, bleach.pace),
    FOGPROOF_DEPARTURE(5, "pace", 3, kPaceDoubt, kLonger, bleach.pace),
    FOGPROOF_DEPARTURE(6, "pace", 3, kPaceDoubt, kLonger, bleach.pace),
    FOGPROOF_DEPARTURE(1, "quicker", 2, kQuickerDoubt, kQuicker, bleach.quicker),
    FOGPROOF_DEPARTURE(2, "quicker", 2, kQuickerDoubt, kQuicker, bleach.quicker),
    FOGPROOF_DEPARTURE(3, "quicker", 2, kQuickerDoubt, kQuicker, bleach.quicker),
    FOGPROOF_DEPARTURE(4, "quicker", 2, kQuickerDoubt, kQuicker, bleach.quicker),
    FOGPROOF_DEPARTURE(5, "quicker", 2, kQuickerDoubt, kQuicker, bleach.quicker),
    FOGPROOF_DEPARTURE(6, "quicker", 2, kQuickerDoubt, kQuicker, bleach.quicker),
    row<Pack>("scatter", "law", "D", 0, 0.5, "By which the paper does not obey the laws; learnt by a fit", 0,
              FOGPROOF_MEMBER(law_scatter)),
    row<Pack>("scatter", "sheet", "D", 0, 0.5, "From one sheet to the next; learnt by a fit unless stated", 0,
              FOGPROOF_MEMBER(sheet_scatter)),
};

constexpr std::array kFilterNumbers{
    row<PackFilter>("filter", "grade", "", -1, 6, "Number on the filter", 0, FOGPROOF_MEMBER(grade)),
    row<PackFilter>("filter", "balance", "log10", -5, 5,
                    "log10 of the green over the blue light it lets through, as this paper sees it", 0,
                    FOGPROOF_MEMBER(balance)),
    row<PackFilter>("filter", "speed", "log10", -2, 2,
                    "Log exposure by which the 0.60 point is faster than [speed] says", 0,
                    FOGPROOF_MEMBER(speed)),
};

#undef FOGPROOF_DEPARTURE
#undef FOGPROOF_TONER_ROWS
#undef FOGPROOF_MEMBER

}  // namespace

std::span<const PackSection> pack_sections() {
    return kSections;
}

std::span<const PackNumber> pack_numbers() {
    return kNumbers;
}

std::span<const FilterNumber> filter_numbers() {
    return kFilterNumbers;
}

const PackNumber* pack_number(std::string_view name) {
    const auto row = std::find_if(kNumbers.begin(), kNumbers.end(),
                                  [&](const PackNumber& number) { return number.name() == name; });
    return row == kNumbers.end() ? nullptr : &*row;
}

}  // namespace fogproof::pack
