// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/scale_on_scan.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/quantile.hpp"
#include "base/words.hpp"
#include "reading/light_density.hpp"

namespace fogproof::reading {
namespace {

// D, judgement. Paper with brightener and a lid that shines come to some hundredths below 0; scanners put
// white near full light, and their programs brighten a scan without any white by a stop or so.
constexpr double kLightest = -0.15, kDarkestFullLight = 0.35;
// Of full light at white, within which a density a tenth or ten times as great would be believed.
constexpr double kBelieved = 0.2;

// The light of what is lightest, glints and dust aside.
double lightest_of(const ReflectionImage& image) {
    constexpr int kEach = 5;
    constexpr double kGlints = 0.005;
    std::vector<float> light;
    for (int y = 0; y < image.height; y += kEach)
        for (int x = 0; x < image.width; x += kEach) light.push_back(image.light[image.index(x, y)]);
    return quantile(light, 1 - kGlints);
}

double density_at(const DensityScale& scale, double light) {
    return density_of_light(scale.of_light.reflectance(light));
}

std::string named_known(std::span<const Reference> known) {
    std::string words = known.size() == 1 ? "known patch " : "known patches ";
    for (const Reference& one : known) words += (&one == &known.front() ? "" : ", ") + one.what;
    return words;
}

// "0.09 rather than 0.9": where one patch is known and a slip of the point explains it.
std::string slipped_point(std::span<const Reference> known, double white, double factor) {
    if (known.size() != 1 || known.front().doubt > 0 ||
        std::abs(white + (factor - 1) * known.front().density) > kBelieved)
        return "";
    return " (" + decimal(factor * known.front().density, 3) + " rather than " +
           decimal(known.front().density, 3) + "?)";
}

}  // namespace

std::optional<std::string> doubt_of_known(const DensityScale& scale, const ReflectionImage& image,
                                          std::span<const Reference> known) {
    if (known.empty()) return std::nullopt;
    const double lightest = density_at(scale, lightest_of(image)), full = density_at(scale, 1);
    const std::string if_right =
                          "if " + named_known(known) + (known.size() == 1 ? " is" : " are") + " right, ",
                      check = "check the density", piece = " and the piece";
    if (lightest < kLightest)
        return if_right + "something on the scan has density " + fixed(lightest, 2) +
               ", lighter than any paper: " + check + slipped_point(known, lightest, 10) + piece;
    if (full > kDarkestFullLight)
        return if_right + "the lightest that this scan can show is density " + fixed(full, 2) +
               ", where scanners put white: " + check + slipped_point(known, full, 0.1) + piece;
    return std::nullopt;
}

}  // namespace fogproof::reading
