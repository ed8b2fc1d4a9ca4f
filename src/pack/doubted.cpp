// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/doubted.hpp"

#include <algorithm>

#include "pack/doubtful_numbers.hpp"
#include "pack/uncertainty.hpp"
#include "pack/without_fit.hpp"

namespace fogproof::pack {
namespace {

// Of a fitted number's deviation: so close by that papers do not bend yet, and far enough for what was
// tabulated.
constexpr double kCloseBy = 0.1;

double share_moved(const FitRecord& fit, const std::string& name) {
    return std::ranges::find(fit.numbers, name, &FitRecord::Number::name) == fit.numbers.end() ? 1 : kCloseBy;
}

double signed_by(Moves::Way way, double share) {
    return way == Moves::Way::less ? -share : share;
}

}  // namespace

Moves::Moves(const Pack& pack) : pack_(pack) {
    pack_ = without_fit(std::move(pack_));
    for (auto& [name, move] : doubtful_numbers(pack)) {
        const double share = share_moved(pack.fit, name);
        moved_.push_back({name, share, [share, move = std::move(move)](Pack& other, Way way) {
                              move(other, signed_by(way, share));
                          }});
    }
    for (std::size_t a = 0; a < moved_.size(); ++a)
        for (std::size_t b = 0; b <= a; ++b)
            correlation_.push_back(pack::correlation(pack.fit, moved_[a].name, moved_[b].name));
}

Pack Moves::pack(std::size_t number, Way way) const {
    Pack other = pack_;
    moved_[number].move(other, way);
    return other;
}

double Moves::correlation(std::size_t a, std::size_t b) const {
    const auto [less, more] = std::minmax(a, b);
    return correlation_[more * (more + 1) / 2 + less];
}

double Moves::deviation(std::span<const double> changes) const {
    double variance = 0;
    for (std::size_t a = 0; a < changes.size(); ++a)
        for (std::size_t b = 0; b <= a; ++b) {
            const double together = correlation(a, b) * (a == b ? 1 : 2);
            if (together != 0) variance += together * changes[a] * changes[b];
        }
    return std::sqrt(std::max(variance, 0.0));
}

}  // namespace fogproof::pack
