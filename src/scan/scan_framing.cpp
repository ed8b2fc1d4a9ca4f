// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/scan_framing.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "scan/film_around.hpp"
#include "scan/frame_search.hpp"
#include "scan/scan_pixels.hpp"

namespace fogproof::scan {
namespace {

constexpr int kSmallScanSide = 640;   // of the copy in which the frame is searched
constexpr double kWorthSaying = 0.2;  // degrees

Region enlarged(const std::array<double, 4>& inset, const SmallScan& small, const ScanFile& file,
                int factor) {
    const auto pixels = [&](Side side) { return int(std::ceil(inset[side])) * factor; };
    // What the small copy has left over on the right and below belongs to those sides.
    const int right = inset[kRight] > 0 ? small.width * factor - pixels(kRight) : file.width();
    const int bottom = inset[kBottom] > 0 ? small.height * factor - pixels(kBottom) : file.height();
    return {pixels(kLeft), pixels(kTop), right - pixels(kLeft), bottom - pixels(kTop)};
}

std::array<double, 4> reduced(const Region& frame, const ScanFile& file, int factor) {
    return {double(frame.top) / factor, double(file.height() - frame.top - frame.height) / factor,
            double(frame.left) / factor, double(file.width() - frame.left - frame.width) / factor};
}

Region with_clear_edge(const Region& frame, const std::array<double, 4>& reach, const ScanFile& file,
                       int factor) {
    const int left = std::max(0, frame.left - int(reach[kLeft]) * factor);
    const int top = std::max(0, frame.top - int(reach[kTop]) * factor);
    const int right = std::min(file.width(), frame.left + frame.width + int(reach[kRight]) * factor);
    const int bottom = std::min(file.height(), frame.top + frame.height + int(reach[kBottom]) * factor);
    return {left, top, right - left, bottom - top};
}

}  // namespace

Framing framing(const ScanFile& file, const ScanChannel& channel, const ScanOptions& options, Notes& notes) {
    const Region all{0, 0, file.width(), file.height()};
    const bool clear_is_given = options.clear_region || options.clear_value;
    Framing made{options.frame.value_or(all), options.frame.value_or(all), std::nullopt};
    const bool frame_is_open = !options.frame && !options.whole;
    const bool is_negative = options.kind == ScanOptions::Kind::negative;
    const bool clear_is_open = options.frame && (!clear_is_given || options.clear_edge);
    const bool looks_around = frame_is_open || (is_negative && clear_is_open);
    if (options.clear_edge && !(is_negative && looks_around))
        throw Error(Fault::usage, "clear edge", "is asked for around the whole scan",
                    "a frame within the scan");
    if (!looks_around) return made;
    const int factor =
        std::max(1, (std::max(file.width(), file.height()) + kSmallScanSide / 2) / kSmallScanSide);
    auto [small, counts] = small_copy(file, channel, factor);
    const FilmSurvey found = surveyed(small);
    made.around = film_around(small, found);
    if (found.clear) made.clear_light = std::pow(10.0, -*found.clear);
    if (!is_negative) {
        made.counts = std::move(counts);
        return made;
    }
    const Region seen = found.inset ? enlarged(*found.inset, small, file, factor) : Region{};
    const bool frame_is_found = frame_is_open && std::min(seen.width, seen.height) >= kSmallestFrame;
    made.frame_is_found = frame_is_found;
    if (frame_is_found) {
        made.frame = made.printed = seen;
        std::string note = "the frame was found: " + words_for(made.frame) + " pixels";
        if (std::abs(found.degrees_askew) >= kWorthSaying)
            note +=
                ", upright inside a frame " + decimal(std::abs(found.degrees_askew), 1) + " degrees askew";
        notes.push_back(note);
    } else if (frame_is_open) {
        notes.push_back("no edge of a frame was found; the whole scan is taken as the frame");
    }
    if (frame_is_open && found.is_partly_hidden)
        notes.push_back(
            "an edge of the frame cannot be told from clear film; give the frame if this one is wrong");
    if (options.clear_edge) {
        const bool is_known = found.clear && (options.frame || frame_is_found);
        const auto reach = !is_known ? std::array<double, 4>{}
                           : options.frame
                               ? clear_around(small, reduced(made.frame, file, factor), *found.clear)
                               : found.clear_depth;
        if (*std::max_element(reach.begin(), reach.end()) < 1)
            throw Error(Fault::data, file.path().string(), "shows no clear film edge around the frame",
                        "an edge to be printed must be in the scan");
        made.printed = with_clear_edge(made.frame, reach, file, factor);
    }
    if (made.frame.width == all.width && made.frame.height == all.height) made.counts = std::move(counts);
    return made;
}

}  // namespace fogproof::scan
