// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/coarse_place.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>

namespace fogproof::registration {
namespace {

// The next best must be so much less alike (distance over distance). Lowe takes 0.8; wrong matches are found
// out here by those that agree, so that more may be let in. Judgement.
constexpr float kStandsOut = 0.92f;
// Matches that a place is looked for among.
constexpr std::size_t kTried = 250;
// Those that must agree where another piece of the print tells size and turn, and how nearly: natural
// logarithm, radians.
constexpr std::size_t kFewestHinted = 4;
constexpr double kHintedGrowth = 0.03, kHintedTurn = 0.18;
// The part of that which a fitted place leaves.
constexpr double kNearer = 0.5;
// Scans are put on the glass by hand: within so much of a right angle. Degrees.
constexpr double kMostAskew = 9;
constexpr double kAlikeGrowth = 1.6, kAlikeTurn = 0.35;

// x = a u - b v + tx, y = b u + a v + ty
struct Similarity {
    double a, b, tx, ty;
    // Asked for some million pairs, for which std::hypot is too slow.
    [[nodiscard]] double growth() const { return std::sqrt(a * a + b * b); }
    [[nodiscard]] double turn() const { return std::atan2(b, a); }
    [[nodiscard]] double distance(const Match& m) const {
        const double right = a * m.frame.u - b * m.frame.v + tx - m.scan.x,
                     down = b * m.frame.u + a * m.frame.v + ty - m.scan.y;
        return std::sqrt((right * right + down * down) / (a * a + b * b));
    }
};

double turned_by(double angle) {
    return std::remainder(angle, 2 * std::numbers::pi);
}

std::optional<Similarity> through(const Match& one, const Match& other) {
    const double u = other.frame.u - one.frame.u, v = other.frame.v - one.frame.v;
    const double x = other.scan.x - one.scan.x, y = other.scan.y - one.scan.y;
    const double squared = u * u + v * v;
    if (squared < 0.01) return std::nullopt;
    Similarity s{(x * u + y * v) / squared, (y * u - x * v) / squared, 0, 0};
    s.tx = one.scan.x - s.a * one.frame.u + s.b * one.frame.v;
    s.ty = one.scan.y - s.b * one.frame.u - s.a * one.frame.v;
    const double askew = std::remainder(s.turn(), std::numbers::pi / 2) * 180 / std::numbers::pi;
    if (std::abs(askew) > kMostAskew) return std::nullopt;
    for (const Match* m : {&one, &other}) {
        const double growth = s.growth() / m->growth;
        if (growth > kAlikeGrowth || growth < 1 / kAlikeGrowth) return std::nullopt;
        if (std::abs(turned_by(s.turn() - m->turn)) > kAlikeTurn) return std::nullopt;
    }
    return s;
}

// Each place of the frame and of the scan counts once: a keypoint with two directions is no second witness.
std::vector<Match> agreeing(std::span<const Match> all, const auto& distance, double near) {
    std::vector<Match> found;
    for (const Match& match : all) {
        if (distance(match) > near) continue;
        const bool is_new = std::ranges::none_of(found, [&](const Match& before) {
            return std::hypot(before.frame.u - match.frame.u, before.frame.v - match.frame.v) < 0.004;
        });
        if (is_new) found.push_back(match);
    }
    return found;
}

// The affine map of least squares, as a warp.
std::optional<FrameWarp> affine(const std::vector<Match>& matches) {
    if (matches.size() < 4) return std::nullopt;
    Eigen::Matrix3d squares = Eigen::Matrix3d::Zero();
    Eigen::Matrix<double, 3, 2> towards = Eigen::Matrix<double, 3, 2>::Zero();
    for (const Match& match : matches) {
        const Eigen::Vector3d place(match.frame.u, match.frame.v, 1);
        squares += place * place.transpose();
        towards += place * Eigen::RowVector2d(match.scan.x, match.scan.y);
    }
    const Eigen::Matrix<double, 3, 2> map = squares.inverse() * towards;
    if (!map.allFinite()) return std::nullopt;
    return FrameWarp{{map(0, 0), map(1, 0), map(2, 0), map(0, 1), map(1, 1), map(2, 1), 0, 0, 0}};
}

// An affine map that is still nearly a similarity.
bool is_plausible(const FrameWarp& warp, const Similarity& s, double bend) {
    const auto& n = warp.numbers;
    return std::hypot(n[0] - s.a, n[3] - s.b) < bend * s.growth() &&
           std::hypot(n[1] + s.b, n[4] - s.a) < bend * s.growth();
}

std::optional<CoarsePlace> refined(const Similarity& s, std::span<const Match> all,
                                   const CoarseSearch& search) {
    CoarsePlace place{{},
                      agreeing(
                          all, [&](const Match& m) { return s.distance(m); }, search.near)};
    for (int round = 0; round < 3; ++round) {
        const auto warp = affine(place.agreeing);
        if (!warp || !is_plausible(*warp, s, search.bend)) return std::nullopt;
        place.warp = *warp;
        const auto distance = [&](const Match& m) {
            const auto [x, y] = place.warp.at(m.frame);
            return std::hypot(x - m.scan.x, y - m.scan.y) / s.growth();
        };
        place.agreeing = agreeing(all, distance, kNearer * search.near);
    }
    return place;
}

}  // namespace

std::vector<Match> matches(std::span<const Keypoint> negative, int width, int height,
                           std::span<const Keypoint> scan) {
    using Looks = Eigen::Matrix<float, Eigen::Dynamic, 128, Eigen::RowMajor>;
    const auto looks = [](std::span<const Keypoint> points) {
        Looks all(Eigen::Index(points.size()), 128);
        for (std::size_t i = 0; i < points.size(); ++i)
            all.row(Eigen::Index(i)) = Eigen::Map<const Eigen::RowVectorXf>(points[i].look.data(), 128);
        return all;
    };
    if (negative.empty() || scan.empty()) return {};
    const Eigen::MatrixXf alike = looks(negative) * looks(scan).transpose();
    const double half = half_diagonal(width, height);
    std::vector<Match> found;
    for (Eigen::Index j = 0; j < alike.cols(); ++j) {
        Eigen::Index best = 0;
        const float most = alike.col(j).maxCoeff(&best);
        const Keypoint& there = negative[std::size_t(best)];
        float next = -1;
        for (Eigen::Index i = 0; i < alike.rows(); ++i) {
            const Keypoint& other = negative[std::size_t(i)];
            if (alike(i, j) > next && std::hypot(other.x - there.x, other.y - there.y) > 2 * there.size)
                next = alike(i, j);
        }
        const float distance = std::sqrt(std::max(0.0f, 2 - 2 * most)),
                    next_distance = std::sqrt(std::max(0.0f, 2 - 2 * next));
        if (distance > kStandsOut * next_distance) continue;
        const Keypoint& here = scan[std::size_t(j)];
        found.push_back({{(there.x - width / 2.0) / half, (there.y - height / 2.0) / half},
                         {here.x, here.y},
                         here.angle - there.angle,
                         here.size / there.size * half,
                         double(distance / std::max(next_distance, 1e-6f))});
    }
    std::ranges::stable_sort(found, {}, &Match::ambiguity);
    return found;
}

CoarseHint CoarseHint::of(const FrameWarp& warp) {
    const ScanPlace middle = warp.at({0, 0}), right = warp.at({0.1, 0});
    const double x = right.x - middle.x, y = right.y - middle.y;
    return {std::hypot(x, y) / 0.1, std::atan2(y, x)};
}

std::vector<CoarsePlace> coarse_places(std::span<const Match> all, const CoarseSearch& search) {
    const auto& hint = search.hint;
    const std::size_t most = search.most;
    const std::size_t fewest = hint ? kFewestHinted : search.fewest;
    const auto is_as_hinted = [&](const Similarity& s) {
        return !hint || (std::abs(std::log(s.growth() / hint->growth)) < kHintedGrowth &&
                         std::abs(turned_by(s.turn() - hint->turn)) < kHintedTurn);
    };
    struct Guess {
        Similarity similarity;
        std::size_t count;
    };
    const auto tried = all.first(std::min(all.size(), hint ? 2 * kTried : kTried));
    std::vector<Guess> guesses;
    for (std::size_t i = 0; i < tried.size(); ++i)
        for (std::size_t j = i + 1; j < tried.size(); ++j)
            if (const auto s = through(tried[i], tried[j]); s && is_as_hinted(*s)) {
                const auto count = std::ranges::count_if(
                    tried, [&](const Match& m) { return s->distance(m) < search.near; });
                if (std::size_t(count) >= fewest / 2) guesses.push_back({*s, std::size_t(count)});
            }
    std::ranges::stable_sort(guesses, std::ranges::greater{}, &Guess::count);
    std::vector<CoarsePlace> places;
    std::vector<Similarity> taken;
    for (const Guess& guess : guesses) {
        if (places.size() == most) break;
        const auto is_same = [&](const Similarity& s) {
            return std::hypot(s.tx - guess.similarity.tx, s.ty - guess.similarity.ty) < 0.1 * s.growth();
        };
        if (std::ranges::any_of(taken, is_same)) continue;
        taken.push_back(guess.similarity);
        if (taken.size() > 8 * most) break;
        if (auto place = refined(guess.similarity, all, search); place && place->agreeing.size() >= fewest)
            places.push_back(std::move(*place));
    }
    std::ranges::stable_sort(places, std::ranges::greater{},
                             [](const CoarsePlace& p) { return p.agreeing.size(); });
    return places;
}

}  // namespace fogproof::registration
