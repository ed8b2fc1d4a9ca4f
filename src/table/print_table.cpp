// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "table/print_table.hpp"

#include <algorithm>
#include <cmath>

#include "base/interpolation.hpp"
#include "system/threads.hpp"

namespace fogproof::table {
namespace {

// Steps of at most this much negative density keep the interpolation within 0.005 L* (worst_lightness_error).
constexpr double kStep = 1.0 / 200;
constexpr std::size_t kFewest = 8;
constexpr std::size_t kTogether = 4096;  // entries that a thread takes at a time

}  // namespace

PrintTable::PrintTable(const PrintModel& model, std::span<const NegativeDensity> scale) {
    const auto [lowest, highest] = std::ranges::minmax(scale);
    const double low = lowest.value, span = std::max(highest.value - low, kStep);
    const std::size_t nodes = std::max(kFewest, std::size_t(std::ceil(span / kStep)) + 1);
    const PrintModel quick = model.for_many_patches();
    std::vector<double> x(nodes);
    for (std::size_t i = 0; i < nodes; ++i) x[i] = low + span * double(i) / double(nodes - 1);
    const double per_density = double(nodes - 1) / span;
    lab_.resize(scale.size() * model.projection().places());
    for (std::size_t place = 0; place < model.projection().places(); ++place) {
        std::vector<double> l(nodes), a(nodes), b(nodes);
        in_parallel(nodes, [&](std::size_t i) {
            const Lab tone = quick.patch({x[i]}, place).lab;
            l[i] = tone.l;
            a[i] = tone.a;
            b[i] = tone.b;
        });
        const MonotoneCurve curve_l(x, std::move(l)), curve_a(x, std::move(a)), curve_b(x, std::move(b));
        Lab* const entries = lab_.data() + place * scale.size();
        in_parallel((scale.size() + kTogether - 1) / kTogether, [&](std::size_t part) {
            for (std::size_t code = part * kTogether; code < std::min((part + 1) * kTogether, scale.size());
                 ++code) {
                const double d = scale[code].value;
                const auto guess = std::size_t((d - low) * per_density);
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
