// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What many papers come to: medians, shares, how often told intervals hold.
#pragma once

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <string>
#include <vector>

#include "fogproof/print/working_curve.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests::sheets {

class Tally {
  public:
    /// L* by which a sheet misses what is wanted, over the closest print.
    void over(const std::string& name, double miss) { over_[name].push_back(miss); }
    void add(const std::string& name, double value) { values_[name].push_back(value); }
    /// An interval of 95 %, and what came out.
    void told(const std::string& name, double truth, const Interval& interval) {
        Told& told = told_[name];
        told.inside += truth >= interval.low && truth <= interval.high;
        told.ratios.push_back(interval.value / truth);
        if (std::getenv("VERBOSE"))
            std::printf("   %s: told %.3f, %.3f to %.3f; came out %.3f\n", name.c_str(), interval.value,
                        interval.low, interval.high, truth);
    }
    void print() const {
        for (const auto& [name, values] : values_)
            std::printf("%-42s median %.2f\n", name.c_str(), median(values));
        for (const auto& [name, misses] : over_)
            std::printf("%-42s over the closest: median %.2f, within 2 in %.0f %%, mean %.2f, of %zu\n",
                        name.c_str(), median(misses), 100 * share_within(misses, 2), mean(misses),
                        misses.size());
        for (const auto& [name, told] : told_)
            std::printf("%-42s told over came out: median %.2f; inside 95 %%: %.0f %%\n", name.c_str(),
                        median(told.ratios), 100.0 * told.inside / double(told.ratios.size()));
    }

  private:
    struct Told {
        int inside = 0;
        std::vector<double> ratios;
    };
    static double median(std::vector<double> values) {
        std::ranges::sort(values);
        return (values[(values.size() - 1) / 2] + values[values.size() / 2]) / 2;
    }
    static double mean(const std::vector<double>& values) {
        double sum = 0;
        for (const double value : values) sum += value / double(values.size());
        return sum;
    }
    static double share_within(const std::vector<double>& values, double most) {
        return double(std::ranges::count_if(values, [most](double value) { return value <= most; })) /
               double(values.size());
    }

    std::map<std::string, std::vector<double>> over_, values_;
    std::map<std::string, Told> told_;
};

}  // namespace fogproof::tests::sheets
