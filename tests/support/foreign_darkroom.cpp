// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "support/foreign_darkroom.hpp"

#include <algorithm>
#include <cmath>

namespace fogproof::tests::foreign {

Paper::Paper(unsigned seed, Darkroom darkroom) : random_(seed) {
    if (darkroom == Darkroom::second) restraint_.emplace(seed + 5000);
    grain_law_ = pick(3), fog_law_ = pick(3), bleach_law_ = pick(3), optics_ = pick(3);
    log_speed_ = between(-0.2, 1.2);
    hits_ = 2 + pick(5);
    size_spread_ = between(0.08, 0.2);
    shape_ = between(4, 8);
    burr_ = between(0.6, 2.5);
    for (std::size_t i = 0; i < kParts; ++i) green_[i] = between(-0.9, 0.9);
    std::ranges::sort(green_);
    fog_ = between(0.03, 0.16);
    half_ = between(6, 30), fog_power_ = between(0.7, 1.4), slowing_ = between(0.05, 0.3);
    silver_ = between(0.62, 0.9);
    rate_ = between(0.002, 0.012), starved_ = between(0.06, 0.3), soak_ = between(1, 8);
    white_ = between(0.05, 0.14), gloss_ = between(0.004, 0.012);
    filter_tilt_ = between(0.85, 1.15), filter_error_ = between(-0.05, 0.05);
}

double Paper::density(const Treatment& t) const {
    if (t.develop_s <= 0) return shown(0);
    return shown(thinned(silver(t), t.bleach_s));
}

double Paper::black_seconds(double filter, double restrainer) const {
    Treatment t{0.05, 0, filter, restrainer, 90, 0};
    const double black = shown(silver({1e6, 0, filter, restrainer, 90, 0}));
    while (density(t) < black - 0.02 && t.exposure_s < 1e5) t.exposure_s *= 1.2;
    return std::round(10 * t.exposure_s) / 10;
}

double Paper::clearing_seconds(double restrainer, double above) const {
    Treatment t{0, 0, 2, restrainer, 90, 0};
    while (density(t) > shown(0) + above && t.bleach_s < 2000) t.bleach_s += 1;
    return t.bleach_s;
}

std::string Paper::laws() const {
    return std::to_string(grain_law_) + std::to_string(fog_law_) + std::to_string(bleach_law_) +
           std::to_string(optics_) + (restraint_ ? "/" + std::to_string(restraint_->law()) : "");
}

std::pair<double, double> Paper::light(const Treatment& t) const {
    const double h = t.exposure_s * std::pow(10.0, -t.wedge - log_speed_ + gained(t.filter));
    const double green = filter_tilt_ * (0.55 - 0.36 * t.filter) + filter_error_;
    const double blue = -0.35 + 0.075 * t.filter;
    return {h * std::pow(10.0, blue), h * std::pow(10.0, blue + green)};
}

void Paper::match_filters() {
    constexpr double kMatchedOver = 0.7;  // density over white
    matched_.clear();
    std::vector<double> log_seconds;
    for (double filter = 0; filter <= 5; filter += kFilterStep) {
        double low = -4, high = 6;
        while (high - low > 1e-6) {
            const double middle = (low + high) / 2;
            const bool is_light =
                density({std::pow(10.0, middle), 0, filter, 0, 90, 0}) < shown(0) + kMatchedOver;
            (is_light ? low : high) = middle;
        }
        const double lost = std::clamp((filter - 3.5) / 0.5, 0.0, 1.0) * std::log10(2.0);
        log_seconds.push_back(low - lost + 0.5 * filter_error_ * (filter - 2));
    }
    const double of_two = log_seconds[std::size_t(2 / kFilterStep)];
    for (const double each : log_seconds) matched_.push_back(each - of_two);
}

double Paper::gained(double filter) const {
    if (matched_.empty()) return 0;
    const double at = std::clamp(filter / kFilterStep, 0.0, double(matched_.size() - 1));
    const auto below = std::min(std::size_t(at), matched_.size() - 2);
    return std::lerp(matched_[below], matched_[below + 1], at - double(below));
}

double Paper::at_least(int hits, double mean) {
    double none = std::exp(-mean), term = none;
    for (int k = 1; k < hits; ++k) none += term *= mean / k;
    return std::max(0.0, 1 - none);
}

double Paper::developed(double exposure, double thermal) const {
    if (grain_law_ == 0) {  // quantum hits on grains of spread sizes
        double sum = 0, weight = 0;
        for (int i = -6; i <= 6; ++i) {
            const double z = i / 2.0, w = std::exp(-z * z / 2);
            sum += w * at_least(hits_, hits_ * (exposure + thermal) * std::pow(10.0, size_spread_ * z));
            weight += w;
        }
        return sum / weight;
    }
    const double all = exposure + thermal;
    if (all <= 0) return 0;
    if (grain_law_ == 1) return 1 / (1 + std::pow(all, -shape_));          // logistic in log exposure
    return 1 - std::pow(1 + std::pow(all, 0.8 * shape_) / burr_, -burr_);  // long-tailed on one side
}

double Paper::silver(const Treatment& t) const {
    const double doses = t.restrainer / half_;
    const double slow =
        std::pow(10.0, restraint_ ? -restraint_->speed_lost(t.restrainer) : -slowing_ * std::log2(1 + doses));
    double share = fog_;
    if (restraint_)
        share *= restraint_->fog_left(t.restrainer);
    else if (fog_law_ == 0)
        share /= std::pow(1 + 0.5 * doses, 2 * fog_power_);
    else if (fog_law_ == 1)
        share *= std::exp(-std::pow(0.7 * doses, fog_power_));
    else
        share *= 0.12 + 0.88 / (1 + std::pow(doses, 1.5 * fog_power_));
    share *= std::pow(t.develop_s / 90, 0.8);
    const auto [blue, green] = light(t);
    double grains = 0;
    for (std::size_t i = 0; i < kParts; ++i)
        grains += developed(slow * (blue + green * std::pow(10.0, green_[i])), 0) / kParts;
    // Fogged grains shut out the image (0), lie under it as a veil (1), or something between (2).
    const double veil = fog_law_ == 0 ? 1 : fog_law_ == 1 ? 0.6 : 0.85;
    const double covered = grains + share * (1 - veil * grains);
    return silver_ * covered / (1 + share * (1 - veil));
}

double Paper::thinned(double before, double seconds) const {
    const double time = std::max(0.0, seconds - soak_);
    if (time <= 0 || before <= 0) return before;
    constexpr int kSteps = 400;
    const double step = rate_ * time / kSteps;
    double left = before, radius = 1, fine = 0.3 * before, coarse = 0.7 * before;
    for (int i = 0; i < kSteps; ++i) {
        if (bleach_law_ == 0) {  // particles shrink from outside, all on one starved supply
            const double supply = 1 / (1 + before * radius * radius / starved_);
            radius = std::max(0.0, radius - 0.45 / starved_ * step * supply);
        } else if (bleach_law_ == 1) {  // film diffusion against a surface reaction of another order
            left = std::max(
                0.0, left - step * std::pow(left, 0.8) / (std::pow(starved_, 0.8) + std::pow(left, 0.9)));
        } else {  // fine silver goes first
            const double supply = 1 / (1 + (fine + coarse) / starved_);
            fine *= std::exp(-1.5 * step * supply / starved_);
            coarse *= std::exp(-0.85 * step * supply / starved_);
        }
    }
    if (bleach_law_ == 0) return before * radius * radius;
    return bleach_law_ == 1 ? left : fine + coarse;
}

double Paper::shown(double silver) const {
    const double base = std::pow(10.0, -white_) - gloss_;
    double body = 0;
    if (optics_ == 0) {  // two fluxes under a surface (Saunderson 1942), internal reflectance 0.6
        const auto seen = [](double rho, double t) { return 0.4 * rho * t / (1 - 0.6 * rho * t); };
        const double rho = base / (0.4 + 0.6 * base), t = std::pow(10.0, -2.2 * silver);
        body = seen(rho, t);
    } else if (optics_ == 1) {  // light through a half-scattering layer: paths of many lengths
        const double rho = base / (0.5 + 0.5 * base);
        const double once = std::pow(10.0, -2.1 * silver), twice = std::pow(10.0, -2.8 * silver);
        body = 0.5 * rho * once / (1 - 0.5 * rho * twice);
    } else {  // density grows as the layer's, faster where thin
        const double density = 2.25 * silver + 0.28 * (1 - std::exp(-silver / 0.07));
        body = base * std::pow(10.0, -density);
    }
    return -std::log10(gloss_ + body);
}

Reading Densitometer::read(const std::string& strip, const Treatment& t) {
    Reading reading;
    reading.strip = strip;
    reading.wedge_density = t.wedge;
    reading.exposure_s = t.exposure_s;
    reading.filter = t.filter;
    reading.restrainer_ml_l = t.restrainer;
    reading.develop_s = t.develop_s;
    reading.bleach_s = t.bleach_s;
    reading.bleach_parts = 50;
    reading.density =
        std::round(100 * (paper_.density(t) + std::normal_distribution<>(0, noise_)(random_))) / 100;
    return reading;
}

void Densitometer::read_strip(std::vector<Reading>& readings, const std::string& strip, Treatment t) {
    for (int step = 0; step < 21; ++step) {
        t.wedge = 0.05 + 0.15 * step;
        readings.push_back(read(strip, t));
    }
}

}  // namespace fogproof::tests::foreign
