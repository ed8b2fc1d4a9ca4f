// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/redevelop/redevelop.hpp"

#include <cmath>

namespace fogproof::redevelop {

namespace {

double progress(Seconds time, double rise_s) {
    return time.value > 0 ? -std::expm1(-time.value / rise_s) : 0.0;
}

FinishedSilver sulphided(BleachedSilver bleached, double recoverable, const Toning& toning, Seconds time,
                         Toner toner) {
    const double changed = recoverable * progress(time, toning.rise_s) * bleached.lost.value;
    return {bleached.left, {}, {bleached.lost.value - changed}, {toning.covering * changed}, toner};
}

FinishedSilver selenised(BleachedSilver bleached, const Redevelopment& constants, Seconds time) {
    const double left = bleached.left.value;
    const double reached = left > 0 ? left / (left + constants.selenium_lights) : 0.0;
    const double changed = progress(time, constants.selenium.rise_s) * reached * left;
    return {{left - changed}, {}, bleached.lost, {constants.selenium.covering * changed}, Toner::selenium};
}

}  // namespace

FinishedSilver redeveloped(BleachedSilver bleached, const Redevelopment& constants, Seconds time,
                           Toner toner) {
    switch (toner) {
        case Toner::sulphide:
            return sulphided(bleached, constants.recoverable, constants.sulphide, time, toner);
        case Toner::thiourea:
            return sulphided(bleached, constants.recoverable, constants.thiourea, time, toner);
        case Toner::selenium:
            return selenised(bleached, constants, time);
        case Toner::none:
            break;
    }
    const double recovered = constants.recoverable * progress(time, constants.rise_s) * bleached.lost.value;
    return {bleached.left, {constants.covering * recovered}, {bleached.lost.value - recovered}};
}

Seconds usual_time(Toner toner) {
    constexpr Seconds kComplete{180}, kSelenium{120};
    if (toner == Toner::none) return {0};
    return toner == Toner::selenium ? kSelenium : kComplete;
}

}  // namespace fogproof::redevelop
