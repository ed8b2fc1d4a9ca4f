// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/wanted_tones.hpp"

#include <cmath>

#include "fogproof/print/print_model.hpp"

namespace fogproof::choose {

double lightness_error(const Wanted& wanted, const PrintModel& print) {
    double sum = 0;
    for (std::size_t i = 0; i < wanted.tones.size(); ++i)
        sum +=
            wanted.tones[i].share * std::pow(print.patch_of(wanted.tones[i]).lab.l - wanted.lightness[i], 2);
    return std::sqrt(sum);
}

}  // namespace fogproof::choose
