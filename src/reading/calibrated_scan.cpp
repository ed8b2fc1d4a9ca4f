// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/calibrated_scan.hpp"

#include <cmath>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "reading/coding_doubt.hpp"
#include "reading/darks_doubt.hpp"
#include "reading/density_scale.hpp"
#include "reading/light_density.hpp"
#include "reading/scale_on_scan.hpp"
#include "reading/scan_origin.hpp"
#include "reading/scanner_bed.hpp"

namespace fogproof::reading {
namespace {

// Density over the whole scan; less is not worth a word.
constexpr double kWorthTelling = 0.005;
constexpr double k95 = 2;  // standard deviations either side that hold 95 %
constexpr char kTakenAsEven[] =
    "neither background nor known patches show how even the scanner's light is; it is taken as even";

StripPlace place_of(const Region& r) {
    return {r.left + r.width / 2.0, r.top + r.height / 2.0, 0, double(r.width), double(r.height)};
}

void even_out(CalibratedScan& scan, const Evenness& evenness, const std::string& by) {
    ReflectionImage& image = scan.image;
    for (int y = 0; y < image.height; ++y)
        for (int x = 0; x < image.width; ++x)
            image.light[image.index(x, y)] *= float(std::pow(10.0, evenness.at(x + 0.5, y + 0.5)));
    scan.is_evened = true;
    if (evenness.span() >= kWorthTelling)
        scan.notes.push_back("the light differs by " + fixed(evenness.span(), 3) +
                             " in density over the scan; evened out by " + by);
}

void even_out(CalibratedScan& scan, const std::vector<Region>& told) {
    const char* const patches = "the patches of known density";
    if (const auto bed = scanner_bed(coarse(scan.image)); bed && bed->evenness.span() > 0)
        even_out(scan, bed->evenness, "the background");
    else if (!told.empty())
        if (const auto evenness = evenness_of_patches(scan.image, told)) even_out(scan, *evenness, patches);
}

// Numbers are those of one scan: laid anew, scanned anew or under another --frame, pieces have others.
void hold_numbers(const CalibratedScan& scan, const StripRequest& request) {
    for (const PieceRequest& told : request.pieces) {
        const ScanPiece& piece = scan.pieces.numbered(told.number, told.from);
        if (!told.place) continue;
        const Region &r = *told.place, seen = region_around(piece.corners);
        const double x = r.left + r.width / 2.0 - seen.left, y = r.top + r.height / 2.0 - seen.top;
        if (x < 0 || y < 0 || x > seen.width || y > seen.height)
            throw Error(Fault::data, told.from,
                        "piece " + std::to_string(told.number) + " lies at " + std::to_string(r.left) + ", " +
                            std::to_string(r.top) + " here and at " + std::to_string(seen.left) + ", " +
                            std::to_string(seen.top) + " on " + request.place,
                        "labels of this scan, as --labels-out writes them");
    }
}

void place_known(CalibratedScan& scan, const StripRequest& request) {
    const ScanOrigin origin{0, 0, scan.image.scan_pixels};
    for (const KnownPatch& patch : request.known) {
        const StripPlace place =
            patch.piece > 0
                ? scan.pieces.numbered(patch.piece, request.place).place
                : place_of(in_image(patch.region, scan.image, request.place + ": region of known density"));
        scan.known.push_back({patch, place, origin.corners(place.corners(0, place.length, 0, place.width))});
    }
}

std::vector<Reference> references(const CalibratedScan& scan, const StripRequest& request) {
    const ScanOrigin origin{0, 0, scan.image.scan_pixels};
    std::vector<Reference> known;
    for (const KnownPlace& each : scan.known) {
        const StripPlace& place = each.place;
        const StripLayout layout{place, {{0, place.length}, 0, true}, 0, place.width, false};
        const MeasuredStep step = measured_steps(scan.image, layout, 0, place.width, {}).front();
        if (!step.fault.empty())
            throw Error(Fault::data, request.place,
                        "patch of known density at " + origin.words(place) + " is " + step.fault);
        const std::string number = each.patch.piece > 0 ? std::to_string(each.patch.piece) + " (" : "";
        known.push_back({std::pow(10.0, -step.density), each.patch.density, each.patch.doubt,
                         number + words_of(each.patch) + (number.empty() ? "" : ")")});
    }
    return known;
}

// How far each known patch reads denser than it is, all by one amount aside. Light strayed in the scanner
// makes dark ones read too thin, and words tell a density too roughly.
std::vector<ApartAt> apart_of(const CalibratedScan& scan, const std::vector<Reference>& known) {
    constexpr double kDarkest = 1.0;
    std::vector<ApartAt> apart;
    for (std::size_t i = 0; i < known.size(); ++i)
        if (known[i].doubt == 0 && known[i].density < kDarkest)
            apart.push_back({scan.known[i].place.middle_x, scan.known[i].place.middle_y,
                             density_of_light(known[i].light) - known[i].density});
    return apart;
}

// Two densities that are known hold the scale, whatever the codes stand for.
bool known_apart(const std::vector<Reference>& known) {
    constexpr double kApart = 0.3;
    const auto [least, most] = std::ranges::minmax_element(known, {}, &Reference::density);
    return known.size() > 1 && most->density - least->density > kApart;
}

}  // namespace

Region in_image(const Region& region, const ReflectionImage& image, const std::string& what) {
    const double side = image.scan_pixels;
    const Region made{int(region.left / side), int(region.top / side), int(region.width / side),
                      int(region.height / side)};
    const bool inside = region.left >= 0 && region.top >= 0 && made.left + made.width <= image.width &&
                        made.top + made.height <= image.height;
    const std::string size = decimal(image.width * side, 0) + " x " + decimal(image.height * side, 0);
    if (!inside) throw Error(Fault::usage, what, "lies outside the scan", "within its " + size + " pixels");
    if (made.width < 8 || made.height < 8)
        throw Error(Fault::usage, what, "is too small",
                    "at least " + decimal(8 * side, 0) + " pixels a side for a scan of " + size);
    return made;
}

CalibratedScan evened(const ReflectionImage& image, const StripRequest& request) {
    CalibratedScan scan{image, {0, 0, image.width, image.height}, {}, {}, {}, {}, {}, false};
    if (request.frame) scan.part = in_image(*request.frame, image, request.place + ": frame");
    std::vector<Region> told;
    for (const auto& known : request.known)
        if (known.piece == 0)
            told.push_back(in_image(known.region, image, request.place + ": region of known density"));
    even_out(scan, told);
    scan.pieces = pieces_on(scan.image, scan.part);
    return scan;
}

CalibratedScan calibrated(const ReflectionImage& image, const StripRequest& request) {
    CalibratedScan scan = evened(image, request);
    hold_numbers(scan, request);
    place_known(scan, request);
    auto known = references(scan, request);
    if (!scan.is_evened)
        if (const auto evenness = evenness_of_known(scan.image, apart_of(scan, known))) {
            even_out(scan, *evenness, "the patches of known density");
            known = references(scan, request);
        }
    if (!scan.is_evened) scan.notes.emplace_back(kTakenAsEven);
    if (known.empty())
        scan.notes.push_back(
            "no patch of known density was given: the scan's full scale is taken as density 0, so that all "
            "densities may be off by one amount (assumed)");
    DensityScale scale = density_scale(known, request.place);
    if (auto doubt = doubt_of_known(scale, scan.image, known)) scale.warnings.push_back(std::move(*doubt));
    scan.scale = scale.of_light, scan.doubt = scale.doubt;
    for (const KnownPlace& each : scan.known)
        if (each.patch.doubt > 0)
            scan.notes.push_back(each.patch.what + " is taken as density " +
                                 fixed(each.patch.density - k95 * each.patch.doubt, 2) + " to " +
                                 fixed(each.patch.density + k95 * each.patch.doubt, 2) +
                                 " (assumed); that doubt goes into all readings of this scan");
    const auto coding = known_apart(known) ? std::nullopt : doubt_of_linear(image);
    if (coding) {
        scan.warnings.push_back(coding->words);
        scan.doubt.share = kGuessedCodingShare;
    }
    if (image.is_coarsely_coded) {
        scan.doubt.share = std::hypot(kScaleShare, kToneCurveShare);
        scan.notes.push_back(
            "8 bit: the doubt of each density grows by " + decimal(100 * kToneCurveShare, 0) +
            " % of it (assumed), since it is unknown how the scanner's program made the codes");
    }
    scan.notes.insert(scan.notes.end(), scale.notes.begin(), scale.notes.end());
    if (auto ground = doubt_of_dark_ground(scan.pieces)) scan.notes.push_back(std::move(*ground));
    scan.is_doubted = !scale.warnings.empty();
    if (scan.is_doubted)
        scan.warnings.insert(scan.warnings.begin(), scale.warnings.begin(), scale.warnings.end());
    else if (auto darks = doubt_of_darks(scan.image, scan.pieces, scan.scale))
        scan.warnings.push_back(std::move(*darks)), scan.is_doubted = true;
    return scan;
}

}  // namespace fogproof::reading
