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
#include "scan/pictures_in_row.hpp"
#include "scan/scan_pixels.hpp"

namespace fogproof::scan {
namespace {

constexpr int kSmallScanSide = 640;  // of the copy in which the frame is searched
constexpr int kReached = 2;          // pixels to either side that a turned one is interpolated between
// Degrees. A frame of 3 to 2 that is turned by less loses under 0.3 % of its longer and 0.6 % of its shorter
// side to an upright rectangle inside it, about what is drawn in anyway. Judgement.
constexpr double kWorthSettingUpright = 0.2;

Region enlarged(const std::array<double, 4>& inset, const SmallScan& small, const ScanPixels& pixels,
                int factor) {
    // Beside a sharp edge of the frame turned codes are those of both its sides.
    const int reached = pixels.turned ? kReached : 0;
    const auto depth = [&](Side side) {
        return inset[side] > 0 ? int(std::ceil(inset[side])) * factor + reached : 0;
    };
    // What the small copy has left over on the right and below belongs to those sides.
    const int right = inset[kRight] > 0 ? small.width * factor - depth(kRight) : pixels.width();
    const int bottom = inset[kBottom] > 0 ? small.height * factor - depth(kBottom) : pixels.height();
    const Region seen{depth(kLeft), depth(kTop), right - depth(kLeft), bottom - depth(kTop)};
    return pixels.turned ? pixels.turned->turning().within_scan(seen) : seen;
}

std::array<double, 4> reduced(const Region& frame, const ScanPixels& pixels, int factor) {
    return {double(frame.top) / factor, double(pixels.height() - frame.top - frame.height) / factor,
            double(frame.left) / factor, double(pixels.width() - frame.left - frame.width) / factor};
}

Region with_clear_edge(const Region& frame, const std::array<double, 4>& reach, const ScanPixels& pixels,
                       int factor) {
    const int left = std::max(0, frame.left - int(reach[kLeft]) * factor);
    const int top = std::max(0, frame.top - int(reach[kTop]) * factor);
    const int right = std::min(pixels.width(), frame.left + frame.width + int(reach[kRight]) * factor);
    const int bottom = std::min(pixels.height(), frame.top + frame.height + int(reach[kBottom]) * factor);
    const Region printed{left, top, right - left, bottom - top};
    return pixels.turned ? pixels.turned->turning().within_scan(printed) : printed;
}

double area(const Region& region) {
    return double(region.width) * region.height;
}

}  // namespace

Framing framing(const ScanPixels& pixels, const ScanOptions& options, Notes& notes) {
    const Region all = pixels.all();
    const bool clear_is_given = options.clear_region || options.clear_value;
    Framing made{options.frame.value_or(all), options.frame.value_or(all), std::nullopt};
    const bool frame_is_open = !options.frame && !options.whole;
    const bool is_negative = options.kind == ScanOptions::Kind::negative;
    if (options.askew == ScanOptions::Askew::kept && !(frame_is_open && is_negative))
        notes.push_back("no frame is looked for, so --keep-askew changes nothing here");
    const bool clear_is_open = options.frame && (!clear_is_given || options.clear_edge);
    const bool looks_around = frame_is_open || (is_negative && clear_is_open);
    if (options.clear_edge && !(is_negative && looks_around))
        throw Error(Fault::usage, "clear edge", "is asked for around the whole scan",
                    "a frame within the scan");
    if (!looks_around) return made;
    const int factor =
        std::max(1, (std::max(pixels.width(), pixels.height()) + kSmallScanSide / 2) / kSmallScanSide);
    auto [small, counts] = small_copy(pixels, factor);
    const FilmSurvey found = surveyed(small);
    made.around = film_around(small, found);
    if (found.clear) made.clear_light = std::pow(10.0, -*found.clear);
    made.scan_counts = std::move(counts);
    if (!is_negative) return made;
    const Region seen = found.inset ? enlarged(*found.inset, small, pixels, factor) : Region{};
    const bool frame_is_found = frame_is_open && std::min(seen.width, seen.height) >= kSmallestFrame;
    made.frame_is_found = frame_is_found;
    if (frame_is_found) {
        made.frame = made.printed = seen;
        made.degrees_askew = found.degrees_askew;
        made.on_holder = found.on_holder;
        std::string note = "the frame was found: " + words_for(made.frame) + " pixels";
        if (pixels.turned) note += " of the turned scan";
        if (std::abs(found.degrees_askew) >= kWorthSettingUpright)
            note +=
                ", upright inside a frame " + decimal(std::abs(found.degrees_askew), 1) + " degrees askew";
        notes.push_back(note);
    } else if (frame_is_open) {
        notes.push_back("no edge of a frame was found; the whole scan is taken as the frame");
    }
    if (frame_is_open && found.is_partly_hidden)
        notes.push_back(
            "an edge of the frame cannot be told from clear film; give the frame if this one is wrong");
    if (frame_is_open && found.clear) {
        const auto at = [&](int side, int most) { return std::min(side / factor, most); };
        const Region inside{at(made.frame.left, small.width), at(made.frame.top, small.height),
                            at(made.frame.width, small.width), at(made.frame.height, small.height)};
        if (const auto row = pictures_in_row(small, inside, *found.clear)) {
            made.pictures = row->count;
            made.first_picture = {row->first.left * factor, row->first.top * factor,
                                  row->first.width * factor, row->first.height * factor};
            if (pixels.turned) made.first_picture = pixels.turned->turning().lying(made.first_picture);
        }
    }
    if (options.clear_edge) {
        const bool is_known = found.clear && (options.frame || frame_is_found);
        auto reach = !is_known       ? std::array<double, 4>{}
                     : options.frame ? clear_around(small, reduced(made.frame, pixels, factor), *found.clear)
                                     : found.clear_depth;
        if (pixels.turned && is_known) reach = clear_all_round(small, *found.inset, *found.clear, reach);
        made.lacks_clear_edge = *std::max_element(reach.begin(), reach.end()) < 1;
        made.printed = with_clear_edge(made.frame, reach, pixels, factor);
    }
    return made;
}

void require_clear_edge(const Framing& framed, const ScanPixels& pixels) {
    if (framed.lacks_clear_edge)
        throw Error(Fault::data, pixels.file.path().string(), "shows no clear film edge around the frame",
                    Advice{"an edge to be printed must be in the scan"});
}

std::optional<UprightScan> set_upright(const ScanPixels& lying, const Framing& askew,
                                       const ScanOptions& options, Notes& notes) {
    const double degrees = -askew.degrees_askew;
    if (options.askew == ScanOptions::Askew::kept || !askew.frame_is_found ||
        std::abs(degrees) < kWorthSettingUpright)
        return std::nullopt;
    ScanPixels turned = turned_by(degrees, lying);
    Notes told{"the scan was turned " + decimal(std::abs(degrees), 1) + " degrees " +
               (degrees > 0 ? "clockwise" : "anticlockwise") + " to set the frame upright"};
    Framing framed = framing(turned, options, told);
    if (!framed.frame_is_found || area(framed.frame) < area(askew.frame)) return std::nullopt;
    framed.clear_light = askew.clear_light;
    framed.around = askew.around;
    notes = std::move(told);
    return UprightScan{std::move(turned), std::move(framed)};
}

}  // namespace fogproof::scan
