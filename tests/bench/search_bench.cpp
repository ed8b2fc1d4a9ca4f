// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Recipes a second of the search, and all that `start` adds to reading a scan. Build with
// -DFOGPROOF_BENCH=ON; never a test.
#include <benchmark/benchmark.h>

#include "choose/starting_point.hpp"
#include "choose/wanted.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

static void best_recipe(benchmark::State& state) {
    const Printing printing(examples::fogged_pack(0.35), examples::ordinary_frame());
    const Wanted wanted = as_fresh(printing);
    const SearchBounds bounds = usual_bounds(printing);
    std::size_t tried = 0;
    for (auto _ : state) {
        const RecipeSearch search(printing, wanted);
        benchmark::DoNotOptimize(search.best(bounds));
        tried += search.tried();
    }
    state.counters["recipes"] = benchmark::Counter(double(tried), benchmark::Counter::kIsRate);
}
BENCHMARK(best_recipe)->Unit(benchmark::kMillisecond);

static void starting_points_with_intervals(benchmark::State& state) {
    const Pack pack = examples::fogged_pack(0.35);
    for (auto _ : state) {
        const Printing printing(pack, examples::ordinary_frame());
        benchmark::DoNotOptimize(starting_points(printing, as_fresh(printing), usual_bounds(printing)));
    }
}
BENCHMARK(starting_points_with_intervals)->Unit(benchmark::kMillisecond);

BENCHMARK_MAIN();

}  // namespace
}  // namespace fogproof::tests
