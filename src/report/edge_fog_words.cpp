// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/edge_fog_words.hpp"

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "base/markup.hpp"
#include "base/words.hpp"
#include "report/json_text.hpp"

namespace fogproof::report {
namespace {

using Json = nlohmann::ordered_json;

double most_of(const LevelGrid& grid) {
    return std::ranges::max(grid.level) / 65535.0;
}

std::string map_name(const SheetFog& fog) {
    return plain_line(std::filesystem::path(fog.edge().map).filename().string());
}

std::string laid_words(const FrameOnSheet& frame) {
    return decimal(frame.width, 0) + " x " + decimal(frame.height, 0) + " mm on a sheet of " +
           decimal(frame.sheet_width, 0) + " x " + decimal(frame.sheet_height, 0) + " mm";
}

}  // namespace

std::string edge_fog_sentence(const SheetFog& fog, const LevelGrid& over_the_frame) {
    const EdgeFog& edge = fog.edge();
    const std::string how = edge.map.empty() ? "a tenth of it " + decimal(edge.reach_mm, 1) + " mm from there"
                                             : "elsewhere by the map " + map_name(fog);
    return "fog of the edges " + fixed(edge.density, 2) + " D over the middle's, " + how + "; the picture, " +
           laid_words(fog.frame()) + ", gets up to " + fixed(100 * most_of(over_the_frame), 0) +
           " % of it, " + decimal(100 * touched(over_the_frame).mean, 1) + " % on average";
}

Json edge_fog_json(const SheetFog& fog, const LevelGrid& over_the_frame) {
    const EdgeFog& edge = fog.edge();
    const FrameOnSheet& frame = fog.frame();
    Json told{{"density", edge.density}};
    if (edge.map.empty())
        told["reach_mm"] = edge.reach_mm;
    else
        told["map"] = map_name(fog);
    told["sheet_mm"] = {frame.sheet_width, frame.sheet_height};
    told["picture_mm"] = {kept(frame.left), kept(frame.top), kept(frame.width), kept(frame.height)};
    told["sheet_turned"] = 90 * frame.quarter_turns;
    told["most_level"] = kept(most_of(over_the_frame));
    told["mean_level"] = kept(touched(over_the_frame).mean);
    return told;
}

Description sheet_description(const SheetFog& fog) {
    const FrameOnSheet& frame = fog.frame();
    return {{"sheet", decimal(frame.sheet_width, 1) + " x " + decimal(frame.sheet_height, 1) +
                          " mm, turned by " + std::to_string(90 * frame.quarter_turns) + "; picture of " +
                          decimal(frame.width, 1) + " x " + decimal(frame.height, 1) + " mm, " +
                          decimal(frame.left, 1) + " mm from the left, " + decimal(frame.top, 1) +
                          " mm from the top"}};
}

std::vector<std::string> edge_advice_words(const EdgeAdvice& advice) {
    std::vector<std::string> words{"costs the picture " + fixed(advice.lost.value, 1) + " L* rms (" +
                                   fixed(advice.lost.low, 1) + " to " + fixed(advice.lost.high, 1) +
                                   "), its lights up to " + fixed(advice.lights_lost, 1) +
                                   " L* where they lie nearest to an edge"};
    if (const auto& turn = advice.turn)
        words.push_back("with the sheet turned round (--turn-sheet " +
                        std::to_string(90 * turn->quarter_turns) + ") it costs " + fixed(turn->lost, 1) +
                        " L* rms");
    if (const auto& margin = advice.margin)
        words.push_back("a margin of " + decimal(margin->mm, 0) +
                        " mm, to be trimmed, keeps the lights within " + decimal(kSeenInLights, 0) +
                        " L* (picture of " + decimal(margin->picture_width, 0) + " x " +
                        decimal(margin->picture_height, 0) + " mm, " + fixed(margin->lost, 1) + " L* rms)");
    else if (advice.lights_lost > kSeenInLights)
        words.emplace_back("no margin of up to 40 % of the sheet keeps the lights within 1 L*");
    return words;
}

Json edge_advice_json(const EdgeAdvice& advice) {
    Json told{{"lost", kept(advice.lost.value)},
              {"lost_low", kept(advice.lost.low)},
              {"lost_high", kept(advice.lost.high)},
              {"lights_lost", kept(advice.lights_lost)}};
    told["margin"] =
        advice.margin
            ? Json{{"mm", advice.margin->mm},
                   {"picture_mm", {kept(advice.margin->picture_width), kept(advice.margin->picture_height)}},
                   {"lost", kept(advice.margin->lost)}}
            : Json();
    told["turn_sheet"] =
        advice.turn ? Json{{"degrees", 90 * advice.turn->quarter_turns}, {"lost", kept(advice.turn->lost)}}
                    : Json();
    return told;
}

}  // namespace fogproof::report
