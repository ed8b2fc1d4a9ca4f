// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "registration/keypoints.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numbers>

#include "registration/parabola.hpp"
#include "system/threads.hpp"

namespace fogproof::registration {
namespace {

// Lowe's numbers: scales an octave, the first blur, what the picture brings along, the limit on edges.
constexpr int kScales = 3;
constexpr double kFirstBlur = 1.6, kOwnBlur = 0.5, kEdgeRatio = 10;
// Differences below this are noise; a quarter of Lowe's limit, since a fogged print has little contrast.
// Judgement.
constexpr float kFaintest = 0.003f;
constexpr int kMargin = 5, kSmallestOctave = 24;
constexpr int kDirections = 36;
constexpr double kTurn = 2 * std::numbers::pi;

struct Octave {
    std::vector<GreyImage> blur, difference;
    double pitch;  ///< of its pixels, in pixels of the picture
};

double blur_of(double scale) {
    return kFirstBlur * std::pow(2.0, scale / kScales);
}

std::vector<Octave> octaves(const GreyImage& image) {
    std::vector<Octave> all;
    GreyImage first = blurred(image, std::sqrt(kFirstBlur * kFirstBlur - kOwnBlur * kOwnBlur));
    for (double pitch = 1; std::min(first.width, first.height) >= kSmallestOctave; pitch *= 2) {
        Octave& octave = all.emplace_back();
        octave.pitch = pitch;
        octave.blur.push_back(std::move(first));
        for (int i = 1; i < kScales + 3; ++i) {
            const double before = blur_of(i - 1), now = blur_of(i);
            octave.blur.push_back(blurred(octave.blur.back(), std::sqrt(now * now - before * before)));
            GreyImage& difference =
                octave.difference.emplace_back(octave.blur[0].width, octave.blur[0].height);
            const auto& darker = octave.blur[std::size_t(i) - 1].values;
            for (std::size_t p = 0; p < darker.size(); ++p)
                difference.values[p] = octave.blur.back().values[p] - darker[p];
        }
        first = halved(octave.blur[kScales]);
    }
    return all;
}

bool is_extremum(const Octave& octave, int scale, int x, int y) {
    const float value = octave.difference[std::size_t(scale)].at(x, y);
    for (int s = scale - 1; s <= scale + 1; ++s)
        for (int v = y - 1; v <= y + 1; ++v)
            for (int u = x - 1; u <= x + 1; ++u) {
                if (s == scale && u == x && v == y) continue;
                const float other = octave.difference[std::size_t(s)].at(u, v);
                if (value > 0 ? other >= value : other <= value) return false;
            }
    return true;
}

// An edge is found again anywhere along itself.
bool is_edge(const GreyImage& d, int x, int y) {
    const double xx = double(d.at(x + 1, y)) + double(d.at(x - 1, y)) - 2 * double(d.at(x, y));
    const double yy = double(d.at(x, y + 1)) + double(d.at(x, y - 1)) - 2 * double(d.at(x, y));
    const double xy = (double(d.at(x + 1, y + 1)) - double(d.at(x - 1, y + 1)) - double(d.at(x + 1, y - 1)) +
                       double(d.at(x - 1, y - 1))) /
                      4;
    const double trace = xx + yy, determinant = xx * yy - xy * xy;
    return determinant <= 0 ||
           trace * trace * kEdgeRatio >= (kEdgeRatio + 1) * (kEdgeRatio + 1) * determinant;
}

struct Found {
    double x, y, scale;  ///< in pixels and scales of the octave
    double strength;
};

std::vector<Found> extrema(const Octave& octave) {
    std::vector<Found> all;
    for (int scale = 1; scale <= kScales; ++scale) {
        const GreyImage& d = octave.difference[std::size_t(scale)];
        for (int y = kMargin; y < d.height - kMargin; ++y)
            for (int x = kMargin; x < d.width - kMargin; ++x) {
                const float value = d.at(x, y);
                if (std::abs(value) < kFaintest || !is_extremum(octave, scale, x, y) || is_edge(d, x, y))
                    continue;
                const double here = double(value);
                const auto next = [&](int s) { return double(octave.difference[std::size_t(s)].at(x, y)); };
                all.push_back(
                    {x + 0.5 + extremum_between(double(d.at(x - 1, y)), here, double(d.at(x + 1, y))),
                     y + 0.5 + extremum_between(double(d.at(x, y - 1)), here, double(d.at(x, y + 1))),
                     scale + extremum_between(next(scale - 1), here, next(scale + 1)), std::abs(here)});
            }
    }
    return all;
}

struct Gradient {
    double size, angle;
};
Gradient gradient(const GreyImage& image, int x, int y) {
    const double dx = double(image.at(x + 1, y)) - double(image.at(x - 1, y));
    const double dy = double(image.at(x, y + 1)) - double(image.at(x, y - 1));
    return {std::sqrt(dx * dx + dy * dy), std::atan2(dy, dx)};
}
bool has_gradient(const GreyImage& image, int x, int y) {
    return x > 0 && y > 0 && x + 1 < image.width && y + 1 < image.height;
}

std::vector<double> directions(const GreyImage& image, const Found& at, double blur) {
    std::array<double, kDirections> counts{};
    const double sigma = 1.5 * blur;
    const int reach = int(std::lround(3 * sigma)), cx = int(at.x), cy = int(at.y);
    for (int y = cy - reach; y <= cy + reach; ++y)
        for (int x = cx - reach; x <= cx + reach; ++x) {
            if (!has_gradient(image, x, y)) continue;
            const double far = (std::pow(x + 0.5 - at.x, 2) + std::pow(y + 0.5 - at.y, 2)) / (sigma * sigma);
            const Gradient g = gradient(image, x, y);
            const auto bin = int(std::floor((g.angle / kTurn + 1) * kDirections + 0.5)) % kDirections;
            counts[std::size_t(bin)] += g.size * std::exp(-far / 2);
        }
    for (int round = 0; round < 2; ++round) {
        const auto rough = counts;
        for (std::size_t i = 0; i < counts.size(); ++i)
            counts[i] =
                (rough[(i + kDirections - 1) % kDirections] + rough[i] + rough[(i + 1) % kDirections]) / 3;
    }
    const double most = *std::ranges::max_element(counts);
    std::vector<double> found;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        const double before = counts[(i + kDirections - 1) % kDirections],
                     after = counts[(i + 1) % kDirections];
        if (counts[i] < 0.8 * most || counts[i] < before || counts[i] <= after) continue;
        found.push_back((double(i) + extremum_between(before, counts[i], after)) / kDirections * kTurn);
    }
    return found;
}

// Gradients of a turned square of 16 x 16, spread over 4 x 4 fields of 8 directions each.
std::array<float, 128> look(const GreyImage& image, const Found& at, double blur, double angle) {
    std::array<float, 128> fields{};
    const double field = 3 * blur, c = std::cos(angle), s = std::sin(angle);
    const int reach = int(std::lround(field * std::numbers::sqrt2 * 2.5)), cx = int(at.x), cy = int(at.y);
    for (int y = cy - reach; y <= cy + reach; ++y)
        for (int x = cx - reach; x <= cx + reach; ++x) {
            if (!has_gradient(image, x, y)) continue;
            const double dx = (x + 0.5 - at.x) / field, dy = (y + 0.5 - at.y) / field;
            const double u = c * dx + s * dy, v = -s * dx + c * dy;
            const double column = u + 1.5, row = v + 1.5;
            if (column <= -1 || column >= 4 || row <= -1 || row >= 4) continue;
            const Gradient g = gradient(image, x, y);
            double direction = std::fmod((g.angle - angle) / kTurn + 2, 1.0) * 8;
            const double weight = g.size * std::exp(-(u * u + v * v) / 8);
            const int c0 = int(std::floor(column)), r0 = int(std::floor(row)), d0 = int(direction);
            const double fc = column - c0, fr = row - r0, fd = direction - d0;
            for (int i = 0; i < 8; ++i) {
                const int cc = c0 + (i & 1), rr = r0 + ((i >> 1) & 1), dd = (d0 + (i >> 2)) % 8;
                if (cc < 0 || cc > 3 || rr < 0 || rr > 3) continue;
                const double part =
                    ((i & 1) ? fc : 1 - fc) * (((i >> 1) & 1) ? fr : 1 - fr) * ((i >> 2) ? fd : 1 - fd);
                fields[std::size_t((rr * 4 + cc) * 8 + dd)] += float(weight * part);
            }
        }
    double sum = 0;
    for (const float each : fields) sum += double(each);
    for (float& each : fields) each = sum > 0 ? float(std::sqrt(double(each) / sum)) : 0.0f;
    return fields;
}

}  // namespace

std::vector<Keypoint> keypoints(const GreyImage& image, std::size_t most) {
    struct Candidate {
        std::size_t octave;
        Found found;
    };
    const auto all = octaves(image);
    std::vector<Candidate> candidates;
    for (std::size_t i = 0; i < all.size(); ++i)
        for (const Found& found : extrema(all[i])) candidates.push_back({i, found});
    std::ranges::stable_sort(candidates, [](const Candidate& a, const Candidate& b) {
        return a.found.strength > b.found.strength;
    });
    if (candidates.size() > most) candidates.resize(most);
    std::vector<std::vector<Keypoint>> at(candidates.size());  // as many as it has directions
    in_parallel(candidates.size(), [&](std::size_t i) {
        const auto& [octave, found] = candidates[i];
        const GreyImage& blur =
            all[octave].blur[std::size_t(std::clamp(int(std::lround(found.scale)), 0, kScales + 2))];
        const double pitch = all[octave].pitch, own = blur_of(found.scale);
        for (const double angle : directions(blur, found, own))
            at[i].push_back({found.x * pitch, found.y * pitch, own * pitch, angle, found.strength,
                             look(blur, found, own, angle)});
    });
    std::vector<Keypoint> points;
    for (auto& each : at) std::ranges::move(each, std::back_inserter(points));
    return points;
}

}  // namespace fogproof::registration
