// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A pack as it was before its last fit, so that the next one starts anew.
#include <algorithm>
#include <vector>

#include "fogproof/fit/pack_fit.hpp"
#include "pack/schema.hpp"

namespace fogproof::fit {

Pack unfitted(const Pack& fitted) {
    if (fitted.fit.numbers.empty()) return fitted;
    Pack pack = fitted;
    std::vector<double> added;
    for (const auto& number : fitted.fit.numbers) {
        pack.knowledge.erase(number.name);
        if (number.prior_knowledge != Knowledge{}) pack.knowledge[number.name] = number.prior_knowledge;
        if (const PackNumber* row = pack_number(number.name)) row->in(pack) = number.prior;
        for (auto& filter : pack.filters)
            for (const auto& row : filter_numbers())
                if (filter_number_name(filter, row.key) == number.name) {
                    row.in(filter) = number.prior;
                    // The table's, not the owner's.
                    if (row.key == "balance" && number.prior_knowledge.origin == Origin::assumed)
                        added.push_back(filter.grade);
                }
    }
    std::erase_if(pack.filters,
                  [&](const auto& f) { return std::ranges::find(added, f.grade) != added.end(); });
    pack.darkroom.anchored = fitted.fit.prior_anchored;
    pack.law_scatter = 0;
    pack.knowledge.erase("scatter.law");
    pack.fit = {};
    return pack;
}

}  // namespace fogproof::fit
