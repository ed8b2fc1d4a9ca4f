// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/quick_print.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "base/interpolation.hpp"
#include "fogproof/print/silver_path.hpp"

namespace fogproof::choose {
namespace {

constexpr double kShareReach = 5;  // of a share curve

// Both axes are tabulated over square roots: L* falls fastest where silver, and is bleached fastest where the
// dose, is least.
double node_of(double value, double most, std::size_t nodes) {
    return std::sqrt(std::clamp(value / most, 0.0, 1.0)) * double(nodes - 1);
}
double value_at(std::size_t node, double most, std::size_t nodes) {
    const double u = double(node) / double(nodes - 1);
    return most * u * u;
}

}  // namespace

ShareCurve::ShareCurve(const GrainPopulation& population, const Filter& filter, double per_unit)
    : per_unit_(per_unit) {
    const FilteredGrains grains(population, filter);
    for (double x = -kShareReach; x <= kShareReach + 1.5 / per_unit; x += 1 / per_unit)
        share_.push_back(grains.developable(x));
}

double ShareCurve::operator()(double log_over_threshold) const {
    const double place = (log_over_threshold + kShareReach) * per_unit_;
    if (!(place > 1)) return share_.front();
    const auto cell = std::size_t(place);
    if (cell + 2 >= share_.size()) return share_.back();
    const double* s = &share_[cell - 1];
    return cubic_between(s[0], s[1], s[2], s[3], place - double(cell));
}

BleachedLightness::BleachedLightness(const PaperModel& paper, double most_silver, double most_dose,
                                     Toner toner, Nodes nodes)
    : paper_(paper),
      most_silver_(most_silver),
      most_dose_(std::max(most_dose, 1e-6)),
      toner_(toner),
      nodes_(nodes) {
    for (std::size_t d = 0; d < nodes_.doses; ++d)
        std::ranges::copy(reckoned(value_at(d, most_dose_, nodes_.doses)), std::back_inserter(table_));
}

std::vector<double> BleachedLightness::reckoned(double dose) const {
    std::vector<double> lightness;
    for (std::size_t s = 0; s < nodes_.silver; ++s) {
        const DevelopedSilver silver{{value_at(s, most_silver_, nodes_.silver)}};
        lightness.push_back(
            paper_.sheet.quick_lightness(finished(paper_, silver, {dose, usual_time(toner_), toner_})));
    }
    return lightness;
}

std::vector<double> BleachedLightness::at_dose(double dose) const {
    if (dose > most_dose_) return reckoned(dose);
    const double place = node_of(dose, most_dose_, nodes_.doses);
    const auto cell = std::min(std::size_t(place), nodes_.doses - 2);
    const double t = place - double(cell);
    const auto row = [&](std::size_t d) { return table_.data() + d * nodes_.silver; };
    const double *before = row(cell > 0 ? cell - 1 : 0), *from = row(cell), *to = row(cell + 1),
                 *after = row(std::min(cell + 2, nodes_.doses - 1));
    std::vector<double> lightness(nodes_.silver);
    for (std::size_t s = 0; s < nodes_.silver; ++s)
        lightness[s] = cubic_between(before[s], from[s], to[s], after[s], t);
    return lightness;
}

double BleachedLightness::lightness(const std::vector<double>& row, double silver) const {
    const double place = node_of(silver, most_silver_, nodes_.silver);
    const auto cell = std::min(std::size_t(place), nodes_.silver - 2);
    return cubic_between(row[cell > 0 ? cell - 1 : 0], row[cell], row[cell + 1],
                         row[std::min(cell + 2, nodes_.silver - 1)], place - double(cell));
}

}  // namespace fogproof::choose
