// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/scanner_bed.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "base/quantile.hpp"
#include "reading/lid_ground.hpp"
#include "reading/light_density.hpp"

namespace fogproof::reading {
namespace {

constexpr int kLongSideBlocks = 400, kSmallestBlock = 3;
// Judgement, in density: what the rim of a lid may differ before its fall-off is known, and after.
constexpr double kUnevenLid = 0.06, kEvenLid = 0.02;
// From about here on the lid is black, and its light is stray light that says nothing of the lamp.
constexpr double kBlackLid = 0.8, kUnevenBlackLid = 0.25;

struct Sample {
    double x, y, density;
    std::size_t group;
};

std::array<double, 5> terms_at(double x, double y) {
    return {x, y, x * x, x * y, y * y};
}

struct Scale {
    double middle_x, middle_y, half;
    explicit Scale(int width, int height)
        : middle_x(width / 2.0), middle_y(height / 2.0), half(std::max(width, height) / 2.0) {}
};

// One level for each group and the first `shape` terms for all of them, least squares. Nothing when the
// samples do not determine them.
std::optional<std::pair<Eigen::VectorXd, std::array<double, 5>>> fitted(const std::vector<Sample>& samples,
                                                                        std::size_t groups,
                                                                        std::size_t shape) {
    const auto unknowns = Eigen::Index(groups + shape);
    Eigen::MatrixXd normal = Eigen::MatrixXd::Zero(unknowns, unknowns);
    Eigen::VectorXd right = Eigen::VectorXd::Zero(unknowns), row(unknowns);
    for (const Sample& sample : samples) {
        row.setZero();
        row[Eigen::Index(sample.group)] = 1;
        const auto terms = terms_at(sample.x, sample.y);
        for (std::size_t i = 0; i < shape; ++i) row[Eigen::Index(groups + i)] = terms[i];
        normal.selfadjointView<Eigen::Lower>().rankUpdate(row);
        right += sample.density * row;
    }
    const Eigen::MatrixXd whole = normal.selfadjointView<Eigen::Lower>();
    const Eigen::FullPivLU<Eigen::MatrixXd> solver(whole);
    if (!solver.isInvertible()) return std::nullopt;
    const Eigen::VectorXd solution = solver.solve(right);
    std::array<double, 5> terms{};
    for (std::size_t i = 0; i < shape; ++i) terms[i] = solution[Eigen::Index(groups + i)];
    return std::pair{Eigen::VectorXd(solution.head(Eigen::Index(groups))), terms};
}

template <class Take>
void for_rim(const CoarseImage& image, Take take) {
    for (int y = 0; y < image.height; ++y)
        for (int x = 0; x < image.width; ++x)
            if (std::min({x, y, image.width - 1 - x, image.height - 1 - y}) < 2) take(x, y);
}

// The density that most of the rim has, if half of it is within a lid's unevenness.
std::optional<double> rim_density(const CoarseImage& image) {
    std::vector<double> rim;
    for_rim(image, [&](int x, int y) { rim.push_back(image.at(x, y)); });
    std::ranges::sort(rim);
    std::size_t most = 0, first = 0;
    for (std::size_t low = 0, high = 0; high < rim.size(); ++high) {
        while (rim[high] - rim[low] > 2 * (rim[high] > kBlackLid ? kUnevenBlackLid : kUnevenLid)) ++low;
        if (high - low + 1 > most) most = high - low + 1, first = low;
    }
    if (most < rim.size() / 2) return std::nullopt;
    return rim[first + most / 2];
}

// Strips that touch the rim are the lesser part of it: the median does not see them.
double rim_noise(const CoarseImage& image, const ScannerBed& bed) {
    const std::vector<double> everywhere = apart_from(bed, image);
    std::vector<double> apart;
    for_rim(image, [&](int x, int y) { apart.push_back(std::abs(everywhere[image.index(x, y)])); });
    return kMadToSigma * median(std::move(apart));
}

}  // namespace

CoarseImage coarse(const ReflectionImage& image) {
    const int block = std::max(kSmallestBlock, std::max(image.width, image.height) / kLongSideBlocks);
    CoarseImage made{image.width / block, image.height / block, block, {}};
    for (int y = 0; y < made.height; ++y)
        for (int x = 0; x < made.width; ++x) {
            double sum = 0;
            for (int row = 0; row < block; ++row)
                for (int column = 0; column < block; ++column)
                    sum += image.light_at(x * block + column, y * block + row);
            made.density.push_back(density_of_light(sum / (block * block)));
        }
    return made;
}

double Evenness::at(double x, double y) const {
    const Scale scale(width, height);
    const auto values = terms_at((x - scale.middle_x) / scale.half, (y - scale.middle_y) / scale.half);
    double sum = 0;
    for (std::size_t i = 0; i < terms.size(); ++i) sum += terms[i] * values[i];
    return sum;
}

double Evenness::span() const {
    double low = 0, high = 0;
    for (int row = 0; row <= 8; ++row)
        for (int column = 0; column <= 8; ++column) {
            const double here = at(width * column / 8.0, height * row / 8.0);
            low = std::min(low, here);
            high = std::max(high, here);
        }
    return high - low;
}

std::optional<ScannerBed> scanner_bed(const CoarseImage& image) {
    const auto rim = rim_density(image);
    if (!rim) return std::nullopt;
    ScannerBed bed{*rim, 0, {image.width * image.block, image.height * image.block, {}}};
    const Scale scale(bed.evenness.width, bed.evenness.height);
    // A plane first, then the second order, each time with what lies closer.
    for (const auto& [tolerance, shape] : {std::pair{kUnevenLid, 2}, {0.04, 2}, {0.03, 5}, {kEvenLid, 5}}) {
        if (bed.density > kBlackLid) break;
        const std::vector<char> lid =
            lid_ground(apart_from(bed, image), image.width, image.height, tolerance);
        std::vector<Sample> samples;
        for (int y = 0; y < image.height; ++y)
            for (int x = 0; x < image.width; ++x)
                if (lid[image.index(x, y)])
                    samples.push_back({((x + 0.5) * image.block - scale.middle_x) / scale.half,
                                       ((y + 0.5) * image.block - scale.middle_y) / scale.half,
                                       image.at(x, y), 0});
        const auto fit = fitted(samples, 1, std::size_t(shape));
        if (!fit) return std::nullopt;
        bed.density = fit->first[0];
        bed.evenness.terms = fit->second;
    }
    bed.noise = rim_noise(image, bed);
    return bed;
}

std::vector<double> apart_from(const ScannerBed& bed, const CoarseImage& image) {
    std::vector<double> apart;
    apart.reserve(image.density.size());
    for (int y = 0; y < image.height; ++y)
        for (int x = 0; x < image.width; ++x)
            apart.push_back(image.at(x, y) - bed.density -
                            bed.evenness.at((x + 0.5) * image.block, (y + 0.5) * image.block));
    return apart;
}

std::optional<Evenness> evenness_of_patches(const ReflectionImage& image, std::span<const Region> patches) {
    const Scale scale(image.width, image.height);
    std::vector<Sample> samples;
    for (std::size_t group = 0; group < patches.size(); ++group) {
        const Region& patch = patches[group];
        // A short patch would tell of its own texture, drawn out over the whole scan.
        if (std::max(patch.width, patch.height) < std::max(image.width, image.height) / 2)
            return std::nullopt;
        for (int y = patch.top; y < patch.top + patch.height; ++y)
            for (int x = patch.left; x < patch.left + patch.width; ++x)
                samples.push_back({(x + 0.5 - scale.middle_x) / scale.half,
                                   (y + 0.5 - scale.middle_y) / scale.half,
                                   density_of_light(double(image.light_at(x, y))), group});
    }
    const auto fit = fitted(samples, patches.size(), 2);
    if (!fit) return std::nullopt;
    return Evenness{image.width, image.height, fit->second};
}

std::optional<Evenness> evenness_of_known(const ReflectionImage& image, std::span<const ApartAt> known) {
    // Judgement: closer together, errors of the densities told would be drawn out over the scan; and no lamp
    // falls off by more.
    constexpr double kApart = 0.3, kSteepest = 0.3;
    if (known.size() < 3) return std::nullopt;
    const auto [left, right] = std::ranges::minmax(known, {}, &ApartAt::x);
    const auto [top, bottom] = std::ranges::minmax(known, {}, &ApartAt::y);
    if (right.x - left.x < kApart * image.width || bottom.y - top.y < kApart * image.height)
        return std::nullopt;
    const Scale scale(image.width, image.height);
    std::vector<Sample> samples;
    for (const ApartAt& each : known)
        samples.push_back({(each.x - scale.middle_x) / scale.half, (each.y - scale.middle_y) / scale.half,
                           each.density, 0});
    const auto fit = fitted(samples, 1, 2);
    if (!fit) return std::nullopt;
    const Evenness evenness{image.width, image.height, fit->second};
    return evenness.span() <= kSteepest ? std::optional(evenness) : std::nullopt;
}

}  // namespace fogproof::reading
