// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a step wedge prints like on a pack: one line a step, with and without the bleach that clears the
// blank.
#include <cmath>
#include <cstdio>
#include <exception>

#include "fogproof/pack/file.hpp"
#include "fogproof/print/working_curve.hpp"

using namespace fogproof::print;  // and of the rooms before it

int main(int count, char** words) try {
    if (count != 2) return std::fputs("step_densities PACK.toml\n", stderr), 64;
    const Pack pack = read_pack(words[1]);
    Recipe plain;
    plain.exposures = {{2.0, Stops{0}}};
    Recipe cleared = plain;
    cleared.bleach = ClearingPercent{100};
    const WorkingCurve before = working_curve(pack, plain), after = working_curve(pack, cleared);
    std::puts("seconds  density  bleached");
    for (std::size_t i = 0; i < kCurvePoints; i += 6)
        std::printf("%7.3g  %7.2f  %8.2f\n", std::pow(10.0, before.log_seconds[i]), before.density[i].value,
                    after.density[i].value);
    return 0;
} catch (const std::exception& fault) {
    std::fprintf(stderr, "%s\n", fault.what());
    return 65;
}
