// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/todays_light.hpp"

#include <cmath>

namespace fogproof::choose {

Pack in_light(Pack pack, double log_gain) {
    pack.darkroom.enlarger.log_light_today += log_gain;
    return pack;
}

Seconds in_light_of_readings(Seconds today, const Enlarger& enlarger) {
    return {today.value * std::pow(10.0, enlarger.log_light_today / enlarger.reciprocity)};
}

}  // namespace fogproof::choose
