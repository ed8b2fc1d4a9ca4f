// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/fit_chart.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <vector>

#include "base/stop.hpp"
#include "base/words.hpp"
#include "fit/predictor.hpp"
#include "fit/treated_patch.hpp"
#include "fogproof/print/working_curve.hpp"
#include "pack/grade_words.hpp"
#include "report/shown.hpp"
#include "report/svg_text.hpp"

namespace fogproof::report {
namespace {

constexpr double kFitWidth = 960, kFitHeight = 860, kFitLeft = 76, kFitRight = 930;
constexpr double kFitTop = 84, kFitBottom = 560, kMissTop = 640, kMissBottom = 800;
constexpr std::size_t kMostStrips = 16;
// Inks that stay apart for colour-blind eyes.
constexpr std::array kFitInks{"#1b1b1b", "#0b5fa5", "#b3541e", "#4d7c2f",
                              "#7a4a8c", "#8a6d00", "#9c2f4f", "#00777d"};

struct Dot {
    double log_seconds, density, miss;
};

struct DrawnStrip {
    std::string label;
    Recipe recipe;
    std::vector<Dot> dots;
    std::string work;
    bool bleached = false;
    std::string ink{};
    WorkingCurve curve{};
};

Recipe recipe_of(const TreatedPatch& patch) {
    Recipe recipe;
    recipe.exposures = {{patch.filter, Stops{0}}};
    recipe.restrainer_ml_l = patch.restrainer_ml_l;
    recipe.develop_s = patch.develop_s;
    recipe.bleach = Seconds{patch.bleach_s};
    recipe.bleach_parts = patch.bleach_parts;
    recipe.redevelop_s = patch.redevelop_s;
    return recipe;
}

// Everything but the bleach: what makes two strips a pair.
std::string work_of(const TreatedPatch& patch) {
    return decimal(patch.filter.value_or(-9), 2) + "/" + decimal(patch.restrainer_ml_l, 2) + "/" +
           decimal(patch.develop_s, 1);
}

// Those with enough patches of known seconds for a curve, in the order of their readings.
std::vector<DrawnStrip> strips_of(const PackFit& fit) {
    std::vector<DrawnStrip> strips;
    for (std::size_t i = 0; i < fit.readings.size(); ++i) {
        const TreatedPatch patch = treated(fit.readings[i], fit.pack);
        if (patch.exposure_s <= 0 || patch.develop_s <= 0 || exposure_guessed(fit.readings[i])) continue;
        const Recipe recipe = recipe_of(patch);
        auto strip = std::ranges::find_if(strips, [&](const DrawnStrip& each) {
            return each.label == fit.readings[i].strip && each.recipe == recipe;
        });
        if (strip == strips.end())
            strip = strips.insert(strips.end(),
                                  {fit.readings[i].strip, recipe, {}, work_of(patch), patch.bleach_s > 0});
        strip->dots.push_back({std::log10(patch.exposure_s) - patch.wedge_density, fit.readings[i].density,
                               fit.fitted[i] - fit.readings[i].density});
    }
    std::erase_if(strips, [](const DrawnStrip& strip) { return strip.dots.size() < 3; });
    return strips;
}

// No more than can be told apart, the last ones that were read; how many are left out.
std::size_t thinned_out(std::vector<DrawnStrip>& strips) {
    const std::size_t left_out = strips.size() - std::min(strips.size(), kMostStrips);
    strips.erase(strips.begin(), strips.begin() + std::ptrdiff_t(left_out));
    std::map<std::string, std::string> inks;
    for (DrawnStrip& strip : strips)
        strip.ink = inks.try_emplace(strip.work, kFitInks[inks.size() % kFitInks.size()]).first->second;
    return left_out;
}

std::string words_of(const DrawnStrip& strip) {
    const auto& grade = strip.recipe.exposures.front().grade;
    return (strip.label.empty() ? "no name" + (grade ? ", grade " + grade_name(*grade) : "") : strip.label) +
           (strip.bleached ? ", bleached " + decimal(std::get<Seconds>(strip.recipe.bleach).value, 0) + " s"
                           : "");
}

struct Frame {
    int first_stop = 0, last_stop = 6;  // where nothing is drawn
    double darkest = 2, worst = 0.05;

    [[nodiscard]] double x(double log_seconds) const {
        return kFitLeft +
               (kFitRight - kFitLeft) * (log_seconds / kLogPerStop - first_stop) / (last_stop - first_stop);
    }
    [[nodiscard]] bool holds(double log_seconds) const {
        return x(log_seconds) > kFitLeft - 0.01 && x(log_seconds) < kFitRight + 0.01;
    }
    [[nodiscard]] double y(double density) const {
        return kFitBottom - (kFitBottom - kFitTop) * density / darkest;
    }
    [[nodiscard]] double miss_y(double miss) const {
        return (kMissTop + kMissBottom) / 2 - (kMissBottom - kMissTop) / 2 * miss / worst;
    }
};

// Dots, and the curves with their bands as far as they are drawn.
Frame frame_of(const std::vector<DrawnStrip>& strips) {
    Frame frame;
    if (strips.empty()) return frame;
    double first = 3, last = -3;
    for (const auto& strip : strips)
        for (const Dot& dot : strip.dots) {
            first = std::min(first, dot.log_seconds);
            last = std::max(last, dot.log_seconds);
            frame.darkest = std::max(frame.darkest, dot.density + 0.1);
            frame.worst = std::max(frame.worst, std::abs(dot.miss));
        }
    frame.first_stop = int(std::floor(std::max(first, -3.0) / kLogPerStop)) - 1;
    frame.last_stop = int(std::ceil(std::min(last, 3.0) / kLogPerStop)) + 1;
    for (const auto& strip : strips)
        for (std::size_t i = 0; i < strip.curve.density.size(); ++i)
            if (frame.holds(strip.curve.log_seconds[i]))
                frame.darkest = std::max(frame.darkest, strip.curve.density[i].high);
    frame.darkest = 0.2 * std::ceil(frame.darkest / 0.2);
    frame.worst = 0.05 * std::ceil(frame.worst / 0.05);
    return frame;
}

std::string lines(const Frame& frame) {
    constexpr const char* kHair = "stroke=\"#d9d6cf\" stroke-width=\"0.7\"";
    std::string text;
    for (int stop = frame.first_stop; stop <= frame.last_stop; ++stop) {
        const double x = frame.x(stop * kLogPerStop), seconds = std::exp2(stop);
        text += svg::line({x, kFitTop}, {x, kFitBottom}, kHair) +
                svg::line({x, kMissTop}, {x, kMissBottom}, kHair);
        text += svg::label({x, kFitBottom + 22}, "middle",
                           seconds >= 1 ? fixed(seconds, 0) : "1/" + fixed(1 / seconds, 0));
    }
    for (int fifth = 0; 0.2 * fifth <= frame.darkest + 1e-9; ++fifth) {
        text += svg::line({kFitLeft, frame.y(0.2 * fifth)}, {kFitRight, frame.y(0.2 * fifth)}, kHair);
        text += svg::label({kFitLeft - 10, frame.y(0.2 * fifth) + 4.5}, "end", fixed(0.2 * fifth, 1));
    }
    for (const double miss : {-frame.worst, 0.0, frame.worst}) {
        text += svg::line({kFitLeft, frame.miss_y(miss)}, {kFitRight, frame.miss_y(miss)}, kHair);
        text += svg::label({kFitLeft - 10, frame.miss_y(miss) + 4.5}, "end",
                           (miss > 0 ? "+" : "") + fixed(miss, 2));
    }
    text += svg::label({(kFitLeft + kFitRight) / 2, kFitBottom + 46}, "middle",
                       "seconds of exposure under each patch");
    text += svg::label({kFitLeft - 10, kFitTop - 14}, "end", "density");
    return text + svg::label({kFitLeft, kMissTop - 10}, "start", "fitted minus read, D");
}

std::string dot_at(double x, double y, const DrawnStrip& strip) {
    return "<circle cx=\"" + svg::number(x) + "\" cy=\"" + svg::number(y) + "\" r=\"3.2\" stroke=\"" +
           strip.ink + "\" stroke-width=\"1.4\" fill=\"" + (strip.bleached ? "#ffffff" : strip.ink) +
           "\"/>\n";
}

std::string drawn(const DrawnStrip& strip, const Frame& frame) {
    const WorkingCurve& curve = strip.curve;
    std::vector<svg::Point> middle, band, back;
    for (std::size_t i = 0; i < curve.density.size(); ++i) {
        const double x = frame.x(curve.log_seconds[i]);
        if (!frame.holds(curve.log_seconds[i])) continue;
        middle.emplace_back(x, frame.y(curve.density[i].value));
        band.emplace_back(x, frame.y(curve.density[i].high));
        back.emplace_back(x, frame.y(curve.density[i].low));
    }
    band.insert(band.end(), back.rbegin(), back.rend());
    std::string text = svg::outline(band, "fill=\"" + strip.ink + "\" fill-opacity=\"0.12\" stroke=\"none\"");
    text += svg::path(middle, "fill=\"none\" stroke=\"" + strip.ink + "\" stroke-width=\"1.6\"" +
                                  (strip.bleached ? " stroke-dasharray=\"7 3\"" : ""));
    for (const Dot& dot : strip.dots) {
        const double x = frame.x(dot.log_seconds);
        if (x < kFitLeft || x > kFitRight) continue;
        text += dot_at(x, frame.y(dot.density), strip) + dot_at(x, frame.miss_y(dot.miss), strip);
    }
    return text;
}

}  // namespace

std::string fit_svg(const PackFit& fit) {
    auto strips = strips_of(fit);
    const std::size_t left_out = thinned_out(strips);
    for (DrawnStrip& strip : strips) strip.curve = working_curve(fit.pack, strip.recipe);
    const Frame frame = frame_of(strips);
    std::string text =
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" "
        "version=\"1.1\" width=\"" +
        svg::number(kFitWidth) + "\" height=\"" + svg::number(kFitHeight) + "\" viewBox=\"0 0 " +
        svg::number(kFitWidth) + " " + svg::number(kFitHeight) +
        "\" font-family=\"'DejaVu Sans', Helvetica, Arial, sans-serif\" font-size=\"13\" fill=\"#2b2a27\">\n"
        "<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n";
    text += svg::label({kFitLeft, 36}, "start", fit.pack.name, "font-size=\"20\"");
    text += svg::label({kFitLeft, 57}, "start",
                       readings_counted(fit.readings.size()) +
                           (fit.contradictions.empty() ? "" : ", which contradict each other") + "; rms " +
                           fixed(fit.rms, 3) + " D; bands hold 95 %",
                       "fill=\"#6b6860\"");
    text += lines(frame);
    for (const auto& strip : strips) text += drawn(strip, frame);
    double y = kFitTop + 26;
    for (const auto& strip : strips) {
        text += dot_at(kFitLeft + 24, y - 4.5, strip);
        text += svg::label({kFitLeft + 38, y}, "start", words_of(strip));
        y += 21;
    }
    const auto aside = [&](const std::string& words) {
        text += svg::label({kFitLeft + 38, y}, "start", words, "fill=\"#6b6860\"");
        y += 21;
    };
    if (left_out > 0)
        aside(std::to_string(left_out) +
              (left_out == 1 ? " earlier strip is not drawn" : " earlier strips are not drawn"));
    if (const auto open = std::ranges::count_if(fit.readings, exposure_guessed); open > 0)
        aside(readings_counted(std::size_t(open)) + " without seconds not drawn");
    if (strips.empty()) aside("no strip has three patches of known seconds");
    return text + "</svg>\n";
}

}  // namespace fogproof::report
