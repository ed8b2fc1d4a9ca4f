// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/draws.hpp"

#include <algorithm>
#include <boost/math/special_functions/erf.hpp>
#include <cmath>
#include <numbers>
#include <numeric>
#include <optional>
#include <string>

#include "fogproof/base/error.hpp"
#include "pack/doubtful_numbers.hpp"
#include "pack/uncertainty.hpp"
#include "pack/without_fit.hpp"

namespace fogproof::pack {
namespace {

// Tries before a draw is taken nearer to the pack; and how much nearer each time.
constexpr int kTries = 40;
constexpr double kNearer = 0.7;

// Counter-based: one well mixed word for each counter (the finaliser of Steele, Lea and Flood 2014,
// "Fast splittable pseudorandom number generators").
std::uint64_t mixed(std::uint64_t counter) {
    std::uint64_t z = counter + 0x9e3779b97f4a7c15u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
}

// By the name of what is doubtful, so that one number more leaves the draws of all others alone. FNV-1a.
std::uint64_t stream_of(const std::string& name, std::uint64_t set) {
    std::uint64_t hash = 0xcbf29ce484222325u;
    for (const char letter : name) hash = (hash ^ std::uint64_t(std::uint8_t(letter))) * 0x100000001b3u;
    return mixed(hash ^ mixed(set));
}

// Between 0 and 1, neither included.
double share_of(std::uint64_t word) {
    return (double(word >> 11) + 0.5) / double(std::uint64_t(1) << 53);
}

double normal_quantile(double share) {
    using Plain = boost::math::policies::policy<boost::math::policies::promote_double<false>>;
    return -std::numbers::sqrt2 * boost::math::erfc_inv(2 * share, Plain());
}

// 0 to count - 1 in an order of its own for each stream.
std::vector<std::size_t> shuffled(std::size_t count, std::uint64_t stream) {
    std::vector<std::size_t> order(count);
    std::iota(order.begin(), order.end(), 0);
    for (std::size_t i = count; i > 1; --i) std::swap(order[i - 1], order[mixed(stream + i) % i]);
    return order;
}

double middle_of(std::size_t stratum, std::size_t count) {
    return (double(stratum) + 0.5) / double(count);
}

// One score a draw: the middles of strata of equal probability, scaled to a mean square of exactly 1.
std::vector<double> normal_scores(std::size_t count, std::uint64_t stream) {
    std::vector<double> scores;
    double square = 0;
    for (const std::size_t stratum : shuffled(count, stream)) {
        scores.push_back(normal_quantile(middle_of(stratum, count)));
        square += scores.back() * scores.back() / double(count);
    }
    if (square > 0)
        for (double& score : scores) score /= std::sqrt(square);
    return scores;
}

// Lower triangle L with L L' = the correlations, row by row. Numbers that follow from others altogether get
// nothing of their own.
std::vector<std::vector<double>> root_of_correlations(const std::vector<DoubtfulNumber>& numbers,
                                                      const FitRecord& fit) {
    constexpr double kNothingLeft = 1e-9;
    std::vector<std::vector<double>> root(numbers.size());
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        root[i].assign(i + 1, 0);
        for (std::size_t j = 0; j <= i; ++j) {
            double left = correlation(fit, numbers[i].name, numbers[j].name);
            for (std::size_t k = 0; k < j; ++k) left -= root[i][k] * root[j][k];
            if (i == j)
                root[i][i] = left > kNothingLeft ? std::sqrt(left) : 0;
            else if (root[j][j] > 0)
                root[i][j] = left / root[j][j];
        }
    }
    return root;
}

class Drawing {
  public:
    explicit Drawing(const Pack& pack)
        : pack_(pack), numbers_(doubtful_numbers(pack)), root_(root_of_correlations(numbers_, pack.fit)) {
        pack_ = without_fit(std::move(pack_));
    }

    [[nodiscard]] const Pack& pack() const { return pack_; }
    [[nodiscard]] const std::vector<DoubtfulNumber>& numbers() const { return numbers_; }

    /// Nothing where the pack contradicts itself.
    [[nodiscard]] std::optional<Pack> moved(const std::vector<double>& scores) const {
        Pack other = pack_;
        for (std::size_t i = 0; i < numbers_.size(); ++i)
            numbers_[i].move(other,
                             std::inner_product(root_[i].begin(), root_[i].end(), scores.begin(), 0.0));
        try {
            static_cast<void>(paper_model(other));
        } catch (const Error&) {
            return std::nullopt;
        }
        return other;
    }

  private:
    Pack pack_;
    std::vector<DoubtfulNumber> numbers_;
    std::vector<std::vector<double>> root_;
};

}  // namespace

std::vector<PackDraw> draws_of(const Pack& pack, std::size_t count, std::uint64_t set) {
    const Drawing drawing(pack);
    std::vector<std::uint64_t> streams;
    std::vector<std::vector<double>> scores;
    for (const auto& number : drawing.numbers()) {
        streams.push_back(stream_of(number.name, set));
        scores.push_back(normal_scores(count, streams.back()));
    }
    const auto sheets = normal_scores(count, stream_of("a print's own sheet", set));
    const auto lights = normal_scores(count, stream_of("the light of a print's own sheet", set));
    const auto unread = normal_scores(count, stream_of("a way of developing nobody read", set));
    const auto todays = normal_scores(count, stream_of("the light of today", set));
    const auto betweens = shuffled(count, stream_of("between two bands", set));

    std::vector<PackDraw> draws;
    for (std::size_t d = 0; d < count; ++d) {
        std::vector<double> own;
        for (const auto& of_number : scores) own.push_back(of_number[d]);
        auto drawn = drawing.moved(own);
        for (int attempt = 0; attempt < kTries && !drawn; ++attempt) {
            const std::uint64_t counter = (std::uint64_t(d) << 32) + std::uint64_t(attempt) + (1u << 20);
            for (std::size_t i = 0; i < own.size(); ++i)
                own[i] = normal_quantile(share_of(mixed(streams[i] + counter)));
            drawn = drawing.moved(own);
        }
        for (int step = 0; step < kTries && !drawn; ++step) {
            for (double& score : own) score *= kNearer;
            drawn = drawing.moved(own);
        }
        draws.push_back({drawn ? *std::move(drawn) : drawing.pack(), sheets[d], unread[d],
                         middle_of(betweens[d], count) - 0.5, todays[d], lights[d]});
    }
    return draws;
}

}  // namespace fogproof::pack
