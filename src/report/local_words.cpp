// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/local_words.hpp"

#include <filesystem>
#include <nlohmann/json.hpp>

#include "base/markup.hpp"
#include "base/words.hpp"
#include "pack/grade_words.hpp"
#include "report/json_text.hpp"
#include "report/shown.hpp"

namespace fogproof::report {
namespace {

using Json = nlohmann::ordered_json;
using Kind = LocalWork::Kind;

std::string counted_stops(double stops) {
    return decimal(stops, 2) + (stops == 1.0 ? " stop" : " stops");
}

std::string amount_words(const Printing& printing, const Proof& proof, std::size_t work) {
    const LocalStep& step = proof.steps.local[work];
    if (step.kind == Kind::bleach) return "for " + shown(step.time);
    // Without an anchor the seconds of an exposure mean nothing.
    if (!printing.pack().darkroom.anchored) return "by " + counted_stops(step.stops.value_or(0));
    const std::string time = "for " + shown(local_time(proof.steps, step));
    return step.stops ? time + " (" + counted_stops(*step.stops) + ")" : time;
}

}  // namespace

std::string local_words(const Printing& printing, const Proof& proof, std::size_t work) {
    const LocalWork& told = proof.recipe.local[work];
    std::string words = told.kind == Kind::bleach ? "bleach locally" : name_of(told.kind);
    if (!told.name.empty()) words += " " + plain_line(told.name);
    words += " " + amount_words(printing, proof, work);
    if (told.grade) words += " at grade " + grade_name(*told.grade);
    return words;
}

double local_amount_of(const Proof& proof, std::size_t work) {
    const LocalStep& step = proof.steps.local[work];
    return step.kind == Kind::bleach ? step.dose : local_time(proof.steps, step).value;
}

std::string place_words(const LocalWork& work) {
    if (const auto* picture = std::get_if<MaskPicture>(&work.where); picture && picture->path.empty())
        return "a mask that --recipe-out writes";
    if (const auto* picture = std::get_if<MaskPicture>(&work.where))
        return "mask " + plain_line(std::filesystem::path(picture->path).filename().string());
    const auto& shape = std::get<MaskShape>(work.where);
    const std::string soft = ", rim " + decimal(shape.soft, 1) + " % wide";
    const auto percent = [&](std::size_t i) { return decimal(shape.at[i], 1); };
    const auto twice = [&](std::size_t i) { return decimal(2 * shape.at[i], 1); };
    switch (shape.kind) {
        case MaskShape::Kind::top:
            return "from the top edge " + percent(0) + " % down" + soft;
        case MaskShape::Kind::bottom:
            return "from the bottom edge " + percent(0) + " % up" + soft;
        case MaskShape::Kind::left:
            return "from the left edge " + percent(0) + " % in" + soft;
        case MaskShape::Kind::right:
            return "from the right edge " + percent(0) + " % in" + soft;
        case MaskShape::Kind::oval:
            return "an oval, its middle at " + percent(0) + " % of the width and " + percent(1) +
                   " % of the height, " + twice(2) + " % wide and " + twice(3) + " % high" + soft;
        case MaskShape::Kind::polygon:
            break;
    }
    return "an outline of " + std::to_string(shape.at.size() / 2) + " corners" + soft;
}

Json local_json(const Printing& printing, const Proof& proof, std::span<const Touched> touched) {
    Json all = Json::array();
    for (std::size_t i = 0; i < proof.recipe.local.size(); ++i) {
        const LocalWork& work = proof.recipe.local[i];
        const LocalStep& step = proof.steps.local[i];
        Json one{{"work", name_of(work.kind)}};
        if (!work.name.empty()) one["name"] = plain_line(work.name);
        one["where"] = place_words(work);
        if (step.stops) one["stops"] = *step.stops;
        if (step.kind == Kind::bleach)
            one["bleach_s"] = kept(step.time.value);
        else if (printing.pack().darkroom.anchored)
            one["time_s"] = kept(local_time(proof.steps, step).value);
        if (work.grade) one["grade"] = *work.grade;
        one["touches"] = kept(touched[i].some);
        one["touches_fully"] = kept(touched[i].full);
        one["mean_level"] = kept(touched[i].mean);
        all.push_back(std::move(one));
    }
    return all;
}

}  // namespace fogproof::report
