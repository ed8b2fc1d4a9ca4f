// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "demo/conifer.hpp"

#include "demo/landscape.hpp"
#include "demo/noise.hpp"

namespace fogproof::demo {
namespace {

constexpr int kHeight = 1536, kWidth = 768;

// The canvas a tree is drawn on: heights of the tree as units, nearest point wins.
struct Canvas {
    std::vector<float> light, cover, depth;
    Canvas() : light(kHeight * kWidth), cover(kHeight * kWidth), depth(kHeight * kWidth, 1e9f) {}

    void dab(Vec p, double radius, double brightness) {
        const double x = (p.x / (2 * Conifer::kHalfWidth) + 0.5) * kWidth, y = (1 - p.y) * kHeight;
        const double r = radius * kHeight;
        for (int j = std::max(0, int(y - r)); j <= std::min(kHeight - 1, int(y + r)); ++j)
            for (int i = std::max(0, int(x - r)); i <= std::min(kWidth - 1, int(x + r)); ++i) {
                const double dx = i + 0.5 - x, dy = j + 0.5 - y;
                const auto at = std::size_t(j) * kWidth + std::size_t(i);
                if (dx * dx + dy * dy > r * r || float(p.z) > depth[at]) continue;
                depth[at] = float(p.z);
                light[at] = float(brightness);
                cover[at] = 1;
            }
    }
};

struct Grower {
    Canvas& canvas;
    std::uint32_t seed;
    double slim;
    int drawn = 0;

    double luck(int kind) { return chance(drawn, kind, seed); }
    double spread(int kind) { return normal_chance(drawn, kind, seed); }
    double crown(double up) const {
        return slim * std::pow(std::max(0.0, 1.0 - up), 0.97) * smoothstep(-0.06, 0.10, up);
    }

    // How much sun and sky get through the crown to a point.
    double sun(Vec p) const {
        double thick = 0;
        for (double t = 0.012; t < 0.3; t += 0.024) {
            const Vec q = p + t * kToSun;
            const double in = crown(q.y) - std::sqrt(q.x * q.x + q.z * q.z);
            if (in > 0) thick += 0.024 * std::min(1.0, in / 0.03);
        }
        return std::exp(-thick * 26);
    }
    double sky(Vec p) const {
        const double in = crown(p.y) - std::sqrt(p.x * p.x + p.z * p.z);
        return std::exp(-std::max(0.0, in) * 22);
    }

    void needles(Vec p, double snowy) {
        ++drawn;
        const double sunlit = sun(p), open = sky(p);
        const double green = 0.035 * (0.7 + 0.6 * luck(1)) * (0.9 * sunlit + 0.30 * open + 0.05);
        canvas.dab(p, 0.0011 + 0.0008 * luck(2), green);
        if (luck(3) > snowy) return;
        const double facing = 0.72 + 0.4 * noise(p.x * 110 + p.z * 60, p.y * 110, seed + 7) + 0.12 * luck(4);
        const double snow = 0.9 * (0.66 * sunlit * facing + 0.19 * open * (0.7 + 0.6 * facing) + 0.03);
        canvas.dab(p + Vec{0, 0.0016, -0.002}, 0.0013 + 0.0013 * luck(5), snow);
    }

    void branch(double up, double turn, double reach) {
        const Vec out{std::cos(turn), 0, std::sin(turn)}, side{-out.z, 0, out.x};
        const double lift = mix(-0.10, 0.55, up) + 0.06 * spread(6),
                     droop = mix(0.75, 0.25, up) + 0.08 * spread(7);
        const double laden = std::clamp(0.42 + 0.22 * spread(8), 0.02, 0.9);
        for (double s = 0.02 * reach; s < reach; s += 0.0034) {
            const double t = s / reach;
            // Laden branches sag, and their tips lift again.
            const double y = up + reach * (lift * t - droop * t * t + 0.30 * droop * t * t * t * t);
            const Vec mid = out * s + Vec{0, y, 0};
            ++drawn;
            const double twig = (0.30 * (reach - s) + 0.014) * (0.7 + 0.5 * luck(9));
            const double snowy = laden * smoothstep(-0.25, 0.25, noise(turn * 3 + s * 38, up * 60, seed + 5));
            needles(mid, snowy);
            for (const double hand : {-1.0, 1.0})
                for (double w = 0.004; w < twig; w += 0.0034) {
                    const Vec at =
                        mid + side * (hand * w) + out * (0.7 * w) - Vec{0, 0.42 * w + 5 * w * w, 0};
                    needles(at + Vec{0.0014 * spread(10), 0.0014 * spread(11), 0.0014 * spread(12)},
                            snowy * (1 - 0.5 * w / twig));
                }
        }
    }

    void tree() {
        for (double y = 0; y < 0.97; y += 0.003) canvas.dab({0, y, 0}, 0.011 * (1 - y) + 0.001, 0.012);
        double up = 0.035;
        int whorl = 0;
        while (up < 0.985) {
            ++drawn;
            const int arms = 5 + int(3 * luck(13));
            for (int arm = 0; arm < arms; ++arm) {
                ++drawn;
                const double turn = 6.2832 * (arm + 0.35 * spread(14)) / arms + 2.4 * whorl;
                const double reach = crown(up) * std::clamp(0.93 + 0.22 * spread(15), 0.4, 1.4);
                branch(up + 0.006 * spread(16), turn, std::max(0.008, reach));
            }
            up += mix(0.047, 0.018, up) * (0.85 + 0.3 * luck(18));
            ++whorl;
        }
        for (double y = 0.965; y < 1; y += 0.002) needles({0.0008 * spread(17), y, 0}, 0.25);
    }
};

}  // namespace

Conifer::Conifer(std::uint32_t seed, double slim) {
    Canvas canvas;
    Grower{canvas, seed, slim}.tree();
    sheets_.push_back({kWidth, kHeight, std::move(canvas.light), std::move(canvas.cover)});
    while (sheets_.back().width > 2) {
        const Sheet& fine = sheets_.back();
        Sheet half{fine.width / 2, fine.height / 2, {}, {}};
        for (int j = 0; j < half.height; ++j)
            for (int i = 0; i < half.width; ++i) {
                const auto a = std::size_t(2 * j) * std::size_t(fine.width) + std::size_t(2 * i);
                const auto b = a + std::size_t(fine.width);
                half.light.push_back(0.25f *
                                     (fine.light[a] + fine.light[a + 1] + fine.light[b] + fine.light[b + 1]));
                half.cover.push_back(0.25f *
                                     (fine.cover[a] + fine.cover[a + 1] + fine.cover[b] + fine.cover[b + 1]));
            }
        sheets_.push_back(std::move(half));
    }
}

Conifer::Look Conifer::bilinear(const Sheet& sheet, double x, double y) {
    const double px = x * sheet.width - 0.5, py = y * sheet.height - 0.5;
    const int i = whole_below(px), j = whole_below(py);
    Look sum;
    for (int b = 0; b < 2; ++b)
        for (int a = 0; a < 2; ++a) {
            if (i + a < 0 || i + a >= sheet.width || j + b < 0 || j + b >= sheet.height) continue;
            const double weight = (a ? px - i : 1 - px + i) * (b ? py - j : 1 - py + j);
            const auto at = std::size_t(j + b) * std::size_t(sheet.width) + std::size_t(i + a);
            sum.light += weight * sheet.light[at];
            sum.cover += weight * sheet.cover[at];
        }
    return sum;
}

Conifer::Look Conifer::look(double across, double up, double detail) const {
    if (std::abs(across) > 1 || up < 0 || up > 1) return {};
    const double level =
        std::clamp(std::log2(std::max(detail * kHeight, 1.0)), 0.0, double(sheets_.size()) - 1);
    const auto fine = std::size_t(level), coarse = std::min(fine + 1, sheets_.size() - 1);
    const double x = 0.5 * (across + 1), y = 1 - up, share = level - double(fine);
    const Look a = bilinear(sheets_[fine], x, y), b = bilinear(sheets_[coarse], x, y);
    return {mix(a.light, b.light, share), mix(a.cover, b.cover, share)};
}

}  // namespace fogproof::demo
