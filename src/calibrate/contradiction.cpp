// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "calibrate/contradiction.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "fogproof/base/words.hpp"

namespace fogproof {
namespace {

// D; strips that miss by no more are the laws' fault, not a label's. Judgement.
constexpr double kSuspicious = 0.02, kHopeless = 0.15;
// Readings of a strip whose rms is more than the chance of one bad patch; slips need a worse one. Judgement.
constexpr double kStrip = 6, kSlipAllowance = 4, kChance = 1.6;
// Errors under which labels are compared, whatever the strip in doubt has made of those of the fit.
constexpr Errors kCompared{0.01, 0.012, 0};
constexpr double kMiss = 0.023;
// A label is believed when it leaves at most these shares of the strip's error and of the whole cost, and the
// cost falls by so much.
constexpr double kErrorLeft = 0.5, kCostLeft = 0.5, kLeastGain = 15;
constexpr int kSteps = 25;
// Labels of one strip that are fitted in full, the likeliest first.
constexpr std::size_t kTried = 2;

// A column that a pen can get wrong.
struct Label {
    const char* name;
    const char* unit;
    bool needs_light;  ///< an unexposed slip has none
    bool halves;       ///< a stop or a factor two off is a usual slip
    double (*of)(const Patched&);
    void (*put)(Reading&, double);
};
constexpr Label kLabels[] = {
    {"filter", "", true, false, [](const Patched& p) { return p.filter.value_or(0); },
     [](Reading& r, double v) { r.filter = v; }},
    {"bleach time", " s", false, true, [](const Patched& p) { return p.bleach_s; },
     [](Reading& r, double v) { r.bleach_s = v; }},
    {"exposure", " s", true, true, [](const Patched& p) { return p.exposure_s; },
     [](Reading& r, double v) { r.exposure_s = v; }},
    {"restrainer", " ml/L", false, true, [](const Patched& p) { return p.restrainer_ml_l; },
     [](Reading& r, double v) { r.restrainer_ml_l = v; }},
};

using Readings = std::vector<Reading>;

struct Candidate {
    Readings readings;
    std::string words;
    double cost = 0;
};

class Labels {
  public:
    Labels(const Prior& prior, std::span<const Reading> readings)
        : prior_(prior), readings_(readings.begin(), readings.end()) {
        for (const auto& reading : readings_)
            if (std::ranges::find(strips_, reading.strip) == strips_.end()) strips_.push_back(reading.strip);
    }
    [[nodiscard]] const std::vector<std::string>& strips() const { return strips_; }

    /// The value that all patches of a strip share; nothing where they differ.
    [[nodiscard]] std::optional<double> shared(const std::string& strip, const Label& label) const {
        std::optional<double> value;
        for (const auto& reading : readings_) {
            if (reading.strip != strip) continue;
            const Patched patch = patched(reading, prior_.pack);
            if (label.needs_light && (patch.exposure_s <= 0 || patch.develop_s <= 0)) return std::nullopt;
            const double own = label.of(patch);
            if (value && *value != own) return std::nullopt;
            value = own;
        }
        return value;
    }

    [[nodiscard]] std::vector<Candidate> candidates(const std::string& strip) const {
        std::vector<Candidate> all;
        for (const auto& label : kLabels) {
            const auto own = shared(strip, label);
            if (!own || (label.of == kLabels[0].of && prior_.pack.contrast == Contrast::graded)) continue;
            std::set<double> values;
            for (const auto& other : strips_)
                if (const auto value = shared(other, label)) values.insert(*value);
            if (label.halves && *own > 0) values.insert({*own / 2, 2 * *own});
            for (const double value : values)
                if (value != *own) all.push_back(relabelled(strip, label, *own, value));
            for (const auto& other : strips_)
                if (const auto value = shared(other, label); value && *value != *own && other != strip)
                    all.push_back(swapped(strip, other, label, *own, *value));
        }
        return all;
    }

  private:
    [[nodiscard]] Candidate relabelled(const std::string& strip, const Label& label, double own,
                                       double value) const {
        Candidate candidate{readings_, std::string(label.name) + " " + decimal(value, 2) + label.unit +
                                           " instead of " + decimal(own, 2) + label.unit};
        for (auto& reading : candidate.readings)
            if (reading.strip == strip) label.put(reading, value);
        return candidate;
    }
    [[nodiscard]] Candidate swapped(const std::string& strip, const std::string& other, const Label& label,
                                    double own, double value) const {
        Candidate candidate{readings_, std::string(label.name) + " swapped with strip \"" + other + "\""};
        for (auto& reading : candidate.readings) {
            if (reading.strip == strip) label.put(reading, value);
            if (reading.strip == other) label.put(reading, own);
        }
        return candidate;
    }

    const Prior& prior_;
    Readings readings_;
    std::vector<std::string> strips_;
};

double strip_rms(const Readings& readings, std::span<const double> densities, const std::string& strip) {
    double sum = 0, count = 0;
    for (std::size_t i = 0; i < readings.size(); ++i)
        if (readings[i].strip == strip) {
            sum += std::pow(densities[i] - readings[i].density, 2);
            ++count;
        }
    return count > 0 ? std::sqrt(sum / count) : 0;
}

double misfit(const Readings& readings, std::span<const double> densities) {
    double cost = 0;
    for (std::size_t i = 0; i < readings.size(); ++i)
        cost += std::pow(robust((densities[i] - readings[i].density) / kMiss), 2) / 2;
    return cost;
}

Readings without(const Readings& readings, const std::string& strip) {
    Readings rest;
    for (const auto& reading : readings)
        if (reading.strip != strip) rest.push_back(reading);
    return rest;
}

// How well a label does where the other strips alone have set the paper.
double cost_of(const Candidate& candidate, const Prior& prior, const Pack& paper) {
    try {
        return misfit(candidate.readings, Predictor(prior.pack, candidate.readings).densities(paper));
    } catch (const std::exception&) {
        return std::numeric_limits<double>::infinity();
    }
}

bool usable(const Fitted& fit) {
    return fit.ending == Ending::converged || fit.ending == Ending::out_of_steps;
}

}  // namespace

std::vector<Contradiction> contradictions_in(const Prior& prior, std::span<const Reading> given,
                                             const Errors& errors, const Fitted& all) {
    const Readings readings(given.begin(), given.end());
    const Labels labels(prior, readings);
    const double suspicious = std::max(kSuspicious, kChance * errors.reading);
    const bool is_suspicious = std::ranges::any_of(labels.strips(), [&](const std::string& strip) {
        const auto count = double(std::ranges::count(readings, strip, &Reading::strip));
        const double rms = strip_rms(readings, all.densities, strip);
        return rms > (count >= kStrip ? 1 : kSlipAllowance) * suspicious;
    });
    if (!is_suspicious || labels.strips().size() < 2) return {};

    Fitter whole(prior, readings);
    const Fitted as_read = whole.fitted(kCompared, all.mean, kSteps);
    if (!usable(as_read)) return {};
    std::optional<Contradiction> found;
    double least = kCostLeft * as_read.cost;
    for (const auto& strip : labels.strips()) {
        const Readings rest = without(readings, strip);
        const bool is_slip = double(readings.size() - rest.size()) < kStrip;
        if (rest.empty() ||
            (is_slip && strip_rms(readings, all.densities, strip) < kSlipAllowance * suspicious))
            continue;
        Fitter others(prior, rest);
        const Fitted believed = others.fitted(kCompared, {}, kSteps);
        if (!usable(believed)) continue;
        const Pack paper = others.pack_at(believed.mean);
        auto candidates = labels.candidates(strip);
        for (auto& candidate : candidates) candidate.cost = cost_of(candidate, prior, paper);
        std::ranges::sort(candidates, {}, &Candidate::cost);
        if (candidates.size() > kTried) candidates.resize(kTried);
        const double before = strip_rms(readings, Predictor(prior.pack, readings).densities(paper), strip);
        for (const auto& candidate : candidates) {
            Fitter relabelled(prior, candidate.readings);
            const Fitted fit = relabelled.fitted(kCompared, believed.mean, kSteps);
            if (!usable(fit) || fit.cost > std::min(least, as_read.cost - kLeastGain)) continue;
            const double after = strip_rms(candidate.readings, fit.densities, strip);
            if (after > kErrorLeft * before) continue;
            least = fit.cost;
            found = Contradiction{strip, before, candidate.words, after};
        }
    }
    if (found) return {*found};
    std::vector<Contradiction> hopeless;
    for (const auto& strip : labels.strips())
        if (const double rms = strip_rms(readings, all.densities, strip); rms > kHopeless)
            hopeless.push_back({strip, rms, std::nullopt, std::nullopt});
    return hopeless;
}

}  // namespace fogproof
