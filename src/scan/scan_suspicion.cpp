// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/scan_suspicion.hpp"

#include <array>
#include <cmath>
#include <string>

#include "scan/frame_sides.hpp"
#include "scan/scan_colours.hpp"

namespace fogproof::scan {
namespace {

std::optional<NegativeDensity> clear_of(const Framing& framed) {
    if (!framed.clear_light) return std::nullopt;
    return NegativeDensity{-std::log10(*framed.clear_light)};
}

std::string words_for(const std::array<bool, 4>& sides) {
    constexpr std::array kNames{"top", "bottom", "left", "right"};
    std::string words;
    for (const Side side : kSides)
        if (sides[side]) words += (words.empty() ? "" : " and ") + std::string(kNames[side]);
    return words;
}

}  // namespace

std::optional<ScanColour> colour_of(const ScanPixels& lying, const Framing& framed) {
    return scan_colour(colour_samples(lying.file, lying.channel, framed.frame), clear_of(framed));
}

bool wants_blue_and_green(const ScanOptions& options, const std::optional<ScanColour>& colour) {
    if (options.kind == ScanOptions::Kind::positive || !colour) return false;
    return options.channels == ScanOptions::Channels::blue_green ||
           (options.channels == ScanOptions::Channels::found && colour->is_masked());
}

ScanEvidence scan_evidence(const ScanPixels& pixels, const ScanOptions& options, const Framing& framed,
                           std::optional<ScanColour> colour) {
    const ScanChannel& channel = pixels.channel;
    ScanEvidence seen;
    seen.as_positive = options.kind == ScanOptions::Kind::positive;
    seen.kind_is_told = !seen.as_positive && options.kind_is_told;
    seen.encoding_is_told = options.encoding.has_value();
    seen.linear_is_guess = channel.source == CodingSource::guess && pixels.file.format() != VIPS_FORMAT_UCHAR;
    seen.may_hold_rim = !options.frame && !options.whole && !framed.frame_is_found;
    seen.on_holder = words_for(framed.on_holder);
    seen.pictures = framed.pictures;
    const Region& first = framed.first_picture;
    seen.first_picture = std::to_string(first.left) + "," + std::to_string(first.top) + "," +
                         std::to_string(first.width) + "," + std::to_string(first.height);
    seen.clear_is_given = options.clear_region || options.clear_value;
    seen.has_own_codes = !channel.to_light;
    seen.channels_are_told = options.channels != ScanOptions::Channels::found;
    seen.by_blue_and_green = wants_blue_and_green(options, colour) && !channel.bands_light[0].empty();
    seen.around = framed.around;
    seen.found_clear = clear_of(framed);
    seen.colour = colour;
    return seen;
}

}  // namespace fogproof::scan
