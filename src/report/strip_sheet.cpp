// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/strip_sheet.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/words.hpp"
#include "fogproof/print/recipe_file.hpp"
#include "pack/grade_words.hpp"
#include "report/assumptions.hpp"
#include "report/cautions.hpp"
#include "report/shown.hpp"
#include "report/zero_words.hpp"

namespace fogproof::report {
namespace {

constexpr char kRecommendedBand[] = "recommended";

std::string recipe_words(const Printing& printing, const PredictedStrip& predicted) {
    const Proof proof =
        printing.timed_proof(predicted.recipe, std::array{predicted.strip.exposures[predicted.told()]});
    std::string words;
    if (printing.pack().contrast == Contrast::variable)
        words = "Grade " + grade_name(predicted.recipe.exposures.front().grade.value_or(2)) + ", ";
    return words + shown_exposure(proof, printing.pack().darkroom.anchored) + ", restrainer " +
           decimal(predicted.recipe.restrainer_ml_l, 1) + " ml/L, developed " +
           report::shown(Seconds{proof.steps.develop.time_s}) + ", " + shown_bleach(proof) +
           "; pack: " + printing.pack().name;
}

// Of a strip in the picture.
std::string lies_as(const TestStripPlace& place) {
    return place.upright ? "column" : "row";
}

// A test strip is exposed band by band: nobody burns or dodges it.
PrintSteps unworked(PrintSteps steps) {
    for (LocalStep& step : steps.local)
        if (step.kind != LocalWork::Kind::bleach) step = {step.kind, 0.0, {}, {}, {}, 0};
    return steps;
}

}  // namespace

std::string band_words(const Printing& printing, const TestStrip& strip, std::size_t band) {
    const Seconds time = strip.exposures[band];
    if (printing.pack().darkroom.anchored) return shown(time);
    const double stops = std::log2(time.value / strip.exposures[strip.exposures.size() / 2].value);
    return (stops > 0 ? "+" : "") + fixed(stops, 2) + " stop";
}

TestStripSheet strip_sheet(const Printing& printing, const PredictedStrip& predicted,
                           const std::string& negative, const std::shared_ptr<const Masks>& masks,
                           std::optional<BathLayer> bath, Rendering rendering) {
    TestStripSheet sheet;
    sheet.title = negative + ": test strip as predicted";
    sheet.place = predicted.place;
    const std::size_t count = predicted.strip.exposures.size();
    sheet.subtitle = {"One piece of paper across " + predicted.place.in_words() + "; band 1 is at the " +
                          (predicted.place.upright ? "top" : "left") + ", each " +
                          decimal(predicted.strip.step_stops, 2) + " stop longer than the one before",
                      recipe_words(printing, predicted)};
    for (std::size_t i = 0; i < count; ++i) {
        sheet.labels.push_back({std::to_string(i + 1), band_words(printing, predicted.strip, i)});
        if (i == predicted.told()) sheet.labels.back().emplace_back(kRecommendedBand);
    }
    const std::string told = band_words(printing, predicted.strip, predicted.told());
    for (const StripState& state : predicted.states) {
        const std::size_t first = sheet.prints.size();
        StripOfBands bands{state.bleached ? "After the bleach" : "As developed", true, {}};
        StripOfBands even = bands;
        even.is_labelled = false;
        even.heading +=
            (printing.pack().darkroom.anchored ? ", all of it " + told : ", all of it as recommended") +
            std::string(state.bleached ? ""
                                       : ": which band of your real strip is as "
                                         "dark as the same place in this ") +
            (state.bleached ? "" : lies_as(predicted.place) + "?");
        for (std::size_t i = 0; i < count; ++i) {
            const PrintSteps band = unworked(state.bands[i]);
            StripPrint print{printing.print(band, bath)};
            if (masks && !masks->empty()) print.local.emplace(printing, band, masks, bath);
            sheet.prints.push_back(std::move(print));
            bands.print_of_band.push_back(first + i);
            even.print_of_band.push_back(first + predicted.told());
        }
        sheet.strips.push_back(std::move(bands));
        sheet.strips.push_back(std::move(even));
    }
    const bool anchored = printing.pack().darkroom.anchored,
               bleached = std::ranges::any_of(predicted.states, &StripState::bleached);
    sheet.legend = {std::string("Expose the real strip across the same place ") +
                    (anchored ? "for the same seconds" : "in the same steps") +
                    " and lay it, dry, beside this picture. " +
                    (anchored
                         ? "If its bands look like those drawn here, the paper is as fast as the pack says."
                         : "The band that is as dark as the same place of the strip drawn as recommended has "
                           "your exposure.")};
    if (std::ranges::any_of(predicted.recipe.local,
                            [](const LocalWork& work) { return work.kind != LocalWork::Kind::bleach; }))
        sheet.legend.emplace_back("The strip is drawn without burns and dodges: do not burn or dodge yours.");
    if (anchored)
        sheet.legend.emplace_back(
            "Or compare your developed strip with the second " + lies_as(predicted.place) +
            ", drawn with the recommended exposure "
            "throughout. Find the band that is as dark as the same place there, and give its number to "
            "fogproof start --seen: it corrects the exposure.");
    if (!printing.pack().darkroom.anchored)
        sheet.legend.push_back(
            "Stops of the bands count from the recommended exposure, " +
            shown_exposure(printing.timed_proof(predicted.recipe,
                                                std::array{predicted.strip.exposures[predicted.told()]}),
                           false) +
            ".");
    sheet.legend.push_back(assumptions(printing.pack()));
    if (printing.pack().darkroom.anchored) sheet.legend.push_back(zero_of_seconds(printing.pack()));
    sheet.legend.push_back(std::string("A simulation, ") +
                           (rendering == Rendering::absolute
                                ? "colours absolute: white of the picture is an ideal white, so the paper "
                                  "looks as grey as it is."
                                : "colours relative to the fixed-only slip.") +
                           (bleached ? " " + short_caution() : ""));
    return sheet;
}

Description strip_description(const Printing& printing, const PredictedStrip& predicted,
                              const std::string& negative, const std::filesystem::path& folder) {
    std::string bands;
    for (std::size_t i = 0; i < predicted.strip.exposures.size(); ++i)
        bands += (i == 0 ? "" : ", ") + band_words(printing, predicted.strip, i);
    return {{"recipe", written(with_masks_as_from(folder, predicted.recipe))},
            {"negative", negative},
            {"bands", bands},
            {"place", predicted.place.in_words()}};
}

}  // namespace fogproof::report
