// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "support/foreign_graded.hpp"

#include <cmath>

#include "choose/black_time.hpp"
#include "pack/from_slips.hpp"
#include "pack/schema.hpp"

namespace fogproof::tests::foreign {

GradedPaper::GradedPaper(unsigned seed) : paper_(seed + 7000), random_(seed) {
    // Of an emulsion that can have the range at all.
    const double wanted = normal(105, 13);
    for (unsigned other = 0; !has_range(wanted); ++other) paper_ = Paper(seed + 7000 + 1000 * other);
    develop_s_ = between(60, 150);
    scatter_ = between(0.005, 0.025);
    callier_ = between(1.0, 1.05), flare_ = between(0.005, 0.04), reciprocity_ = between(0.88, 1.0);
    // The lamp is as bright as makes the eye call 8 s the shortest for black.
    const double black = density(1e5, 0), short_by = between(0.02, 0.08);
    double low = 1e-3, high = 1e4;
    while (high / low > 1.0001) {
        const double middle = std::sqrt(low * high);
        (density(middle, 0) < black - short_by ? low : high) = middle;
    }
    per_second_ = high / kBlackTime_s;
}

Pack GradedPaper::described() {
    Slips slips;
    slips.white_density = rounded(density(0, 0, 0) + normal(0, 0.01));
    slips.blank_density = rounded(density(0, sheet()) + normal(0, 0.01));
    slips.surface = surface();
    slips.contrast = Contrast::graded;
    slips.grade = 2;
    slips.head = Head::diffuser;
    return anchored_by_black(pack_from_slips(slips), {Seconds{kBlackTime_s}});
}

double GradedPaper::printed(double seconds, double negative, double mean_light, double darker) const {
    const double light =
        (1 - flare_) * std::pow(10.0, -callier_ * negative) + flare_ * std::pow(mean_light, callier_);
    // Reciprocity fails from the black time on.
    const double acts = kBlackTime_s * std::pow(seconds / kBlackTime_s, reciprocity_);
    return density(acts * light * per_second_, darker);
}

double GradedPaper::range() const {
    constexpr double kNoFog = 1e-9;  // s; in this darkroom development does nothing but fog
    const double white = density(0, 0, 0), black = density(1e6, 0, kNoFog);
    const auto exposure_of = [&](double wanted) {
        double low = -5, high = 6;
        while (high - low > 1e-4) {
            const double middle = (low + high) / 2;
            (density(std::pow(10.0, middle), 0, kNoFog) < wanted ? low : high) = middle;
        }
        return low;
    };
    return 100 * (exposure_of(white + 0.9 * (black - white)) - exposure_of(white + 0.04));
}

bool GradedPaper::has_range(double wanted) {
    constexpr double kClose = 4;
    double best = 2, least = 1e9;
    for (filter_ = -2; filter_ <= 6; filter_ += 0.25)
        if (const double off = std::abs(range() - wanted); off < least) least = off, best = filter_;
    filter_ = best;
    return least < kClose;
}

Surface GradedPaper::surface() const {
    Surface nearest = Surface::gloss;
    const double black = density(1e6, 0);
    for (const Surface each : {Surface::semi_matt, Surface::matt})
        if (std::abs(surface_defaults(each).black_density - black) <
            std::abs(surface_defaults(nearest).black_density - black))
            nearest = each;
    return nearest;
}

}  // namespace fogproof::tests::foreign
