// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/doubtful_numbers.hpp"

#include <algorithm>
#include <cmath>

#include "pack/schema.hpp"
#include "pack/uncertainty.hpp"

namespace fogproof::pack {

std::vector<DoubtfulNumber> doubtful_numbers(const Pack& pack) {
    std::vector<DoubtfulNumber> all;
    const PutDoubtful put = putting_for(pack);
    for (const auto& row : pack_numbers()) {
        const double deviation = deviation_of(pack, row), value = row.of(pack);
        if (deviation <= 0 || !is_moved(pack, row)) continue;
        if (goes_by_factor(row) && value > 0)
            all.push_back({row.name(), [=, &row](Pack& other, double by) {
                               put(other, row, value * std::exp(by * std::log1p(deviation / value)));
                           }});
        else
            all.push_back(
                {row.name(), [=, &row](Pack& other, double by) { put(other, row, value + by * deviation); }});
    }
    for (std::size_t i = 0; i < pack.filters.size(); ++i)
        for (const auto& row : filter_numbers()) {
            const std::string name = filter_number_name(pack.filters[i], row.key);
            const double deviation = filter_deviation_of(pack, name);
            if (deviation <= 0 || row.key == "grade") continue;
            const double value = row.of(pack.filters[i]);
            all.push_back({name, [=, &row](Pack& other, double by) {
                               row.in(other.filters[i]) =
                                   std::clamp(value + by * deviation, row.minimum, row.maximum);
                           }});
        }
    return all;
}

}  // namespace fogproof::pack
