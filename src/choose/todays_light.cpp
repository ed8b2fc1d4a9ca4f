// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/todays_light.hpp"

#include <cmath>

namespace fogproof::choose {

Pack in_light(Pack pack, double log_gain) {
    pack.speed_log_s -= log_gain;
    return pack;
}

Seconds in_light_of_readings(Seconds today, const TodaysLight& light, double reciprocity) {
    return {today.value * std::pow(10.0, light.log_gain / reciprocity)};
}

}  // namespace fogproof::choose
