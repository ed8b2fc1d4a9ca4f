// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/curve_chart.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/stop.hpp"
#include "base/words.hpp"
#include "report/shown.hpp"
#include "report/svg_text.hpp"
#include "report/zero_words.hpp"

namespace fogproof::report {
namespace {

constexpr double kWidth = 960, kHeight = 640;
constexpr double kLeft = 76, kRight = 930, kTop = 84, kBottom = 562;

// Inks that stay apart for colour-blind eyes; the dashes keep them apart without colour.
struct Ink {
    const char* colour;
    const char* dashes;
};
constexpr std::array kInks{Ink{"#1b1b1b", ""}, Ink{"#0b5fa5", "9 3"}, Ink{"#b3541e", "3 3"},
                           Ink{"#4d7c2f", "12 3 3 3"}, Ink{"#7a4a8c", "6 2 2 2"}};

// Where densities and exposures come to lie on the page; exposures in whole stops around the curves.
struct Scales {
    double origin;  // log10 s that counts as stop 0
    int first_stop, last_stop;
    double darkest;

    [[nodiscard]] double x(double log_seconds) const {
        const double stops = (log_seconds - origin) / kLogPerStop;
        return kLeft + (kRight - kLeft) * (stops - first_stop) / (last_stop - first_stop);
    }
    [[nodiscard]] double y(double density) const { return kBottom - (kBottom - kTop) * density / darkest; }
};

Scales scales_for(const Pack& pack, std::span<const LabelledCurve> curves) {
    constexpr double kFlat = 0.02;  // a curve this close to its ends has nothing more to show
    double first = 3, last = -3, darkest = 2;
    for (const auto& [label, curve] : curves) {
        const double low = curve.density.front().value, high = curve.density.back().value;
        for (std::size_t i = 0; i < curve.density.size(); ++i) {
            const double density = curve.density[i].value;
            darkest = std::max(darkest, curve.density[i].high);
            if (density < low + kFlat || density > high - kFlat) continue;
            first = std::min(first, curve.log_seconds[i]);
            last = std::max(last, curve.log_seconds[i]);
        }
    }
    if (first > last) std::swap(first, last);
    const double origin = pack.darkroom.anchored
                              ? 0
                              : std::log10(time_giving({pack.speed_log_s}, pack.darkroom.enlarger).value);
    return {origin, int(std::floor((first - origin) / kLogPerStop)) - 1,
            int(std::ceil((last - origin) / kLogPerStop)) + 1, 0.2 * std::ceil(darkest / 0.2)};
}

std::string stop_words(int stop, bool anchored) {
    if (!anchored) return stop > 0 ? "+" + std::to_string(stop) : std::to_string(stop);
    const double seconds = std::exp2(stop);
    return seconds >= 1 ? fixed(seconds, 0) : "1/" + fixed(1 / seconds, 0);
}

std::string grid(const Scales& scales, const Pack& pack) {
    constexpr const char* kHair = "stroke=\"#d9d6cf\" stroke-width=\"0.7\"";
    std::string text;
    for (int stop = scales.first_stop; stop <= scales.last_stop; ++stop) {
        const double x = scales.x(scales.origin + stop * kLogPerStop);
        text += svg::line({x, kTop}, {x, kBottom}, kHair);
        text += svg::label({x, kBottom + 22}, "middle", stop_words(stop, pack.darkroom.anchored));
    }
    for (int fifth = 0; 0.2 * fifth <= scales.darkest + 1e-9; ++fifth) {
        const double y = scales.y(0.2 * fifth);
        text += svg::line({kLeft, y}, {kRight, y}, kHair);
        text += svg::label({kLeft - 10, y + 4.5}, "end", fixed(0.2 * fifth, 1));
    }
    text += svg::label({(kLeft + kRight) / 2, kBottom + 50}, "middle",
                       pack.darkroom.anchored
                           ? "seconds " + zero_of_pack(pack)
                           : "stops from the 0.60 point of the fresh paper (no anchor: no seconds)");
    return text + svg::label({kLeft - 10, kTop - 14}, "end", "density");
}

std::string curve_drawn(const WorkingCurve& curve, const Ink& ink, const Scales& scales) {
    std::vector<svg::Point> middle, band;
    const auto lies_inside = [&](std::size_t i) {
        const double x = scales.x(curve.log_seconds[i]);
        return x >= kLeft - 0.01 && x <= kRight + 0.01;
    };
    for (std::size_t i = 0; i < curve.density.size(); ++i) {
        if (!lies_inside(i)) continue;
        middle.emplace_back(scales.x(curve.log_seconds[i]), scales.y(curve.density[i].value));
        band.emplace_back(scales.x(curve.log_seconds[i]), scales.y(curve.density[i].high));
    }
    for (std::size_t i = curve.density.size(); i-- > 0;)
        if (lies_inside(i)) band.emplace_back(scales.x(curve.log_seconds[i]), scales.y(curve.density[i].low));
    const std::string colour = ink.colour;
    std::string stroke =
        "fill=\"none\" stroke=\"" + colour + "\" stroke-width=\"2\" stroke-linejoin=\"round\"";
    if (*ink.dashes) stroke += " stroke-dasharray=\"" + std::string(ink.dashes) + "\"";
    return svg::outline(band, "fill=\"" + colour + "\" fill-opacity=\"0.09\" stroke=\"none\"") +
           svg::path(middle, stroke);
}

std::string legend_words(const LabelledCurve& labelled) {
    const auto& range = labelled.curve.iso_range;
    if (!range) return labelled.label + ": too short for an ISO range";
    std::string words = labelled.label + ": ISO R " + fixed(range->value, 0);
    if (range->high - range->low >= 1)
        words += " (" + fixed(range->low, 0) + " to " + fixed(range->high, 0) + ")";
    return words;
}

// Curves rise to the right, so the upper left corner is free.
std::string legend(std::span<const LabelledCurve> curves) {
    constexpr double kX = kLeft + 20, kLine = 24, kSample = 44;
    double y = kTop + 30;
    std::string text;
    for (std::size_t i = 0; i < curves.size(); ++i, y += kLine) {
        const Ink& ink = kInks[i % kInks.size()];
        const std::string stroke = "stroke=\"" + std::string(ink.colour) +
                                   "\" stroke-width=\"2\" stroke-dasharray=\"" +
                                   (*ink.dashes ? ink.dashes : "none") + "\"";
        text += svg::line({kX, y - 5}, {kX + kSample, y - 5}, stroke);
        text += svg::label({kX + kSample + 10, y}, "start", legend_words(curves[i]));
    }
    return text;
}

}  // namespace

std::string curves_svg(const Pack& pack, std::span<const LabelledCurve> curves) {
    const Scales scales = scales_for(pack, curves);
    std::string text =
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"" +
        svg::number(kWidth) + "\" height=\"" + svg::number(kHeight) + "\" viewBox=\"0 0 " +
        svg::number(kWidth) + " " + svg::number(kHeight) +
        "\" font-family=\"'DejaVu Sans', Helvetica, Arial, sans-serif\" font-size=\"13\" fill=\"#2b2a27\">\n"
        "<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n";
    text += svg::label({kLeft, 36}, "start", pack.name, "font-size=\"20\"");
    text += svg::label({kLeft, 57}, "start",
                       "Bands hold 95 % of what the pack's measured, given and assumed numbers leave open",
                       "fill=\"#6b6860\"");
    text += grid(scales, pack);
    for (std::size_t i = 0; i < curves.size(); ++i)
        text += curve_drawn(curves[i].curve, kInks[i % kInks.size()], scales);
    if (!curves.empty()) {
        const double white = curves.front().curve.paper_white.value;
        text += svg::line({kLeft, scales.y(white)}, {kRight, scales.y(white)},
                          "stroke=\"#6b6860\" stroke-width=\"1\" stroke-dasharray=\"2 4\"");
        text += svg::label({kLeft + 8, scales.y(white) + 12}, "start",
                           "paper white " + shown(PrintDensity{white}), "font-size=\"11\" fill=\"#6b6860\"");
        text += legend(curves);
    }
    return text + "</svg>\n";
}

}  // namespace fogproof::report
