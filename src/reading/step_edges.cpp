// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/step_edges.hpp"

#include <cmath>
#include <numbers>
#include <numeric>
#include <optional>

#include "base/quantile.hpp"
#include "reading/light_density.hpp"

namespace fogproof::reading {
namespace {

// Judgement, in density: smaller edges are taken for texture of the paper.
constexpr double kSmallestEdge = 0.012;

std::optional<double> light_at(const ReflectionImage& image, std::pair<double, double> point) {
    const double x = point.first - 0.5, y = point.second - 0.5;
    const int left = int(std::floor(x)), top = int(std::floor(y));
    if (left < 0 || top < 0 || left + 1 >= image.width || top + 1 >= image.height) return std::nullopt;
    const double across = x - left, down = y - top;
    return (1 - down) * ((1 - across) * image.light_at(left, top) + across * image.light_at(left + 1, top)) +
           down * ((1 - across) * image.light_at(left, top + 1) + across * image.light_at(left + 1, top + 1));
}

double mean_of(std::span<const double> values) {
    return std::accumulate(values.begin(), values.end(), 0.0) / double(values.size());
}

// The noise of a profile, from one slice to the next: edges touch too few of them to count in a median.
double noise_of(const std::vector<double>& density) {
    std::vector<double> apart;
    for (std::size_t i = 1; i < density.size(); ++i) apart.push_back(std::abs(density[i] - density[i - 1]));
    if (apart.empty()) return 0;
    return kMadToSigma * median(std::move(apart)) / std::numbers::sqrt2;
}

// Plain means on a thinned set of lines: quick enough to try many angles.
double sharpness(const ReflectionImage& image, const StripPlace& place) {
    constexpr int lines = 24, reach = 3;
    std::vector<double> slices;
    for (double u = 0.05 * place.length; u < 0.95 * place.length; u += 1) {
        double sum = 0;
        int count = 0;
        for (int line = 0; line < lines; ++line)
            if (const auto light =
                    light_at(image, place.at(u, place.width * (0.2 + 0.6 * line / (lines - 1.0)))))
                sum += density_of_light(*light), ++count;
        if (count > 0) slices.push_back(sum / count);
    }
    double squares = 0;
    for (std::size_t i = reach; i < slices.size(); ++i) squares += std::pow(slices[i] - slices[i - reach], 2);
    return squares;
}

}  // namespace

Profile profile(const ReflectionImage& image, const StripPlace& place, double u0, double u1, double v0,
                double v1) {
    Profile made{u0, {}};
    std::vector<double> slice;
    for (double u = u0; u < u1; u += 1) {
        slice.clear();
        for (double v = v0; v < v1; v += 1)
            if (const auto light = light_at(image, place.at(u + 0.5, v))) slice.push_back(*light);
        if (slice.empty()) {
            made.density.push_back(made.density.empty() ? std::nan("") : made.density.back());
            continue;
        }
        std::ranges::sort(slice);
        const std::size_t spare = slice.size() / 5;
        made.density.push_back(
            density_of_light(mean_of(std::span(slice).subspan(spare, slice.size() - 2 * spare))));
    }
    for (std::size_t i = made.density.size(); i-- > 1;)
        if (std::isnan(made.density[i - 1])) made.density[i - 1] = made.density[i];
    return made;
}

std::vector<Edge> edges(const Profile& along, double reach) {
    const auto half = std::max<std::size_t>(2, std::size_t(std::lround(reach)));
    const std::vector<double>& density = along.density;
    if (density.size() < 4 * half) return {};
    std::vector<double> rise(density.size() + 1);
    for (std::size_t at = half; at + half <= density.size(); ++at)
        rise[at] = mean_of(std::span(density).subspan(at, half)) -
                   mean_of(std::span(density).subspan(at - half, half));
    const double threshold = std::max(kSmallestEdge, 5 * noise_of(density) * std::sqrt(2.0 / double(half)));
    std::vector<Edge> found;
    for (std::size_t at = half; at + half <= density.size(); ++at) {
        const double here = std::abs(rise[at]);
        if (here < threshold) continue;
        bool highest = true;
        for (std::size_t near = at - half; near <= std::min(at + half, density.size()) && highest; ++near)
            highest = std::abs(rise[near]) < here || (std::abs(rise[near]) == here && near >= at);
        if (!highest) continue;
        const double before = std::abs(rise[at - 1]),
                     after = at + 1 < rise.size() ? std::abs(rise[at + 1]) : 0;
        const double bend = before - 2 * here + after, shift = bend < 0 ? 0.5 * (before - after) / bend : 0;
        found.push_back({along.from + double(at) + std::clamp(shift, -0.5, 0.5), rise[at]});
    }
    return found;
}

double change_along(const ReflectionImage& image, const StripPlace& place) {
    return sharpness(image, place);
}

StripPlace straightened(const ReflectionImage& image, const StripPlace& place, double degrees) {
    StripPlace best = place;
    double sharpest = -1;
    for (const auto& [reach, step] : {std::pair{degrees, degrees / 8}, {degrees / 8, degrees / 40}}) {
        const double start = best.angle;
        for (double turn = -reach; turn <= reach * 1.001; turn += step) {
            StripPlace tried = place;
            tried.angle = start + turn * std::numbers::pi / 180;
            if (const double sharp = sharpness(image, tried); sharp > sharpest)
                sharpest = sharp, best = tried;
        }
    }
    return best;
}

std::pair<double, double> width_with_edges(const ReflectionImage& image, const StripPlace& place,
                                           std::span<const Edge> steps, double reach) {
    constexpr int kLanes = 40;
    const double lane = place.width / kLanes;
    std::vector<double> seen;
    for (int i = 0; i < kLanes; ++i) {
        double sum = 0;
        for (const Edge& edge : steps) {
            const auto side = [&](double from) {
                double light = 0;
                int count = 0;
                for (double u = from; u < from + reach; u += 1)
                    for (const double part : {0.2, 0.5, 0.8})
                        if (const auto here = light_at(image, place.at(u, (i + part) * lane)))
                            light += *here, ++count;
                return density_of_light(count > 0 ? light / count : 1);
            };
            sum += (side(edge.u + 1) - side(edge.u - 1 - reach)) * (edge.rise > 0 ? 1 : -1);
        }
        seen.push_back(sum);
    }
    std::vector<double> ordered = seen;
    std::ranges::sort(ordered);
    // A bleached half shows weaker edges than the other one; bare paper shows next to none.
    const double enough = 0.15 * ordered[kLanes * 8 / 10];
    int best_from = 0, best_to = 0;
    for (int from = 0; from < kLanes;) {
        int to = from;
        // One lane spoilt by a scratch does not end the steps.
        while (to < kLanes && (seen[std::size_t(to)] >= enough ||
                               (to + 1 < kLanes && seen[std::size_t(to) + 1] >= enough && to > from)))
            ++to;
        if (to - from > best_to - best_from) best_from = from, best_to = to;
        from = std::max(to, from + 1);
    }
    return {best_from * lane, best_to * lane};
}

double parting_line(const ReflectionImage& image, const StripPlace& place, double u0, double u1, double v0,
                    double v1) {
    constexpr int lanes = 60, reach = 3;
    const double lane = (v1 - v0) / lanes;
    std::vector<double> across;
    for (int i = 0; i < lanes; ++i) {
        double sum = 0;
        int count = 0;
        for (double u = u0; u < u1; u += 2)
            if (const auto light = light_at(image, place.at(u, v0 + (i + 0.5) * lane)))
                sum += density_of_light(*light), ++count;
        across.push_back(count > 0 ? sum / count : 0);
    }
    int best = lanes / 2;
    double steepest = 0;
    for (int i = lanes * 3 / 10; i <= lanes * 7 / 10; ++i) {
        const std::span values(across);
        const double apart = std::abs(mean_of(values.subspan(std::size_t(i), reach)) -
                                      mean_of(values.subspan(std::size_t(i - reach), reach)));
        if (apart > steepest) steepest = apart, best = i;
    }
    return v0 + best * lane;
}

}  // namespace fogproof::reading
