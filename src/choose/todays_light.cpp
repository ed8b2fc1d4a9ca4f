// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/todays_light.hpp"

namespace fogproof::choose {

Pack in_light(Pack pack, double log_gain) {
    pack.speed_log_s -= log_gain;
    return pack;
}

}  // namespace fogproof::choose
