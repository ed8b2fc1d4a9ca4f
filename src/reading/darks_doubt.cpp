// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/darks_doubt.hpp"

#include <algorithm>
#include <vector>

#include "base/quantile.hpp"
#include "base/words.hpp"
#include "reading/light_density.hpp"

namespace fogproof::reading {
namespace {

// Glossy paper comes to 2.3 at most (common practice, no source).
constexpr double kDarkestPaper = 2.3;
// Noise, stray light and a scale that is known roughly (judgement).
constexpr double kRoom = 0.1;
// Share of a piece that ink, holes and deep shadows may take.
constexpr double kInkAndHoles = 0.005;
constexpr int kBlock = 4;  // pixels a side, whose mean has hardly any noise

// Light of blocks, wherever one lies wholly in the region.
std::vector<float> block_lights(const ReflectionImage& image, const Region& region) {
    const double side = image.scan_pixels;
    const int left = int(region.left / side), top = int(region.top / side),
              right = std::min(image.width, int((region.left + region.width) / side)),
              bottom = std::min(image.height, int((region.top + region.height) / side));
    std::vector<float> lights;
    for (int y = std::max(0, top); y + kBlock <= bottom; y += kBlock)
        for (int x = std::max(0, left); x + kBlock <= right; x += kBlock) {
            float sum = 0;
            for (int down = 0; down < kBlock; ++down)
                for (int across = 0; across < kBlock; ++across) sum += image.light_at(x + across, y + down);
            lights.push_back(sum / (kBlock * kBlock));
        }
    return lights;
}

// The least of all but ink and holes.
template <class Value>
Value least_beside_ink(std::vector<Value> values) {
    return quantile(values, kInkAndHoles);
}

std::optional<std::string> doubt_of_darkest(double density) {
    if (density <= kDarkestPaper + kRoom) return std::nullopt;
    constexpr double kDeepestTold = 3;
    return "the darkest places have density " + (density > kDeepestTold ? "over 3" : fixed(density, 1)) +
           ", darker than any paper (about 2.3): the scanner's program has probably altered the tones, by "
           "automatic levels or contrast, and then all densities are off but those of known patches; scan "
           "again without corrections, or say with --encoding what the codes stand for";
}

}  // namespace

std::optional<std::string> doubt_of_darks(const ReflectionImage& image, const ScanPieces& pieces,
                                          const DensityOfLight& scale) {
    if (!pieces.on_white_lid()) return std::nullopt;  // a dark lid lies around and between the pieces
    double darkest = 0;
    for (const ScanPiece& piece : pieces.all) {
        const std::vector<float> lights = block_lights(image, region_around(piece.corners));
        if (lights.empty()) continue;
        darkest = std::max(darkest, density_of_light(scale.reflectance(double(least_beside_ink(lights)))));
    }
    return doubt_of_darkest(darkest);
}

std::optional<std::string> doubt_of_darks(std::span<const StripReading> strips) {
    double darkest = 0;
    for (const StripReading& strip : strips)
        for (const auto* steps : {&strip.steps, &strip.bleached})
            for (const StepReading& step : *steps) darkest = std::max(darkest, step.density.value);
    return doubt_of_darkest(darkest);
}

std::optional<std::string> doubt_of_darks(const EvenGround& ground) {
    if (ground.squares.empty()) return std::nullopt;
    std::vector<double> lightness;
    for (const EvenSquare& square : ground.squares) lightness.push_back(-square.density);
    return doubt_of_darkest(-least_beside_ink(std::move(lightness)));
}

std::optional<std::string> doubt_of_dark_ground(const ScanPieces& pieces) {
    if (!pieces.lid || *pieces.lid <= kDarkestPaper + kRoom) return std::nullopt;
    return "the ground around the pieces is as dark as an open lid shows it; if a card or a closed lid lay "
           "there, the scanner's program has altered the tones (automatic levels), and all densities are off";
}

}  // namespace fogproof::reading
