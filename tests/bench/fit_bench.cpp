// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How long a fit of 200 readings takes, and of many. Build with -DFOGPROOF_BENCH=ON; never a test.
#include <benchmark/benchmark.h>

#include "fogproof/fit/pack_fit.hpp"
#include "pack/from_slips.hpp"
#include "support/own_strips.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

static void fit_of_200_readings(benchmark::State& state) {
    Slips slips;
    slips.white_density = 0.08;
    slips.blank_density = 0.40;
    Pack pack = pack_from_slips(slips);
    pack.darkroom.anchored = true;
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

// Wedges on sheets of their own, in turn through filters, doses and bleach times.
static void fit_of_many_readings(benchmark::State& state) {
    constexpr int kSteps = 21;
    const Pack truth = own::old_paper(Contrast::variable);
    std::vector<own::Strip> strips = own::slips();
    for (std::size_t i = 0; strips.size() < 6 + std::size_t(state.range(0) - 6) / kSteps; ++i)
        strips.push_back({"s" + std::to_string(i), kSteps, 40 + double(i), double(1 + i % 4),
                          double(i / 4 % 2 * 20), 90, double(i / 8 % 2 * 40)});
    const auto patches = own::patches_of(strips, truth.contrast);
    const auto readings = own::on_own_sheets(own::read(truth, patches, 0.01, 1), 0.012, 2);
    Pack before;
    before.contrast = Contrast::variable;
    for (auto _ : state) benchmark::DoNotOptimize(fitted_pack(before, readings, "benchmark"));
    state.counters["readings"] = double(readings.size());
}
BENCHMARK(fit_of_many_readings)
    ->Arg(2000)
    ->Arg(5000)
    ->Arg(20000)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();

BENCHMARK_MAIN();

}  // namespace
}  // namespace fogproof::tests
