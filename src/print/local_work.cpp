// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/print/local_work.hpp"

#include <algorithm>

#include "fogproof/print/print_steps.hpp"

namespace fogproof::print {
std::string name_of(LocalWork::Kind kind) {
    switch (kind) {
        case LocalWork::Kind::burn:
            return "burn";
        case LocalWork::Kind::dodge:
            return "dodge";
        case LocalWork::Kind::bleach:
            break;
    }
    return "bleach";
}

std::string called(const LocalWork& work) {
    return work.name.empty() ? name_of(work.kind) : work.name;
}

Seconds local_time(const PrintSteps& steps, const LocalStep& step, double level) {
    if (!step.stops) return level * step.time;
    const double stops = level * *step.stops, all = exposed(steps).value;
    return {step.kind == LocalWork::Kind::dodge ? all * (1 - stops_factor(-stops))
                                                : all * (stops_factor(stops) - 1)};
}

PrintSteps steps_at(const PrintSteps& steps, std::span<const double> levels) {
    PrintSteps here = steps;
    const double all = exposed(steps).value;
    double share = 1;  // of the exposures' own times
    for (std::size_t i = 0; i < steps.local.size(); ++i) {
        const LocalStep& work = steps.local[i];
        if (work.kind == LocalWork::Kind::bleach) {
            here.finishing.bleach_dose += levels[i] * work.dose;
            continue;
        }
        const Seconds time = local_time(steps, work, levels[i]);
        if (work.filter)
            here.exposures.push_back({*work.filter, time});
        else
            share += (work.kind == LocalWork::Kind::burn ? time.value : -time.value) / all;
    }
    share = std::max(share, 0.0);
    for (std::size_t i = 0; i < steps.exposures.size(); ++i)
        here.exposures[i].time = share * steps.exposures[i].time;
    return here;
}

}  // namespace fogproof::print
