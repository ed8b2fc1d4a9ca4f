// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/strip_report.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/version.hpp"
#include "base/words.hpp"
#include "report/json_text.hpp"
#include "report/reading_json.hpp"

namespace fogproof::report {
namespace {

using Json = nlohmann::ordered_json;

std::string right_aligned(const std::string& text, std::size_t width) {
    return std::string(width > text.size() ? width - text.size() : 0, ' ') + text;
}

std::string lines_for(const std::string& heading, const std::vector<StepReading>& steps) {
    std::string text = heading + "\n  step  density  scatter  pixels\n";
    for (const auto& step : steps)
        text += right_aligned(std::to_string(step.step), 6) + right_aligned(fixed(step.density.value, 2), 9) +
                right_aligned(fixed(step.scatter, 3), 9) + right_aligned(std::to_string(step.count), 8) +
                "\n";
    return text;
}

Json steps_json(const std::vector<StepReading>& steps, const FlatbedDoubt& doubt) {
    Json all = Json::array();
    for (const auto& step : steps) {
        Json corners = Json::array();
        for (const auto& [x, y] : step.corners) corners.push_back({x, y});
        all.push_back({{"step", step.step},
                       {"density", step.density.value},
                       {"scatter", step.scatter},
                       {"pixels", step.count},
                       {"uncertainty", flatbed_uncertainty(doubt, step.density)},
                       {"corners", corners}});
    }
    return all;
}

}  // namespace

std::string strips_text(std::span<const NamedStrip> strips) {
    std::string text;
    double densest = 0, in_whites = 0, in_blacks = 0;
    for (const auto& strip : strips) {
        const bool halves = !strip.read.bleached.empty();
        const std::string heading = strip.source + ": " + strip.name;
        text += lines_for(heading + (halves ? ", unbleached half" : ""), strip.read.steps);
        if (halves) text += lines_for(heading + ", bleached half", strip.read.bleached);
        in_whites = std::max(in_whites, flatbed_uncertainty(strip.doubt, {0}));
        for (const auto& step : strip.read.steps) {
            densest = std::max(densest, step.density.value);
            in_blacks = std::max(in_blacks, flatbed_uncertainty(strip.doubt, step.density));
        }
    }
    if (strips.empty()) return text;
    return text + "A flatbed is less certain than a densitometer: take " + fixed(in_whites, 2) +
           " in the whites to " + fixed(in_blacks, 2) + " at density " + fixed(densest, 2) +
           " as standard deviation (assumed). Stray light of the scanner makes\nblacks read too thin, and "
           "its "
           "colour filters are not the visual weighting of ISO 5-3, which shows on toned or stained paper.\n";
}

std::string strips_json(std::span<const NamedStrip> strips, std::span<const NamedPrint> prints,
                        std::span<const Reading> rows, const Remarks& remarks) {
    Json read = Json::array(), written = Json::array();
    for (const auto& strip : strips) {
        Json each{{"source", strip.source}, {"strip", strip.name}, {"step_count", strip.read.step_count}};
        each["steps"] = steps_json(strip.read.steps, strip.doubt);
        if (!strip.read.bleached.empty()) each["bleached"] = steps_json(strip.read.bleached, strip.doubt);
        read.push_back(std::move(each));
    }
    for (const auto& row : rows) written.push_back(reading_json(row));
    const Json all{{"fogproof", version()}, {"strips", read},         {"prints", as_json(prints)},
                   {"rows", written},       {"notes", remarks.notes}, {"warnings", remarks.warnings}};
    return json_text(all);
}

}  // namespace fogproof::report
