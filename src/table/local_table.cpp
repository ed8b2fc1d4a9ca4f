// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "table/local_table.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>

#include "base/interpolation.hpp"
#include "system/threads.hpp"

namespace fogproof::table {
namespace {

constexpr int kLevelSteps = 1024;  // of a mask; what they bring bends little
constexpr int kTimeSteps = 4096;   // of the power of time
constexpr int kLightSteps = 8192;  // of log2 of the light
constexpr int kShareSteps = 1024;  // of the grains
constexpr int kLightStepsApart = 8;
constexpr std::size_t kMostRatios = 65;
constexpr double kNarrow = 1e-6;  // range of ratios that counts as one ratio
constexpr float kDarkest = 1e-30f;

// Deposits thinner than the starvation of the bleach bend most; finer steps of the dose follow them.
constexpr double kDoseStep = 0.004, kMildStarvation = 0.04, kLeastStarvation = 0.002;
constexpr std::size_t kMostDoses = 513;

// Green light counted so that the ratios of usual filters lie evenly between 0 and 1.
constexpr float kGreenCounts = 4;

// log2 of a positive number from its exponent and the series of its mantissa in [0.75, 1.5), off by less than
// 1e-6 and the rounding of floats. Written so that compilers do several at a time.
float quick_log2(float x) {
    const auto bits = std::bit_cast<std::uint32_t>(x);
    const std::uint32_t shifted = bits - 0x3f400000u;  // of 0.75
    const auto whole = float(std::int32_t(shifted) >> 23);
    const float m = std::bit_cast<float>((shifted & 0x007fffffu) + 0x3f400000u) - 1.0f;
    // ln(1 + m) as 2 atanh(m / (2 + m)), by its series.
    const float s = m / (2.0f + m), s2 = s * s;
    const float series = s * (2.0f + s2 * (2.0f / 3 + s2 * (2.0f / 5 + s2 * (2.0f / 7 + s2 * (2.0f / 9)))));
    return whole + series * 1.44269504f;
}

// In 32-bit integers: processors turn floats into them several at a time.
float between(const float* table, float at, int last) {
    const int whole = int(at), i = whole < last - 1 ? whole : last - 1;
    const float t = at - float(i);
    return table[i] + t * (table[i + 1] - table[i]);
}

// By value: what goes by reference is not done several at a time.
float kept_within(float value, float most) {
    const float above = value > 0 ? value : 0;
    return above < most ? above : most;
}

EaselLight per_transmitted(const Enlarger& enlarger, const std::vector<Exposure>& exposures) {
    constexpr double kAll = 1;  // mean light and clear film let all through
    const EaselLight light = light_at_easel({0}, kAll, enlarger, exposures);
    const double through = transmitted({0}, kAll, enlarger);
    return {light.blue / through, light.green / through};
}

double ratio_of(double blue, double green) {
    const double counted = double(kGreenCounts) * green;
    return counted > 0 ? counted / (blue + counted) : 0;
}

}  // namespace

LocalTable::LocalTable(const PaperModel& paper, const Enlarger& enlarger, const PrintSteps& steps,
                       double mean_transmitted, std::optional<BathLayer> bath)
    : enlarger_(enlarger),
      mean_transmitted_(mean_transmitted),
      all_exposures_(per_transmitted(enlarger, steps.exposures)),
      flashes_(light_at_easel({0}, mean_transmitted, enlarger, {}, steps.flashes)) {
    const TreatedSheet sheet = TreatedSheet(paper, steps.develop, steps.finishing, bath).for_many_patches();
    set_works(steps);
    if (paper.emulsion.fog.edge > 0) set_edge_fog(sheet);
    set_shares(sheet);
    double most_dose = 0;
    for (const Work& work : works_)
        if (work.does == Work::Does::bleaches) most_dose += double(work.by_level.back());
    const double step =
        kDoseStep * std::sqrt(std::max(paper.bleach.starvation, kLeastStarvation) / kMildStarvation);
    if (most_dose > 0) doses_ = std::clamp<std::size_t>(std::size_t(most_dose / step) + 2, 3, kMostDoses);
    set_colours(sheet, most_dose);
}

void LocalTable::set_works(const PrintSteps& steps) {
    const double all = exposed(steps).value;
    for (const LocalStep& step : steps.local) {
        Work work{Work::Does::bleaches, {}, 0, 0};
        if (step.kind != LocalWork::Kind::bleach)
            work.does = step.filter ? Work::Does::adds : Work::Does::lengthens;
        for (int i = 0; i <= kLevelSteps; ++i) {
            const double level = double(i) / double(kLevelSteps);
            const Seconds time = local_time(steps, step, level);
            if (work.does == Work::Does::bleaches)
                work.by_level.push_back(float(level * step.dose));
            else if (work.does == Work::Does::adds)
                work.by_level.push_back(float(per_transmitted(enlarger_, {{Filter{1, 0}, time}}).blue));
            else
                work.by_level.push_back(
                    float((step.kind == LocalWork::Kind::burn ? time.value : -time.value) / all));
        }
        if (step.filter) {
            work.blue = float(step.filter->blue);
            work.green = float(step.filter->green);
        }
        if (work.does == Work::Does::lengthens) longest_ += std::max(0.0, double(work.by_level.back()));
        works_.push_back(std::move(work));
    }
    for (int i = 0; i <= kTimeSteps; ++i)
        power_.push_back(float(std::pow(longest_ * double(i) / double(kTimeSteps), enlarger_.reciprocity)));
}

void LocalTable::set_edge_fog(const TreatedSheet& sheet) {
    Work work{Work::Does::fogs, {}, 0, 0};
    for (int i = 0; i <= kLevelSteps; ++i)
        work.by_level.push_back(float(sheet.more_fog(double(i) / double(kLevelSteps))));
    works_.push_back(std::move(work));
}

LocalTable::Range LocalTable::green_range() const {
    Range range{1, 0};
    const auto take = [&](double blue, double green) {
        if (blue + green <= 0) return;
        range.low = std::min(range.low, ratio_of(blue, green));
        range.high = std::max(range.high, ratio_of(blue, green));
    };
    take(all_exposures_.blue, all_exposures_.green);
    take(flashes_.blue, flashes_.green);
    for (const Work& work : works_)
        if (work.does == Work::Does::adds) take(double(work.blue), double(work.green));
    return range;
}

void LocalTable::set_shares(const TreatedSheet& sheet) {
    green_ = green_range();
    ratios_ = green_.high - green_.low < kNarrow ? 1 : kMostRatios;
    const auto light = [&](double log2, std::size_t ratio) -> EaselLight {
        const double along = ratios_ == 1 ? 0.5 : double(ratio) / double(ratios_ - 1);
        const double green = green_.low + along * (green_.high - green_.low), all = std::exp2(log2);
        return {all * (1 - green), all * green / double(kGreenCounts)};
    };
    // Where the first grain is exposed through the ratio that is best at it, and the last one through the
    // worst.
    constexpr double kNone = 1e-8, kFar = 40;
    const auto first_with = [&](double wanted, std::size_t ratio) {
        double low = -kFar, high = kFar;
        for (int halving = 0; halving < 50; ++halving) {
            const double middle = (low + high) / 2;
            (sheet.exposed_share(light(middle, ratio)) < wanted ? low : high) = middle;
        }
        return low;
    };
    first_light_ = kFar;
    last_light_ = -kFar;
    for (const std::size_t ratio : {std::size_t{0}, ratios_ / 2, ratios_ - 1}) {
        first_light_ = std::min(first_light_, first_with(kNone, ratio));
        last_light_ = std::max(last_light_, first_with(1 - kNone, ratio));
    }
    share_.resize(ratios_ * std::size_t(kLightSteps + 1));
    // Asked at some, and between them by a cubic.
    in_parallel(ratios_, [&](std::size_t ratio) {
        std::vector<double> along, asked;
        for (int i = 0; i <= kLightSteps; i += kLightStepsApart) {
            along.push_back(i);
            asked.push_back(sheet.exposed_share(
                light(first_light_ + (last_light_ - first_light_) * i / kLightSteps, ratio)));
        }
        const MonotoneCurve curve(along, std::move(asked));
        float* const to = share_.data() + ratio * std::size_t(kLightSteps + 1);
        for (int i = 0; i <= kLightSteps; ++i) to[i] = float(curve(i, std::size_t(i / kLightStepsApart)));
    });
}

void LocalTable::set_colours(const TreatedSheet& sheet, double most_dose) {
    most_dose_ = most_dose;
    nodes_.resize(doses_ * shares());
    in_parallel(doses_, [&](std::size_t dose) {
        const double more = doses_ == 1 ? 0 : most_dose * double(dose) / double(doses_ - 1);
        for (int i = 0; i <= kShareSteps; ++i)
            nodes_[dose * shares() + std::size_t(i)] =
                sheet.with_share(double(i) / double(kShareSteps), more).lab;
    });
}

float LocalTable::transmitted(NegativeDensity density) const {
    return float(enlarger::transmitted(density, mean_transmitted_, enlarger_));
}

std::vector<float> LocalTable::transmitted(std::span<const NegativeDensity> scale) const {
    std::vector<float> all;
    all.reserve(scale.size());
    for (const NegativeDensity density : scale) all.push_back(transmitted(density));
    return all;
}

std::size_t LocalTable::shares() const {
    return std::size_t(kShareSteps) + 1;
}

void LocalTable::find(std::span<const float> transmitted, std::span<const float* const> levels,
                      const Spots& spots) const {
    for (std::size_t from = 0; from < transmitted.size(); from += kAtOnce) {
        const int count = int(std::min(kAtOnce, transmitted.size() - from));
        Lit lit;
        light_up(transmitted.data() + from, levels, from, count, lit);
        float* const share = spots.share.data() + from;
        grains(lit, count, share);
        const float per_dose = most_dose_ > 0 ? float(double(doses_ - 1) / most_dose_) : 0;
        const auto last = float(doses_ - 1);
        float* const dose = spots.dose.data() + from;
        for (int x = 0; x < count; ++x) dose[x] = kept_within(lit.dose[x] * per_dose, last);
    }
}

void LocalTable::light_up(const float* transmitted, std::span<const float* const> levels, std::size_t from,
                          int count, Lit& lit) const {
    std::array<float, kAtOnce> time, blue, green;
    time.fill(1);
    blue.fill(0);
    green.fill(0);
    lit.dose.fill(0);
    lit.fog.fill(0);
    const auto steps = float(kLevelSteps);
    bool has_others = false;
    for (std::size_t i = 0; i < works_.size(); ++i) {
        const Work& work = works_[i];
        if (levels[i] == nullptr) continue;
        const float* const level = levels[i] + from;
        const float* const table = work.by_level.data();
        switch (work.does) {
            case Work::Does::lengthens:
                for (int x = 0; x < count; ++x) time[x] += between(table, level[x] * steps, kLevelSteps);
                break;
            case Work::Does::adds:
                has_others = true;
                for (int x = 0; x < count; ++x) {
                    const float light = between(table, level[x] * steps, kLevelSteps);
                    blue[x] += light * work.blue;
                    green[x] += light * work.green;
                }
                break;
            case Work::Does::bleaches:
                for (int x = 0; x < count; ++x) lit.dose[x] += level[x] * table[kLevelSteps];
                break;
            case Work::Does::fogs:
                for (int x = 0; x < count; ++x) lit.fog[x] = between(table, level[x] * steps, kLevelSteps);
        }
    }
    for (int x = 0; x < count; ++x) time[x] = time[x] > 0 ? time[x] : 0;
    if (enlarger_.reciprocity != 1) {
        const float per_time = float(kTimeSteps) / float(longest_);
        for (int x = 0; x < count; ++x) time[x] = between(power_.data(), time[x] * per_time, kTimeSteps);
    }
    const auto all_blue = float(all_exposures_.blue), all_green = kGreenCounts * float(all_exposures_.green);
    const auto flash_blue = float(flashes_.blue), flash_green = kGreenCounts * float(flashes_.green);
    if (ratios_ == 1 && !has_others) {
        const float all = all_blue + all_green, flash = flash_blue + flash_green + kDarkest;
        for (int x = 0; x < count; ++x) lit.log_light[x] = quick_log2(transmitted[x] * all * time[x] + flash);
        return;
    }
    for (int x = 0; x < count; ++x) {
        const float through = transmitted[x];
        const float b = through * (all_blue * time[x] + blue[x]) + flash_blue;
        const float g = through * (all_green * time[x] + kGreenCounts * green[x]) + flash_green;
        const float all = b + g + kDarkest;
        lit.log_light[x] = quick_log2(all);
        lit.ratio[x] = g / all;
    }
}

void LocalTable::grains(const Lit& lit, int count, float* share) const {
    const auto light_steps = float(kLightSteps), first = float(first_light_);
    const float per_light = light_steps / float(last_light_ - first_light_);
    std::array<float, kAtOnce> along;
    for (int x = 0; x < count; ++x)
        along[x] = kept_within((lit.log_light[x] - first) * per_light, light_steps);
    if (ratios_ == 1) {
        for (int x = 0; x < count; ++x) share[x] = between(share_.data(), along[x], kLightSteps);
    } else {
        const auto last = float(ratios_ - 1), lowest = float(green_.low);
        const float per_ratio = last / float(green_.high - green_.low);
        for (int x = 0; x < count; ++x) {
            const float across = kept_within((lit.ratio[x] - lowest) * per_ratio, last);
            const int row = std::min(int(across), int(ratios_) - 2);
            const float* const table = share_.data() + std::ptrdiff_t(row) * (kLightSteps + 1);
            const float low = between(table, along[x], kLightSteps);
            const float high = between(table + kLightSteps + 1, along[x], kLightSteps);
            share[x] = low + (across - float(row)) * (high - low);
        }
    }
    // Fogged grains are any of them, those that light has reached as well as others.
    for (int x = 0; x < count; ++x) share[x] += lit.fog[x] * (1 - share[x]);
    for (int x = 0; x < count; ++x) share[x] *= float(kShareSteps);
}

Lab LocalTable::colour(double share, double dose) const {
    const auto i = std::min(std::size_t(share), shares() - 2);
    const auto j = doses_ == 1 ? 0 : std::min(std::size_t(dose), doses_ - 2);
    const double t = share - double(i), u = dose - double(j);
    const auto along = [&](std::size_t row) -> Lab {
        const Lab& a = nodes_[row * shares() + i];
        const Lab& b = nodes_[row * shares() + i + 1];
        return {a.l + t * (b.l - a.l), a.a + t * (b.a - a.a), a.b + t * (b.b - a.b)};
    };
    const Lab low = along(j);
    if (doses_ == 1) return low;
    const Lab high = along(j + 1);
    return {low.l + u * (high.l - low.l), low.a + u * (high.a - low.a), low.b + u * (high.b - low.b)};
}

}  // namespace fogproof::table
