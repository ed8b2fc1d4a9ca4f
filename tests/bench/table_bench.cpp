// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a print costs before its first pixel, and what each pixel costs then. Build with -DFOGPROOF_BENCH=ON;
// never a test.
#include <benchmark/benchmark.h>

#include <cmath>
#include <random>

#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "negative/density_scale.hpp"
#include "picture/profile.hpp"
#include "pixels/counter.hpp"
#include "pixels/packed_table.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"
#include "table/print_table.hpp"

namespace fogproof::tests {
namespace {

namespace {

// A linear 16-bit scan.
std::vector<NegativeDensity> scan_scale() {
    return negative_densities(light_of_codes(Encoding::linear, 65536), {});
}

PrintModel model_of(const Pack& pack, const PaperModel& paper, double seconds) {
    PrintSteps steps;
    steps.exposures = {{filter_for(pack, paper, 3), Seconds{seconds}}};
    steps.develop = develop_step(pack, {});
    steps.finishing.bleach_dose = 0.25;
    return {paper, pack.darkroom.enlarger, steps, 0.15};
}

void table_of_one_recipe(benchmark::State& state) {
    const Pack pack = examples::fogged_pack(0.35);
    const PaperModel paper = paper_model(pack);
    const auto scale = scan_scale();
    const PrintModel model = model_of(pack, paper, 12);
    for (auto _ : state) benchmark::DoNotOptimize(PrintTable(model, scale));
}

void tables_of_60_cells(benchmark::State& state) {
    const Pack pack = examples::fogged_pack(0.35);
    const PaperModel paper = paper_model(pack);
    std::vector<NegativeDensity> scale;
    for (int level = 0; level < 20000; ++level) scale.push_back({0.1 + 1e-4 * level});
    std::vector<PrintModel> models;
    for (int cell = 0; cell < 60; ++cell) models.push_back(model_of(pack, paper, 5 + cell));
    for (auto _ : state)
        for (const PrintModel& model : models) benchmark::DoNotOptimize(PrintTable(model, scale));
}

void colours_of_a_table(benchmark::State& state) {
    const Pack pack = examples::fogged_pack(0.35);
    const PaperModel paper = paper_model(pack);
    const PrintTable table(model_of(pack, paper, 12), scan_scale());
    const auto profile = OutputProfile::named("srgb");
    for (auto _ : state)
        if (state.range(0) == 16)
            benchmark::DoNotOptimize(profile.encode(table.lab(), Rendering::absolute, {}));
        else
            benchmark::DoNotOptimize(profile.encode_8bit(table.lab(), Rendering::absolute, {}));
}

std::vector<std::uint16_t> noisy_codes() {
    std::mt19937 random(1);
    std::normal_distribution<double> grain(0, 400);
    std::vector<std::uint16_t> codes(1 << 20);
    for (std::size_t i = 0; i < codes.size(); ++i)
        codes[i] = std::uint16_t(30000 + 12000 * std::sin(double(i) * 1e-5) + grain(random));
    return codes;
}

void count_a_megapixel(benchmark::State& state) {
    const auto codes = noisy_codes();
    Counter<std::uint16_t> counter(65536);
    for (auto _ : state) counter.count(codes.data(), codes.size(), 0);
    state.SetItemsProcessed(state.iterations() * std::int64_t(codes.size()));
}

void look_up_a_megapixel(benchmark::State& state) {
    const PackedTable table(std::vector<std::uint16_t>(65536 * 3, 7), 3);
    const auto codes = noisy_codes();
    std::vector<std::byte> pixels(codes.size() * 6 + PackedTable::kSlack);
    for (auto _ : state) {
        table.map(codes.data(), codes.size(), 0, pixels.data());
        benchmark::ClobberMemory();
    }
    state.SetItemsProcessed(state.iterations() * std::int64_t(codes.size()));
}

}  // namespace

BENCHMARK(table_of_one_recipe)->Unit(benchmark::kMillisecond);
BENCHMARK(tables_of_60_cells)->Unit(benchmark::kMillisecond);
BENCHMARK(colours_of_a_table)->Arg(16)->Arg(8)->Unit(benchmark::kMillisecond);
BENCHMARK(count_a_megapixel)->Unit(benchmark::kMillisecond);
BENCHMARK(look_up_a_megapixel)->Unit(benchmark::kMillisecond);

BENCHMARK_MAIN();

}  // namespace
}  // namespace fogproof::tests
