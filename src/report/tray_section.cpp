// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/tray_section.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <nlohmann/json.hpp>
#include <span>

#include "report/html_text.hpp"
#include "report/json_text.hpp"
#include "report/packed_data.hpp"
#include "report/tray_tables.hpp"

namespace fogproof::report {
namespace {

static_assert(FinerPixel::kShares == 4096, "the script divides by it with a shift");

using Json = nlohmann::ordered_json;

constexpr int kMaskCells = 240;

std::string bytes_of(const std::vector<std::uint16_t>& values) {
    std::string bytes;
    for (const std::uint16_t value : values) {
        bytes += char(value & 0xff);
        bytes += char(value >> 8);
    }
    return bytes;
}

// High bytes, low bytes: each compresses better by itself. Lights as differences from the mean of their
// neighbours at the left and above.
std::string pair_bytes(const LightPairs& pairs) {
    const std::size_t count = pairs.mean.size(), width = std::size_t(pairs.size.width);
    std::string bytes(4 * count, '\0');
    for (std::size_t i = 0; i < count; ++i) {
        const int left = i > 0 ? pairs.mean[i - 1] : 0, above = i >= width ? pairs.mean[i - width] : left;
        const auto step = std::uint16_t(pairs.mean[i] - (left + above) / 2);
        bytes[i] = char(step >> 8);
        bytes[count + i] = char(step & 0xff);
        bytes[2 * count + i] = char(pairs.apart[i]);
        bytes[3 * count + i] = char(pairs.share[i]);
    }
    return bytes;
}

// How many bytes it takes to come from one finer pixel to the next: whole 255s, then the rest.
std::string gap_bytes(const FinerLights& finer) {
    std::string bytes;
    std::uint32_t from = 0;
    for (const std::uint32_t at : finer.at) {
        bytes.append((at - from) / 255, char(255));
        bytes += char((at - from) % 255);
        from = at;
    }
    return bytes;
}

// Gaps, lights of each, then high and low bytes of what stands above and of its shares.
std::string finer_bytes(const FinerLights& finer) {
    std::string bytes = gap_bytes(finer);
    for (const std::uint8_t lights : finer.lights) bytes += char(lights);
    for (const auto* values : {&finer.above, &finer.shares}) {
        for (const std::uint16_t value : *values) bytes += char(value >> 8);
        for (const std::uint16_t value : *values) bytes += char(value & 0xff);
    }
    return bytes.empty() ? " " : bytes;  // nothing to unpack is no packet
}

std::string table_bytes(const TrayPrint& print, const TrayScreen& screen) {
    std::vector<std::uint16_t> values;
    for (const TrayWay& way : print.tray.ways) {
        screen.put(values, way.colours);
        screen.put(values, way.borders);
    }
    return bytes_of(values);
}

std::string frame_bytes(const TrayPrint& print, const TrayScreen& screen) {
    std::vector<std::uint16_t> values;
    screen.put(values, print.tray.fresh);
    for (const double half : print.tray.half_band)
        values.push_back(std::uint16_t(std::lround(100 * std::clamp(half, 0.0, 100.0))));
    return bytes_of(values);
}

struct Outlines {
    Json places = Json::array();
    std::string bytes{' '};  // never empty: nothing to unpack is no packet
};

// Masks small, over the frame as it lies in what is printed.
Outlines outlines(const TrayPrint& print) {
    Outlines all;
    if (!print.local.masks || print.local.print_width <= 0) return all;
    const double scale = double(print.lights.size.width) / print.local.print_width;
    for (std::size_t i = 0; i < print.works.size(); ++i) {
        const LevelGrid& mask = (*print.local.masks)[i];
        const double shrink = double(kMaskCells) / std::max(mask.width, mask.height);
        const int across = std::max(2, int(std::lround(mask.width * shrink))),
                  down = std::max(2, int(std::lround(mask.height * shrink)));
        const auto& frame = print.local.frame;
        all.places.push_back({{"name", print.works[i]},
                              {"across", across},
                              {"down", down},
                              {"from", all.bytes.size()},
                              {"left", scale * frame.left},
                              {"top", scale * frame.top},
                              {"right", scale * (frame.left + frame.width)},
                              {"bottom", scale * (frame.top + frame.height)}});
        for (int y = 0; y < down; ++y)
            for (int x = 0; x < across; ++x)
                all.bytes += char(std::lround(255 * mask.at((x + 0.5) / across, (y + 0.5) / down)));
    }
    return all;
}

Json way_json(const TrayPrint& print, std::size_t index) {
    const TrayWay& way = print.tray.ways[index];
    const auto maybe = [](const std::optional<double>& value) { return value ? Json(*value) : Json(); };
    Json told{{"words", way.words},
              {"told", way.told_s},
              {"several", way.has_several_exposures},
              {"clears", maybe(way.clears_s)},
              {"over", maybe(way.over_s)}};
    told["pull"] = way.recommended_s && *way.recommended_s > 0 ? Json(*way.recommended_s) : Json();
    told["interval"] = index == print.tray.marked && print.pull && print.pull->value > 0
                           ? Json{print.pull->low, print.pull->high}
                           : Json();
    return told;
}

Json numbers(const Printing& printing, const TrayPrint& print, const TrayScreen& screen, Json masks) {
    const Tray& tray = print.tray;
    const int longer = std::max(print.lights.size.width, print.lights.size.height);
    Json ways = Json::array(), bath{1, 1, 1};
    for (std::size_t i = 0; i < tray.ways.size(); ++i) ways.push_back(way_json(print, i));
    const std::vector<double> dry = screen.light(tray.fixed);
    if (print.bath) {
        PrintSteps any;
        any.exposures = {{Filter{1, 1}, Seconds{1}}};
        any.develop = nominal_step(printing.pack().development);
        const std::vector<double> wet = screen.light(printing.print(any, print.bath).fixed_only().lab);
        for (std::size_t i = 0; i < 3; ++i) bath[i] = wet[i] / dry[i];
    }
    return {{"width", print.lights.size.width},
            {"height", print.lights.size.height},
            {"border", std::max(8, longer / 25)},
            {"slip", std::max(12, longer / 16)},
            {"steps", print.lights.steps},
            {"step", LightPairs::kStep},
            {"shares", LightPairs::kShares},
            {"apart", LightPairs::kApart},
            {"fineShares", FinerPixel::kShares},
            {"finer", print.lights.finer.at.size()},
            {"worst", print.lights.worst},
            {"finerLights", print.lights.finer.above.size()},
            {"darkest", tray.darkest},
            {"brightest", tray.brightest},
            {"lightStep", Tray::kLightStep},
            {"firstLight", tray.first_light},
            {"lights", tray.lights},
            {"doses", Tray::kDoses},
            {"dose", tray.dose},
            {"longest", tray.longest_s},
            {"reciprocity", tray.reciprocity},
            {"anchored", printing.pack().darkroom.anchored},
            {"fixed", dry},
            {"freshBorder", screen.light(tray.fresh_border)},
            {"frameLights", tray.fresh.size()},
            {"bath", bath},
            {"masks", std::move(masks)},
            {"ways", ways}};
}

std::string button(const char* id, const std::string& words, bool pressed = false) {
    return html::worded("button", words,
                        {{"type", "button"}, {"id", id}, {"aria-pressed", pressed ? "true" : "false"}});
}

std::string scale(const char* id, const std::string& words, const char* least, const char* most,
                  const char* step, const char* value) {
    return html::worded("label", words, {{"for", id}}) +
           html::element("span", {},
                         "<input type=\"range\" id=\"" + std::string(id) + "\" min=\"" + least + "\" max=\"" +
                             most + "\" step=\"" + step + "\" value=\"" + value + "\">") +
           html::element("output", {{"id", std::string(id) + "-words"}, {"for", id}}, "");
}

std::string ways(const Tray& tray) {
    std::string options;
    for (std::size_t i = 0; i < tray.ways.size(); ++i) {
        const std::string value = std::to_string(i);
        options += i == tray.marked
                       ? html::worded("option", tray.ways[i].words, {{"value", value}, {"selected", ""}})
                       : html::worded("option", tray.ways[i].words, {{"value", value}});
    }
    return html::worded("label", "Filter and developer", {{"for", "tray-way"}}) +
           html::element("select", {{"id", "tray-way"}}, options);
}

std::string marks() {
    std::string all = html::element("span", {{"id", "tray-interval"}, {"hidden", ""}}, "");
    for (const auto& [name, words] :
         {std::pair{"clears", "fully clear"}, {"pull", "take it out"}, {"over", "too far"}})
        all += html::worded("span", words, {{"class", "mark"}, {"data-mark", name}, {"hidden", ""}});
    return html::element("div", {{"class", "marks"}, {"aria-hidden", "true"}}, all);
}

std::string data(const char* id, const std::string& bytes) {
    const PackedData packed = deflated_letters(bytes);
    return html::element("script",
                         {{"type", "text/plain"}, {"id", id}, {"data-bytes", std::to_string(packed.bytes)}},
                         packed.letters);
}

// The time of the print with the mark, in thousandths of the scale; where it is not bleached, clearing.
std::string first_time(const Tray& tray) {
    const TrayWay& way = tray.ways[tray.marked];
    const double shown = way.recommended_s.value_or(0);
    return std::to_string(std::lround(1000 * std::min(1.0, shown / tray.longest_s)));
}

}  // namespace

TrayPrint tray_print(const Scan& scan, const Printing& printing, const WorkedGrid& grid, Rendering rendering,
                     int long_side, const LocalMasks& local) {
    TrayPrint print{tray(printing, grid), {}, rendering, {}, local, {}, {}};
    const double darkest = print.tray.darkest, brightest = print.tray.brightest;
    const TrayScreen screen(rendering, print.tray.fixed);
    const TrialPrints trials =
        tray_trials(print.tray, screen, LightPairs::kStep, LightPairs::steps_between(darkest, brightest));
    print.lights = light_pairs(scan, printing, darkest, brightest, long_side, trials);
    const Recipe& recipe = grid.proofs[grid.marked()].recipe;
    for (const LocalWork& work : recipe.local) print.works.push_back(called(work));
    print.bath = BathLayer{working_strength_g_l(bleach_bath(printing.pack(), recipe))};
    return print;
}

std::string tray_section(const Printing& printing, const TrayPrint& print) {
    const TrayScreen screen(print.rendering, print.tray.fixed);
    Outlines drawn = outlines(print);
    const bool local = !print.works.empty();
    std::string switches = button("tray-play", "Play") +
                           html::element("select", {{"id", "tray-pace"}},
                                         html::worded("option", "1", {{"value", "1"}}) +
                                             html::worded("option", "5", {{"value", "5"}, {"selected", ""}}) +
                                             html::worded("option", "20", {{"value", "20"}})) +
                           html::worded("label", "times as fast as in the tray", {{"for", "tray-pace"}}) +
                           button("tray-split", "Before beside after") + button("tray-fresh", "Fresh paper");
    if (print.bath) switches += button("tray-bath", "Under the yellow bath (assumed)");
    if (local) switches += button("tray-outlines", "Outlines of local work", true);
    const std::string explained =
        std::string(
            "The border was never exposed; the slip at the right was only fixed. Keys on the print: left and "
            "right for the time, up and down for the exposure, space to play, s for before beside after, f "
            "for "
            "fresh paper, b for the bath") +
        (local ? ", o for outlines. Local work is outlined here and not shown; the proofs below show it."
               : ".");
    return html::element(
        "section", {{"id", "tray"}, {"aria-labelledby", "tray-heading"}, {"hidden", ""}},
        html::worded("h2", "In the bleach", {{"id", "tray-heading"}}) +
            html::worded("p", "", {{"id", "tray-state"}}) +
            html::element(
                "canvas",
                {{"id", "tray-print"},
                 {"role", "img"},
                 {"tabindex", "0"},
                 {"aria-label", "Simulated print as it looks after the time in the bleach that is set"}},
                "") +
            html::element("output", {{"id", "tray-reading"}}, "") +
            html::element(
                "div", {{"class", "scales"}},
                scale("tray-time", "Time in the bleach", "0", "1000", "1", first_time(print.tray).c_str()) +
                    marks() + scale("tray-stops", "Exposure", "-2", "2", "0.08333333333", "0") +
                    ways(print.tray) +
                    scale("tray-line", "Line between before and after", "0", "1000", "1", "500")) +
            html::element("div", {{"class", "switches"}}, switches) + html::worded("p", explained) +
            html::element(
                "script", {{"type", "application/json"}, {"id", "tray-numbers"}},
                html::within_script(numbers(printing, print, screen, std::move(drawn.places)).dump())) +
            data("tray-pairs", pair_bytes(print.lights)) +
            data("tray-finer", finer_bytes(print.lights.finer)) +
            data("tray-tables", table_bytes(print, screen)) + data("tray-frame", frame_bytes(print, screen)) +
            data("tray-masks", drawn.bytes));
}

}  // namespace fogproof::report
