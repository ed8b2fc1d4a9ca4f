// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/printed_tones.hpp"

#include <cmath>

namespace fogproof::choose {
namespace {

constexpr double kFirstStep =
    0.15;  // between exposures looked at first; the error has one valley at this scale
constexpr double kFinest = 0.002;
constexpr double kFoot = 16;  // of CIELAB: L* + 16 goes with the cube root of the light

}  // namespace

double dimming(double darker) {
    return std::pow(10.0, -darker / 3);
}

double closest_exposure(std::span<const LightnessLine> lines, const WantedLights& wanted,
                        const Adaptation& seen, double dimmed, double middle, double reach) {
    const auto miss_at = [&](double log_h) {
        double sum = 0;
        for (std::size_t i = 0; i < wanted.share.size(); ++i) {
            const double l = (lines[wanted.line[i]](log_h + wanted.log_light[i]) + kFoot) * dimmed - kFoot;
            const double miss = seen.miss(l, wanted.lightness[i]);
            sum += wanted.share[i] * miss * miss;
        }
        return sum;
    };
    double best = middle, least = miss_at(middle);
    const auto look_at = [&](double log_h) {
        const double miss = miss_at(log_h);
        if (miss >= least) return;
        least = miss;
        best = log_h;
    };
    for (double away = kFirstStep; away <= reach; away += kFirstStep) {
        look_at(middle - away);
        look_at(middle + away);
    }
    for (double step = kFirstStep / 2; step > kFinest; step /= 2) {
        const double here = best;
        look_at(here - step);
        look_at(here + step);
    }
    return best;
}

double rms_at(std::span<const LightnessLine> lines, const WantedLights& wanted, double log_h, double dimmed,
              double apart) {
    // L* + 16 lost by one density.
    const double each = std::log(10.0) / 3 * apart;
    double sum = 0;
    for (std::size_t i = 0; i < wanted.share.size(); ++i) {
        const double lit = (lines[wanted.line[i]](log_h + wanted.log_light[i]) + kFoot) * dimmed;
        const double miss = lit - kFoot - wanted.lightness[i], off = each * lit;
        sum += wanted.share[i] * (miss * miss + off * off);
    }
    return std::sqrt(sum);
}

}  // namespace fogproof::choose
