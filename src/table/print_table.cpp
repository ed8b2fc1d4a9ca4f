// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "table/print_table.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "base/interpolation.hpp"
#include "system/threads.hpp"

namespace fogproof::table {
namespace {

// Steps of at most this much negative density keep the interpolation of smooth curves within 0.005 L*
// (worst_lightness_error). Judgement.
constexpr double kStep = 1.0 / 200;
constexpr std::size_t kFewest = 8;
// Where a bath takes all silver of a tone and none of the next, the curve has a corner: steps over which its
// slope changes by so much (L*, a* or b* a step, from step to step) are divided, so often. Judgement.
constexpr double kCorner = 0.05;
constexpr std::size_t kParts = 8;
constexpr int kDivisions = 2;
constexpr std::size_t kTogether = 4096;  // entries that a thread takes at a time

using Tones = std::vector<Lab>;

Tones tones_at(const PrintModel& quick, const std::vector<double>& densities, std::size_t place) {
    Tones tones(densities.size());
    in_parallel(tones.size(), [&](std::size_t i) { tones[i] = quick.patch({densities[i]}, place).lab; });
    return tones;
}

// How much the slope of a curve changes from the step before to the step behind one.
double unevenness(const std::vector<double>& x, const Tones& tones, std::size_t step) {
    if (step == 0 || step + 2 >= x.size()) return 0;
    const auto slope = [&](double Lab::*part, std::size_t i) {
        return (tones[i + 1].*part - tones[i].*part) / (x[i + 1] - x[i]);
    };
    double most = 0;
    for (const auto part : {&Lab::l, &Lab::a, &Lab::b})
        most = std::max(most, std::abs(slope(part, step + 1) - slope(part, step - 1)));
    return most * (x[step + 1] - x[step]);
}

// Divides the steps that hold a corner; false where none does.
bool divide(std::vector<double>& x, Tones& tones, const PrintModel& quick, std::size_t place) {
    std::vector<double> more;
    for (std::size_t step = 0; step + 1 < x.size(); ++step)
        if (unevenness(x, tones, step) > kCorner)
            for (std::size_t part = 1; part < kParts; ++part)
                more.push_back(std::lerp(x[step], x[step + 1], double(part) / kParts));
    if (more.empty()) return false;
    const Tones between = tones_at(quick, more, place);
    std::vector<std::pair<double, Lab>> all;
    for (std::size_t i = 0; i < x.size(); ++i) all.emplace_back(x[i], tones[i]);
    for (std::size_t i = 0; i < more.size(); ++i) all.emplace_back(more[i], between[i]);
    std::ranges::sort(all, {}, [](const auto& node) { return node.first; });
    x.clear(), tones.clear();
    for (const auto& [density, tone] : all) x.push_back(density), tones.push_back(tone);
    return true;
}

MonotoneCurve curve_of(const std::vector<double>& x, const Tones& tones, double Lab::*part) {
    std::vector<double> y;
    std::ranges::transform(tones, std::back_inserter(y), part);
    return {x, std::move(y)};
}

}  // namespace

PrintTable::PrintTable(const PrintModel& model, std::span<const NegativeDensity> scale) {
    const auto [lowest, highest] = std::ranges::minmax(scale);
    const double low = lowest.value, span = std::max(highest.value - low, kStep);
    const std::size_t nodes = std::max(kFewest, std::size_t(std::ceil(span / kStep)) + 1);
    const PrintModel quick = model.for_many_patches();
    std::vector<double> even(nodes);
    for (std::size_t i = 0; i < nodes; ++i) even[i] = low + span * double(i) / double(nodes - 1);
    const double per_density = double(nodes - 1) / span;
    lab_.resize(scale.size() * model.projection().places());
    for (std::size_t place = 0; place < model.projection().places(); ++place) {
        std::vector<double> x = even;
        Tones tones = tones_at(quick, x, place);
        for (int round = 0; round < kDivisions && divide(x, tones, quick, place); ++round) {
        }
        // Of each even step the node it begins with.
        std::vector<std::size_t> begins(nodes);
        for (std::size_t i = 0, node = 0; i < nodes; ++i) {
            while (x[node] < even[i]) ++node;
            begins[i] = node;
        }
        const MonotoneCurve curve_l = curve_of(x, tones, &Lab::l), curve_a = curve_of(x, tones, &Lab::a),
                            curve_b = curve_of(x, tones, &Lab::b);
        Lab* const entries = lab_.data() + place * scale.size();
        in_parallel((scale.size() + kTogether - 1) / kTogether, [&](std::size_t part) {
            for (std::size_t code = part * kTogether; code < std::min((part + 1) * kTogether, scale.size());
                 ++code) {
                const double d = scale[code].value;
                const auto guess = begins[std::min(std::size_t((d - low) * per_density), nodes - 1)];
                entries[code] = {curve_l(d, guess), curve_a(d, guess), curve_b(d, guess)};
            }
        });
    }
}

double worst_lightness_error(const PrintTable& table, const PrintModel& model,
                             std::span<const NegativeDensity> scale) {
    double worst = 0;
    for (std::size_t entry = 0; entry < table.lab().size(); ++entry) {
        const Patch asked = model.patch(scale[entry % scale.size()], entry / scale.size());
        worst = std::max(worst, std::abs(table.lab()[entry].l - asked.lab.l));
    }
    return worst;
}

}  // namespace fogproof::table
