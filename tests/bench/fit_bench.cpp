// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How long a fit of 200 readings takes. Build with -DFOGPROOF_BENCH=ON; never a test.
#include <benchmark/benchmark.h>

#include "fogproof/calibrate/fit.hpp"
#include "fogproof/pack/from_slips.hpp"
#include "support/own_strips.hpp"

using namespace fogproof;

static void fit_of_200_readings(benchmark::State& state) {
    Slips slips;
    slips.white_density = 0.08;
    slips.blank_density = 0.40;
    Pack pack = pack_from_slips(slips);
    pack.anchored = true;
    std::vector<own::Strip> strips;
    for (const double restrainer : {0.0, 10.0})
        for (const double filter : {2.0, 4.0})
            for (const double bleach_s : {0.0, 40.0})
                strips.push_back(
                    {"s" + std::to_string(strips.size()), 25, 30, filter, restrainer, 90, bleach_s});
    const auto readings = own::read(pack, own::patches_of(strips, pack.contrast), 0.01, 1);
    for (auto _ : state) benchmark::DoNotOptimize(fitted_pack(pack, readings, "benchmark"));
    state.counters["readings"] = double(readings.size());
}
BENCHMARK(fit_of_200_readings)->Unit(benchmark::kMillisecond);

BENCHMARK_MAIN();
