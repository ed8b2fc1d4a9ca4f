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

// More than lie on any lid.
constexpr int kMostPieces = 999;

std::optional<StepWedge> wedge_in(const std::string& text) {
    if (text.empty()) return std::nullopt;
    const auto wedge = step_wedge_in(text);
    if (!wedge) throw Error(Fault::usage, "--wedge", "\"" + text + "\"", kWedgeAllowed);
    return wedge;
}

std::vector<double> exposures_in(const std::string& text) {
    if (text.empty()) return {};
    auto seconds = band_seconds_in(text);
    if (!seconds) throw Error(Fault::usage, "--exposures", "\"" + text + "\"", kBandsAllowed);
    return std::move(*seconds);
}

KnownPatch region_known_in(const std::string& text, const std::string& place) {
    const auto parts = split(text, '=');
    auto known = parts.size() == 2 ? known_density_in(parts[1]) : std::nullopt;
    if (!known) throw Error(Fault::usage, place, "\"" + text + "\"", "LEFT,TOP,WIDTH,HEIGHT=DENSITY");
    known->region = region_in(parts[0], place);
    return *known;
}

KnownPatch piece_known_in(const std::string& text) {
    const auto parts = split(text, '=');
    auto known = parts.size() == 2 ? known_density_in(parts[1]) : std::nullopt;
    const auto piece = known ? number_in(parts[0]) : std::nullopt;
    if (!piece || *piece < 1 || *piece > kMostPieces || *piece != int(*piece))
        throw Error(Fault::usage, "--known", "\"" + text + "\"",
                    "PIECE=DENSITY: its number on --picture, and " + known_densities_allowed());
    known->piece = int(*piece);
    return *known;
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
    app.add_option("--known", known,
                   "a piece of known density by its number in the picture of --picture, such as 1=0.09; or "
                   "1=fixed (a slip only fixed, 0.06 to 0.11), 1=grey-card (18 %, 0.71 to 0.78), "
                   "1=fresh-white (0.04 to 0.10); repeat the option for more pieces")
        ->group(finding)
        ->type_name("PIECE=DENSITY")
        ->expected(1)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
    app.add_option("--frame", frame, "look only within LEFT,TOP,WIDTH,HEIGHT")->group(finding);
    app.add_option("--steps", steps, "steps of each strip; counted if absent; 1 reads plain patches")
        ->group(finding);
    app.add_flag("--halves", halves, "one half of each strip, along its length, is bleached")->group(finding);
    app.add_option("--bleached-half", bleached_half,
                   "of a print's halves, the bleached one as it lies on the scan: left, right, upper or "
                   "lower [the lighter one]")
        ->group(finding);
    app.add_flag("--leave-out", leave_out, "leave out clipped or uneven steps instead of refusing the scan")
        ->group(finding);

    const std::string labelling =
        "What was done to the strips (one value for all, or one for each strip in order)";
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
    if (!bleached_half.empty()) {
        request.bleached = half_side_in(bleached_half);
        if (!request.bleached)
            throw Error(Fault::usage, "--bleached-half", "\"" + bleached_half + "\"", kHalfSidesAllowed);
        if (!halves) throw Error(Fault::usage, "--bleached-half", "without --halves", "both");
    }
    if (halves && bleach.empty() && !(filed.common.bleach_s > 0))
        throw Error(Fault::usage, "--halves", "without --bleach", "the seconds that one half was bleached");
    if (!frame.empty()) request.frame = region_in(frame, "--frame");
    if (!white.empty()) request.known.push_back(region_known_in(white, "--white"));
    if (!dark.empty() && white.empty()) throw Error(Fault::usage, "--dark", "without --white", "both");
    if (!dark.empty()) request.known.push_back(region_known_in(dark, "--dark"));
    for (const std::string& piece : known) request.known.push_back(piece_known_in(piece));
    const auto told = wedge_in(wedge);
    const auto seconds = exposures_in(exposures);
    if (told && !seconds.empty())
        throw Error(Fault::usage, "--wedge and --exposures", "are both given", Advice{"give one of them"});
    if (!seconds.empty() && !exposure.empty())
        throw Error(Fault::usage, "--exposure and --exposures", "are both given", Advice{"give one of them"});
    if (steps != 0) request.steps = int(within(steps, 1, kMostSteps, "--steps"));
    const int implied = told ? told->steps : int(seconds.size());
    if (implied > 0 && request.steps.value_or(implied) != implied)
        throw Error(Fault::usage, "--steps", std::to_string(steps),
                    std::to_string(implied) + ", as --wedge or --exposures tell");
    if (implied > 0) request.steps = implied;
    return request;
}

StripLabels StripOptions::labels(std::size_t strip, std::size_t count, const std::string& usual) const {
    return labels(strip, count, usual, filed);
}

StripLabels StripOptions::labels(std::size_t strip, std::size_t count, const std::string& usual,
                                 const StripLabels& in_file) const {
    StripLabels labels = in_file;
    if (const auto told = wedge_in(wedge)) labels.wedge = told, labels.exposures.clear();
    if (auto seconds = exposures_in(exposures); !seconds.empty())
        labels.exposures = std::move(seconds), labels.wedge.reset();
    if (!exposure.empty()) labels.exposures.clear();
    Reading& row = labels.common;
    if (row.strip.empty()) row.strip = usual;
    if (const auto name = of_strip(names, strip, count, "--strip")) row.strip = *name;
    if (names.size() == 1 && count > 1) row.strip += "-" + std::to_string(strip + 1);
    const auto take = [&](auto& cell, const auto& values, const char* option) {
        if (const auto typed = of_strip(values, strip, count, option)) cell = *typed;
    };
    take(row.exposure_s, exposure, "--exposure");
    if (const auto told_filter = of_strip(filter, strip, count, "--filter"))
        row.filter = grade_told(*told_filter, "--filter");
    if (const auto told_carrier = of_strip(carrier, strip, count, "--carrier"))
        row.carrier_density = carrier_density_in(*told_carrier, "--carrier");
    take(row.restrainer_ml_l, restrainer, "--restrainer");
    take(row.develop_s, develop, "--develop");
    take(row.bleach_s, bleach, "--bleach");
    take(row.bleach_parts, parts, "--parts");
    take(row.redevelop_s, redevelop, "--redevelop");
    return labels;
}

}  // namespace fogproof::cli
