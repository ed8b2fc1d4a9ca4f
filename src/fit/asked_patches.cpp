// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/asked_patches.hpp"

#include <array>
#include <cmath>
#include <map>

#include "fit/unknown_light.hpp"

namespace fogproof::fit {

AskedPatches::AskedPatches(const Pack& nominal, std::span<const Reading> readings)
    : callier(nominal.darkroom.enlarger.callier) {
    for (const auto& reading : readings) {
        patches.push_back(treated(reading, nominal));
        read.push_back(reading.density);
    }
    unknown_light = unknown_exposures(readings, patches);
    light_of.assign(readings.size(), unknown_light.size());
    for (std::size_t group = 0; group < unknown_light.size(); ++group)
        for (const std::size_t i : unknown_light[group]) light_of[i] = group;
    std::map<std::array<double, 7>, std::size_t> first;
    std::map<std::pair<std::array<double, 7>, std::array<double, 3>>, std::size_t> first_same;
    for (std::size_t i = 0; i < patches.size(); ++i) {
        const TreatedPatch& p = patches[i];
        const std::array key{p.wedge_density,   p.by_callier, p.exposure_s,       p.filter.value_or(kNoGrade),
                             p.restrainer_ml_l, p.develop_s,  double(light_of[i])};
        const auto [at, is_new] = first.emplace(key, i);
        alike.push_back(at->second);
        different += is_new;
        const std::array after{p.bleach_s, p.bleach_parts, p.redevelop_s};
        same.push_back(first_same.emplace(std::pair{key, after}, i).first->second);
        passed.push_back(std::pow(10.0, -p.wedge_density));
        developments.add({p.restrainer_ml_l, p.develop_s});
        baths.add({p.bleach_s, p.bleach_parts});
        grades.add(is_lit(i) && p.filter ? *p.filter : kNoGrade);
    }
}

}  // namespace fogproof::fit
