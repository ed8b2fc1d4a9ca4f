// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/calibrated_scan.hpp"

#include <cmath>
#include <optional>
#include <utility>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "reading/scan_origin.hpp"
#include "reading/scanner_bed.hpp"

namespace fogproof::reading {
namespace {

// Density over the whole scan; less is not worth a word.
constexpr double kWorthTelling = 0.005;

void even_out(CalibratedScan& scan) {
    ReflectionImage& image = scan.image;
    std::optional<Evenness> evenness;
    if (const auto bed = scanner_bed(coarse(image)); bed && bed->evenness.span() > 0)
        evenness = bed->evenness;
    std::string by = "the background";
    if (!evenness && !scan.known.empty()) {
        evenness = evenness_of_patches(image, scan.known);
        by = "the patches of known density";
    }
    if (!evenness) {
        scan.notes.push_back(
            "neither background nor known patches show how even the scanner's light is; "
            "it is taken as even");
        return;
    }
    for (int y = 0; y < image.height; ++y)
        for (int x = 0; x < image.width; ++x)
            image.light[image.index(x, y)] *= float(std::pow(10.0, evenness->at(x + 0.5, y + 0.5)));
    if (evenness->span() >= kWorthTelling)
        scan.notes.push_back("the light differs by " + fixed(evenness->span(), 3) +
                             " in density over the scan; evened out by " + by);
}

// The light of each known patch, and what it reflects.
std::vector<std::pair<double, double>> references(const CalibratedScan& scan, const StripRequest& request) {
    const ScanOrigin origin{0, 0, scan.image.scan_pixels};
    std::vector<std::pair<double, double>> known;
    for (std::size_t i = 0; i < scan.known.size(); ++i) {
        const Region& r = scan.known[i];
        const StripPlace place{r.left + r.width / 2.0, r.top + r.height / 2.0, 0, double(r.width),
                               double(r.height)};
        const StripLayout layout{place, {{0, place.length}, 0, true}, 0, place.width, false};
        const MeasuredStep step = measured_steps(scan.image, layout, 0, place.width, {}).front();
        if (!step.fault.empty())
            throw Error(Fault::data, request.place,
                        "patch of known density at " + origin.words(place) + " is " + step.fault);
        known.emplace_back(std::pow(10.0, -step.density), std::pow(10.0, -request.known[i].density));
    }
    return known;
}

DensityOfLight scale_through(const std::vector<std::pair<double, double>>& known, const std::string& place) {
    DensityOfLight scale;
    if (known.size() == 1) scale.gain = known[0].second / known[0].first;
    if (known.size() == 2) {
        scale.gain = (known[0].second - known[1].second) / (known[0].first - known[1].first);
        scale.stray = known[0].first - known[0].second / scale.gain;
        if (!(scale.gain > 0) || !std::isfinite(scale.gain))
            throw Error(Fault::data, place, "the two known patches contradict each other",
                        "the denser one must be the darker one");
    }
    return scale;
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

CalibratedScan calibrated(const ReflectionImage& image, const StripRequest& request) {
    CalibratedScan scan{image, {}, {}, {}};
    for (const auto& known : request.known)
        scan.known.push_back(in_image(known.region, image, request.place + ": region of known density"));
    even_out(scan);
    const auto known = references(scan, request);
    if (known.empty())
        scan.notes.push_back(
            "no patch of known density was given: the scan's full scale is taken as density 0, so that all "
            "densities may be off by one amount (assumed)");
    scan.scale = scale_through(known, request.place);
    return scan;
}

}  // namespace fogproof::reading
