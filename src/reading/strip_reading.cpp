// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/strip_reading.hpp"

#include <algorithm>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "reading/calibrated_scan.hpp"
#include "reading/one_strip.hpp"
#include "reading/page_order.hpp"
#include "reading/scan_origin.hpp"
#include "reading/scanner_bed.hpp"

namespace fogproof::reading {
namespace {

// Smaller things on the lid are labels, clips, dust.
constexpr double kSmallestShare = 0.002;
// Judgement, in density: a lid below it is white, and paper on it may be as white.
constexpr double kWhiteLid = 0.3;
// Degrees; no outline tells the direction of a strip that fills its part to half a degree.
constexpr double kFullTurn = 3.5;

ReflectionImage part_of(const ReflectionImage& image, const Region& part) {
    ReflectionImage made{part.width, part.height, image.scan_pixels};
    for (int y = part.top; y < part.top + part.height; ++y)
        for (int x = part.left; x < part.left + part.width; ++x) {
            made.light.push_back(image.light_at(x, y));
            made.clipped.push_back(image.clipped_at(x, y));
        }
    return made;
}

// One line stays one line, however much is wrong.
std::string first_of(const std::vector<std::string>& faults) {
    constexpr std::size_t shown = 3;
    std::string line;
    for (std::size_t i = 0; i < std::min(shown, faults.size()); ++i)
        line.append(i > 0 ? "; " : "").append(faults[i]);
    if (faults.size() > shown) line += "; and " + std::to_string(faults.size() - shown) + " more";
    return line;
}

// What may be a strip, and how to look at it.
struct Candidates {
    std::vector<StripPlace> places;
    PlaceRequest how;
    bool white_lid;
};

Candidates candidates_on(const ReflectionImage& part, const StripRequest& request) {
    const CoarseImage blocks = coarse(part);
    const auto bed = scanner_bed(blocks);
    const double width = part.width, height = part.height;
    Candidates found{bed ? places_on(*bed, blocks)
                         : std::vector{StripPlace{width / 2, height / 2, 0, width * 0.98, height * 0.98}},
                     {request.steps, {}, double(blocks.block), 0.4},
                     bed && bed->density < kWhiteLid};
    if (bed)
        found.how.lid = bed->density;
    else
        found.how.turn = kFullTurn;
    std::erase_if(found.places, [&](const StripPlace& place) {
        return place.length * place.width < kSmallestShare * width * height;
    });
    return found;
}

bool holds_any(const StripPlace& place, const std::vector<Region>& known, const ScanOrigin& origin) {
    return std::ranges::any_of(known, [&](const Region& r) {
        const auto [u, v] =
            place.uv(r.left + r.width / 2.0 - origin.left, r.top + r.height / 2.0 - origin.top);
        return u >= 0 && v >= 0 && u <= place.length && v <= place.width;
    });
}

[[noreturn]] void refuse_emptiness(const StripRequest& request, bool white_lid, int plain) {
    const bool by_patches = request.steps == 1;
    std::string found = by_patches ? "holds no patch" : "holds no strip";
    if (plain > 0)
        found += ", only " + std::to_string(plain) + (plain == 1 ? " patch" : " patches") + " without steps";
    std::string allowed = by_patches ? "patches that stand out from what lies behind them"
                                     : "a strip with steps from dark to light, or --steps 1 for plain "
                                       "patches";
    if (white_lid) allowed += "; a slip as white as the lid is not seen, black card over it shows it";
    throw Error(Fault::data, request.place, found, allowed);
}

void add(std::vector<std::string>& all, const std::vector<std::string>& more) {
    all.insert(all.end(), more.begin(), more.end());
}

}  // namespace

ScanReading strips_read(const ReflectionImage& image, const StripRequest& request) {
    if (request.known.size() > 2)
        throw Error(Fault::usage, request.place, std::to_string(request.known.size()) + " known patches",
                    "one, or two to remove stray light");
    const CalibratedScan scan = calibrated(image, request);
    Region frame{0, 0, image.width, image.height};
    if (request.frame) frame = in_image(*request.frame, image, request.place + ": frame");
    const ScanOrigin origin{frame.left, frame.top, image.scan_pixels};
    const ReflectionImage part = part_of(scan.image, frame);
    const Candidates candidates = candidates_on(part, request);
    const bool by_patches = request.steps == 1;

    ScanReading result{{}, scan.notes};
    std::vector<std::string> faults;
    int plain = 0;
    for (const StripPlace& place : candidates.places) {
        const bool is_reference = holds_any(place, scan.known, origin);
        if (is_reference && by_patches) continue;
        OneStrip strip = strip_at(part, origin, place, candidates.how, request, scan.scale);
        add(result.notes, strip.notes);
        add(faults, strip.faults);
        if (strip.is_plain && !is_reference) {
            ++plain;
            result.notes.push_back("a patch without steps at " + origin.words(place) + " is left aside");
        }
        if (strip.reading) result.strips.push_back(std::move(*strip.reading));
    }
    if (!faults.empty() && !request.leave_out) throw Error(Fault::data, request.place, first_of(faults));
    for (const auto& fault : faults) result.notes.push_back("left out: " + fault);
    if (result.strips.empty()) refuse_emptiness(request, candidates.white_lid, plain);
    if (candidates.white_lid && by_patches)
        result.notes.push_back(std::to_string(result.strips.size()) +
                               (result.strips.size() == 1 ? " patch" : " patches") +
                               " found; one as white as the lid is not seen, black card over it shows it");
    result.strips = in_page_order(std::move(result.strips));
    return result;
}

}  // namespace fogproof::reading
