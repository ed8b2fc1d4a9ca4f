// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/strip_options.hpp"

#include <algorithm>

#include "cli/choice.hpp"
#include "cli/negative_options.hpp"
#include "cli/typed_values.hpp"
#include "pack/carrier.hpp"
#include "pack/grade_words.hpp"

namespace fogproof::cli {
namespace {

constexpr int kMostSteps = 60;

std::vector<double> numbers_in(const std::string& text, const std::string& place, const char* allowed) {
    std::vector<double> numbers;
    for (const auto& part : split(text, ',')) {
        const auto number = number_in(part);
        if (!number) throw Error(Fault::usage, place, "\"" + text + "\"", allowed);
        numbers.push_back(*number);
    }
    return numbers;
}

std::optional<StepWedge> wedge_in(const std::string& text) {
    if (text.empty()) return std::nullopt;
    constexpr const char* allowed = "START,INCREMENT,STEPS, such as 0.05,0.15,21";
    const auto numbers = numbers_in(text, "--wedge", allowed);
    const bool good = numbers.size() == 3 && numbers[0] >= 0 && numbers[0] <= 4 && numbers[1] > 0 &&
                      numbers[1] <= 1 && numbers[2] >= 2 && numbers[2] <= kMostSteps &&
                      numbers[2] == int(numbers[2]);
    if (!good) throw Error(Fault::usage, "--wedge", "\"" + text + "\"", allowed);
    return StepWedge{numbers[0], numbers[1], int(numbers[2])};
}

std::vector<double> exposures_in(const std::string& text) {
    if (text.empty()) return {};
    constexpr const char* allowed = "seconds of 2 or more bands, such as 2,4,8,16";
    auto seconds = numbers_in(text, "--exposures", allowed);
    const bool good = seconds.size() >= 2 && seconds.size() <= kMostSteps &&
                      std::ranges::all_of(seconds, [](double each) { return each >= 0; });
    if (!good) throw Error(Fault::usage, "--exposures", "\"" + text + "\"", allowed);
    return seconds;
}

KnownPatch known_in(const std::string& text, const std::string& place) {
    const auto parts = split(text, '=');
    const auto density = parts.size() == 2 ? number_in(parts[1]) : std::nullopt;
    if (!density || *density < 0 || *density > 4)
        throw Error(Fault::usage, place, "\"" + text + "\"", "LEFT,TOP,WIDTH,HEIGHT=DENSITY");
    return {region_in(parts[0], place), *density};
}

template <class Value>
std::optional<Value> of_strip(const std::vector<Value>& values, std::size_t strip, std::size_t count,
                              const std::string& option) {
    if (values.empty()) return std::nullopt;
    if (values.size() == 1) return values.front();
    if (values.size() != count)
        throw Error(Fault::usage, option,
                    "is given " + std::to_string(values.size()) + " times for " + std::to_string(count) +
                        (count == 1 ? " strip" : " strips"),
                    "once, or once for each strip that was found (one as white as the lid is not seen)");
    return values[strip];
}

}  // namespace

void StripOptions::add_to(CLI::App& app) {
    const std::string finding = "Finding the steps";
    app.add_option("--white", white, "patch of known density: LEFT,TOP,WIDTH,HEIGHT=DENSITY, in scan pixels")
        ->group(finding);
    app.add_option("--dark", dark, "a second such patch, dark; removes the scanner's stray light")
        ->group(finding);
    app.add_option("--frame", frame, "look only within LEFT,TOP,WIDTH,HEIGHT")->group(finding);
    app.add_option("--steps", steps, "steps of each strip; counted if absent; 1 reads plain patches")
        ->group(finding);
    app.add_flag("--halves", halves, "one half of each strip, along its length, is bleached")->group(finding);
    app.add_flag("--leave-out", leave_out, "leave out clipped or uneven steps instead of refusing the scan")
        ->group(finding);

    const std::string labelling = "What the strips are (one value for all, or again for each strip in order)";
    app.add_option("--wedge", wedge,
                   "printed through a step wedge: START,INCREMENT,STEPS such as 0.05,0.15,21")
        ->group(labelling);
    app.add_option("--exposures", exposures, "a test strip: seconds of its bands, such as 2,4,8,16")
        ->group(labelling);
    const auto each = [&](const char* name, auto& values, const char* help) {
        return app.add_option(name, values, help)
            ->group(labelling)
            ->expected(1)
            ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
    };
    each("--strip", names, "name of the strip");
    each("--exposure", exposure, "seconds; 0 unexposed")->type_name(kSeconds);
    each("--filter", filter, "grade number of the filter: 00, 0, 0.5 (or 1/2) ... 5");
    each("--carrier", carrier, "what lay in the carrier: empty, or the density of the film in it");
    each("--restrainer", restrainer, "restrainer stock in the developer, ml/L")->type_name(kMillilitres);
    each("--develop", develop, "seconds in the developer; 0 only fixed")->type_name(kSeconds);
    each("--bleach", bleach, "seconds in the bleach")->type_name(kSeconds);
    each("--parts", parts, "dilution of the bleach")->type_name(kDilution);
    each("--redevelop", redevelop, "seconds of redevelopment")->type_name(kSeconds);
}

StripRequest StripOptions::request(const std::string& place) const {
    StripRequest request;
    request.place = place;
    request.halves = halves, request.leave_out = leave_out;
    if (halves && bleach.empty())
        throw Error(Fault::usage, "--halves", "without --bleach", "the seconds that one half was bleached");
    if (!frame.empty()) request.frame = region_in(frame, "--frame");
    if (!white.empty()) request.known.push_back(known_in(white, "--white"));
    if (!dark.empty() && white.empty()) throw Error(Fault::usage, "--dark", "without --white", "both");
    if (!dark.empty()) request.known.push_back(known_in(dark, "--dark"));
    const auto told = wedge_in(wedge);
    const auto seconds = exposures_in(exposures);
    if (told && !seconds.empty())
        throw Error(Fault::usage, "--wedge and --exposures", "are both given", "one of them");
    if (!seconds.empty() && !exposure.empty())
        throw Error(Fault::usage, "--exposure and --exposures", "are both given", "one of them");
    if (steps != 0) request.steps = int(within(steps, 1, kMostSteps, "--steps"));
    const int implied = told ? told->steps : int(seconds.size());
    if (implied > 0 && request.steps.value_or(implied) != implied)
        throw Error(Fault::usage, "--steps", std::to_string(steps),
                    std::to_string(implied) + ", as --wedge or --exposures tell");
    if (implied > 0) request.steps = implied;
    return request;
}

StripLabels StripOptions::labels(std::size_t strip, std::size_t count, const std::string& usual) const {
    StripLabels labels;
    labels.wedge = wedge_in(wedge);
    labels.exposures = exposures_in(exposures);
    Reading& row = labels.common;
    row.strip = of_strip(names, strip, count, "--strip").value_or(usual);
    if (names.size() == 1 && count > 1) row.strip += "-" + std::to_string(strip + 1);
    row.exposure_s = of_strip(exposure, strip, count, "--exposure");
    if (const auto told_filter = of_strip(filter, strip, count, "--filter"))
        row.filter = grade_told(*told_filter, "--filter");
    if (const auto told_carrier = of_strip(carrier, strip, count, "--carrier"))
        row.carrier_density = carrier_density_in(*told_carrier, "--carrier");
    row.restrainer_ml_l = of_strip(restrainer, strip, count, "--restrainer");
    row.develop_s = of_strip(develop, strip, count, "--develop");
    row.bleach_s = of_strip(bleach, strip, count, "--bleach").value_or(0);
    row.bleach_parts = of_strip(parts, strip, count, "--parts");
    row.redevelop_s = of_strip(redevelop, strip, count, "--redevelop").value_or(0);
    return labels;
}

}  // namespace fogproof::cli
