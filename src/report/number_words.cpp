// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/number_words.hpp"

#include <algorithm>
#include <array>

namespace fogproof::report {
namespace {

struct SectionWords {
    std::string_view section, words;
};
struct NumberWords {
    std::string_view section, key, words;
};

// Names that say what they mean have no row.
constexpr std::array kSectionWords{
    SectionWords{"grains", "contrast"},
    SectionWords{kEdgeFogSection, "fog of the edges"},
    SectionWords{"develop", "development"},
    SectionWords{kFilterSetSection, "filters nobody measured"},
    SectionWords{"bath", "bleach bath"},
    SectionWords{"redevelop", "redevelopment"},
    SectionWords{"tone", "tone of the silver"},
    SectionWords{"anchor", "setting of the pack's seconds"},
    SectionWords{kTonerSections[0], "sulphide toner"},
    SectionWords{kTonerSections[1], "thiourea toner"},
    SectionWords{kTonerSections[2], "selenium toner"},
};

// Keys that say what they mean have no row.
constexpr std::array kNumberWords{
    NumberWords{"paper", "white_a", "tint"},
    NumberWords{"paper", "white_b", "tint"},
    NumberWords{"paper", "surface_light", "surface"},
    NumberWords{"paper", "iso_range", "contrast"},
    NumberWords{"fog", "time_exponent", "growth with development"},
    NumberWords{kEdgeFogSection, "reach_mm", "reach"},
    NumberWords{"speed", "log_seconds", "seconds"},
    NumberWords{"grains", "spread", "all grains"},
    NumberWords{"grains", "green_spread", "reach of the filters"},
    NumberWords{"grains", "skew", "toe and shoulder"},
    NumberWords{"grains", "peak", "middle and ends"},
    NumberWords{"restrainer", "stock_percent", "strength of the stock"},
    NumberWords{"restrainer", "half_ml_l", "dose that halves the fog"},
    NumberWords{"restrainer", "steepness", "how abruptly it acts"},
    NumberWords{"restrainer", "fog_floor", "fog that it leaves"},
    NumberWords{"restrainer", "speed_loss", "speed that it costs"},
    NumberWords{"restrainer", "speed_bend", "speed at other doses"},
    NumberWords{"develop", "time_s", "time"},
    NumberWords{"develop", "temperature_c", "temperature"},
    NumberWords{"develop", "appears_s", "first trace"},
    NumberWords{"develop", "rise_s", "pace"},
    NumberWords{"develop", "speed_gain", "speed with time"},
    NumberWords{"develop", "per_kelvin", "pace with warmth"},
    NumberWords{kFilterSetSection, "hard_loss", "loss from 4 on"},
    NumberWords{"bleach", "starvation", "thin tones first"},
    NumberWords{"bleach", "order", "last traces"},
    NumberWords{"bleach", "time_exponent", "pace with time"},
    NumberWords{"bleach", "per_second", "pace"},
    NumberWords{"bleach", "dilution_exponent", "pace with dilution"},
    NumberWords{"bleach", "soak_s", "soaking"},
    NumberWords{"bleach", "per_kelvin", "pace with warmth"},
    NumberWords{"bath", "ferricyanide_g_l", "ferricyanide"},
    NumberWords{"bath", "bromide_g_l", "bromide"},
    NumberWords{"bath", "parts", "dilution"},
    NumberWords{"bath", "temperature_c", "temperature"},
    NumberWords{"redevelop", "covering", "density that comes back"},
    NumberWords{"redevelop", "recoverable", "share that comes back"},
    NumberWords{"redevelop", "rise_s", "pace"},
    NumberWords{"tone", "silver", "developed"},
    NumberWords{"tone", "thinned", "bleached"},
    NumberWords{"tone", "stain", "stain of the bleach"},
    NumberWords{"enlarger", "callier", "Callier factor"},
    NumberWords{"enlarger", "f_number", "f-number"},
    NumberWords{"anchor", "f_number", "f-number"},
    NumberWords{"anchor", "lux", "illuminance"},
    NumberWords{"scatter", "law", "misfit of the laws"},
    NumberWords{"scatter", "sheet", "from sheet to sheet"},
};

constexpr std::array kTonerWords{
    NumberWords{"", "covering", "density"},  NumberWords{"", "rise_s", "pace"},
    NumberWords{"", "tone", "colour"},       NumberWords{"", "purple", "colour"},
    NumberWords{"", "patch_l", "its patch"}, NumberWords{"", "patch_a", "its patch"},
    NumberWords{"", "patch_b", "its patch"}, NumberWords{"", "lights", "what it spares"},
};

}  // namespace

std::string_view section_words(std::string_view section) {
    const auto found = std::ranges::find(kSectionWords, section, &SectionWords::section);
    return found == kSectionWords.end() ? section : found->words;
}

std::string_view number_words(const PackNumber& number) {
    if (is_of_toner(number)) {
        const auto found = std::ranges::find(kTonerWords, number.key, &NumberWords::key);
        return found == kTonerWords.end() ? number.key : found->words;
    }
    const auto found = std::ranges::find_if(kNumberWords, [&](const NumberWords& row) {
        return row.section == number.section && row.key == number.key;
    });
    return found == kNumberWords.end() ? number.key : found->words;
}

}  // namespace fogproof::report
