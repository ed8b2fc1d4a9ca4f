// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/tone_chart.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/words.hpp"
#include "choose/fresh_target.hpp"
#include "fogproof/emulsion/paper_numbers.hpp"
#include "report/svg_text.hpp"

namespace fogproof::report {
namespace {

constexpr double kToneWidth = 960, kToneLeft = 30, kToneRight = 930, kToneTop = 50, kFloor = 300, kRuler = 46;
constexpr double kDazzling = 1e9;                   // clear-film seconds: every grain is exposed
constexpr double kThinnest = -1.5, kDensest = 5.0;  // no negative reaches further

// The density of the negative at which a print, lighter with every step, passes a print density.
NegativeDensity where_it_passes(const PrintModel& print, double print_density) {
    double thin = kThinnest, dense = kDensest;
    constexpr double kExact = 1e-4;
    while (dense - thin > kExact) {
        const double middle = (thin + dense) / 2;
        (print.patch({middle}).density.value > print_density ? thin : dense) = middle;
    }
    return {(thin + dense) / 2};
}

struct Scale {
    double low, high;
    [[nodiscard]] double x(double density) const {
        return kToneLeft + (kToneRight - kToneLeft) * (density - low) / (high - low);
    }
};

Scale scale_for(const Tones& frame, std::span<const HeldRange> ranges) {
    double low = frame.quantile(0).value, high = frame.quantile(1).value;
    for (const HeldRange& range : ranges) {
        low = std::min(low, range.thin.value);
        high = std::max(high, range.dense.value);
    }
    constexpr double kTick = 0.1;
    return {kTick * std::floor(low / kTick), kTick * std::ceil(high / kTick)};
}

// Share of the frame in each of many slices of density.
std::vector<double> slices(const Tones& frame, const Scale& scale) {
    constexpr double kSlice = 0.025;
    std::vector<double> shares(std::size_t((scale.high - scale.low) / kSlice + 1));
    for (const Tone& tone : frame.all()) {
        const double place = (tone.density.value - scale.low) / (scale.high - scale.low);
        const auto slice = std::size_t(place * double(shares.size()));
        shares[std::min(slice, shares.size() - 1)] += tone.share;
    }
    return shares;
}

std::string bars(const Tones& frame, const Scale& scale) {
    const auto shares = slices(frame, scale);
    const double tallest = *std::ranges::max_element(shares);
    std::vector<svg::Point> outline{{kToneLeft, kFloor}};
    const double step = (kToneRight - kToneLeft) / double(shares.size());
    for (std::size_t i = 0; i < shares.size(); ++i) {
        const double y = kFloor - (kFloor - kToneTop) * shares[i] / tallest;
        outline.push_back({kToneLeft + step * double(i), y});
        outline.push_back({kToneLeft + step * double(i + 1), y});
    }
    outline.push_back({kToneRight, kFloor});
    return svg::outline(outline, "fill=\"#8a8a86\" stroke=\"#1b1b1b\" stroke-width=\"0.8\"");
}

std::string axis(const Scale& scale) {
    std::string text =
        svg::line({kToneLeft, kFloor}, {kToneRight, kFloor}, "stroke=\"#1b1b1b\" stroke-width=\"1.2\"");
    const double tick = scale.high - scale.low > 3 ? 0.5 : 0.2;
    for (double d = tick * std::ceil(scale.low / tick - 1e-6); d <= scale.high + 1e-6; d += tick) {
        text += svg::line({scale.x(d), kFloor}, {scale.x(d), kFloor + 6}, "stroke=\"#1b1b1b\"");
        text += svg::label({scale.x(d), kFloor + 21}, "middle", decimal(d, 1));
    }
    return text + svg::label({kToneRight, kFloor + 40}, "end",
                             "density of the negative: shadows left, highlights right");
}

std::string ruler(const HeldRange& range, const Scale& scale, double y) {
    constexpr double kHook = 7;
    const double from = scale.x(range.thin.value), to = scale.x(range.dense.value);
    const std::string ink = "stroke=\"#1b1b1b\" stroke-width=\"2\"";
    const std::string guide = "stroke=\"#1b1b1b\" stroke-width=\"0.8\" stroke-dasharray=\"2 4\"";
    return svg::line({from, kToneTop}, {from, y}, guide) + svg::line({to, kToneTop}, {to, y}, guide) +
           svg::line({from, y}, {to, y}, ink) + svg::line({from, y - kHook}, {from, y + kHook}, ink) +
           svg::line({to, y - kHook}, {to, y + kHook}, ink) +
           svg::label({(from + to) / 2, y - 8}, "middle", range.label);
}

}  // namespace

std::optional<HeldRange> held_range(std::string label, const PrintModel& print) {
    const double minimum = print.border().density.value;
    const double net = print.lit({kDazzling, kDazzling}).density.value - minimum;
    if (kIsoShoulder * net <= kIsoToe) return std::nullopt;
    return HeldRange{std::move(label), where_it_passes(print, minimum + kIsoShoulder * net),
                     where_it_passes(print, minimum + kIsoToe)};
}

std::string tones_svg(const Tones& frame, std::span<const HeldRange> ranges) {
    const Scale scale = scale_for(frame, ranges);
    const double height = kFloor + 60 + kRuler * double(ranges.size());
    std::string text =
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" "
        "version=\"1.1\" width=\"" +
        svg::number(kToneWidth) + "\" height=\"" + svg::number(height) + "\" viewBox=\"0 0 " +
        svg::number(kToneWidth) + " " + svg::number(height) +
        "\" font-family=\"'DejaVu Sans', Helvetica, Arial, sans-serif\" font-size=\"14\" fill=\"#1b1b1b\">\n"
        "<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n";
    text += svg::label({kToneLeft, 28}, "start", "Area of the frame by density, and what each print holds",
                       "font-size=\"17\"");
    text += bars(frame, scale) + axis(scale);
    double y = kFloor + 78;
    for (const HeldRange& range : ranges) {
        text += ruler(range, scale, y);
        y += kRuler;
    }
    return text + "</svg>\n";
}

std::string tones_words(const Tones& frame, std::span<const HeldRange> ranges) {
    std::string text = "99 % of the frame lies between densities " +
                       fixed(frame.quantile(kThinEnd).value, 2) + " and " +
                       fixed(frame.quantile(kDenseEnd).value, 2) + ".";
    for (const HeldRange& range : ranges)
        text += " " + range.label + " has tone from " + fixed(range.thin.value, 2) + " to " +
                fixed(range.dense.value, 2) + ".";
    return text;
}

}  // namespace fogproof::report
