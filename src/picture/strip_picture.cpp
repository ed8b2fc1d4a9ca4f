// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/strip_picture.hpp"

#include "base/words.hpp"
#include "picture/scan_drawing.hpp"

namespace fogproof::picture {
namespace {

std::string words_for(const StripReading& strip, std::size_t number) {
    const auto range = [](const std::vector<StepReading>& steps) {
        return fixed(steps.front().density.value, 2) + " to " + fixed(steps.back().density.value, 2);
    };
    std::string line = "Strip " + std::to_string(number) + ": " + std::to_string(strip.step_count) +
                       (strip.step_count == 1 ? " patch" : " steps");
    if (const auto out = std::size_t(strip.step_count) - strip.steps.size(); out > 0)
        line += " (" + std::to_string(out) + " left out)";
    line += ", density " + range(strip.steps);
    if (!strip.bleached.empty()) line += "; bleached half " + range(strip.bleached);
    return line;
}

}  // namespace

void save_strip_picture(const ReflectionImage& image, const StripRequest& request, const ScanReading& read,
                        const std::string& title, WholeFile& file) {
    std::vector<std::string> lines{title};
    for (std::size_t i = 0; i < read.strips.size(); ++i) lines.push_back(words_for(read.strips[i], i + 1));
    lines.emplace_back(
        "Orange: areas read, with visual reflection density. Blue: strips. Green: known densities.");
    const OutputProfile profile = OutputProfile::named("srgb");
    ScanDrawing drawing(image, lines, profile);
    for (const auto& known : request.known) {
        drawing.outline(corners_of(known.region), ScanDrawing::kKnown, 3);
        drawing.label(corners_of(known.region), "known " + fixed(known.density, 2),
                      known.density > ScanDrawing::kDarkPlace ? ScanDrawing::kOnDark : ScanDrawing::kOnLight);
    }
    for (const auto& strip : read.strips) {
        drawing.outline(strip.corners, ScanDrawing::kPiece, 3);
        for (const auto* steps : {&strip.steps, &strip.bleached})
            for (const auto& step : *steps) {
                drawing.outline(step.corners, ScanDrawing::kPlace, 1);
                drawing.label(step.corners, fixed(step.density.value, 2),
                              step.density.value > ScanDrawing::kDarkPlace ? ScanDrawing::kOnDark
                                                                           : ScanDrawing::kOnLight);
            }
    }
    PictureOptions options;
    options.bits = 8;
    const vips::VImage picture = drawing.picture();
    save_picture([&picture] { return picture; }, file, profile, options);
}

}  // namespace fogproof::picture
