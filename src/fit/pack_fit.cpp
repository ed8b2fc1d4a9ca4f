// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/fit/pack_fit.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/words.hpp"
#include "fit/backward_strips.hpp"
#include "fit/contradiction.hpp"
#include "fit/deep_blacks.hpp"
#include "fit/fewer.hpp"
#include "fit/fit_warnings.hpp"
#include "fit/fitter.hpp"
#include "fit/roughness.hpp"
#include "fit/stated_densities.hpp"
#include "fit/treated_patch.hpp"
#include "fogproof/base/error.hpp"
#include "pack/doubles.hpp"
#include "pack/readings_zero.hpp"
#include "pack/schema.hpp"

namespace fogproof::fit {
namespace {

constexpr int kMostSteps = 60;
// Fits between which the errors are learnt anew; they settle within three.
constexpr int kRounds = 3;
// Of many readings some are fitted first, from which the fit of all sets out.
constexpr int kFewRounds = 2, kFewSteps = 12;
// Share of the doubt before that is left after: below the first a number is measured, below the second it is
// partly measured. What was measured before stays so. Judgement.
constexpr double kMeasured = 0.3, kPartlyMeasured = 0.9;
constexpr double kCorrelationDigits = 1e4;
constexpr const char* kSheet = "scatter.sheet";
// D, and deviations: a strip that is off by less as a whole is no news. Judgement.
constexpr double kStandsOff = 0.03, kBeyondErrors = 2;

std::vector<double> residuals_of(const Fitted& fit, std::span<const Reading> readings) {
    std::vector<double> residuals;
    for (std::size_t i = 0; i < readings.size(); ++i)
        residuals.push_back(fit.densities[i] - readings[i].density);
    return residuals;
}

double rms_of(std::span<const double> values) {
    double sum = 0;
    for (const double v : values) sum += v * v;
    return values.empty() ? 0 : std::sqrt(sum / double(values.size()));
}

// Errors of the readings of one strip: each its own, and what the instrument errs by in all of them.
double error_of_mean(std::span<const Reading> readings, std::span<const std::size_t> rows, double error) {
    double square = 0, common = 0;
    for (const std::size_t i : rows) {
        const Reading& reading = readings[i];
        square +=
            std::pow(std::max(error * roughness(reading.density), reading.density_error.value_or(0)), 2);
        common += std::hypot(reading.common_error.value_or(0), reading.dark_error.value_or(0));
    }
    return std::hypot(std::sqrt(square), common) / double(rows.size());
}

std::vector<StripFit> strips_of(std::span<const Reading> readings, std::span<const double> residuals,
                                double error) {
    std::vector<StripFit> strips;
    std::map<std::string, std::vector<std::size_t>> by_label;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        if (!by_label.contains(readings[i].strip)) strips.push_back({readings[i].strip, 0, 0, 0, 0});
        by_label[readings[i].strip].push_back(i);
    }
    for (auto& strip : strips) {
        const auto& rows = by_label[strip.label];
        std::vector<double> own;
        for (const std::size_t i : rows) own.push_back(residuals[i]);
        strip.readings = own.size();
        strip.rms = rms_of(own);
        for (const double r : own) strip.mean += r / double(own.size());
        strip.mean_error = error_of_mean(readings, rows, error);
    }
    return strips;
}

bool shows_light(const Reading& reading, const Pack& pack) {
    const TreatedPatch p = treated(reading, pack);
    return reading.exposure_s && p.exposure_s > 0 && p.develop_s > 0;
}

Origin state_after(double share_of_doubt, Origin before) {
    if (share_of_doubt < kMeasured || before == Origin::measured) return Origin::measured;
    return share_of_doubt < kPartlyMeasured ? Origin::partly_measured : before;
}

// What the readings leave alone errs with what they do not.
bool is_always_told(const Unknown& unknown) {
    return unknown.is_departure || unknown.name.starts_with("filter.");
}

void put_knowledge(PackFit& result, const Prior& prior, const Fitted& fit) {
    Pack& pack = result.pack;
    std::vector<Eigen::Index> kept;
    for (std::size_t i = 0; i < prior.unknowns.size(); ++i) {
        const Unknown& unknown = prior.unknowns[i];
        const auto at = Eigen::Index(i);
        const double before = std::sqrt(prior.covariance(at, at));
        const double sd = std::sqrt(std::max(fit.covariance(at, at), 0.0));
        if (!fit.active[i] && !is_always_told(unknown)) continue;
        const double ratio = sd / before;
        // What stands for many causes is never measured.
        const Origin state = unknown.is_departure ? Origin::partly_measured
                                                  : state_after(ratio, unknown.prior_knowledge.origin);
        const double deviation = unknown.deviation(fit.mean[at], std::max(sd, 1e-9));
        pack.knowledge[unknown.name] = {state, deviation};
        kept.push_back(at);
        pack.fit.numbers.push_back({unknown.name, unknown.prior_value, unknown.prior_knowledge});
        result.numbers.push_back({unknown.name, unknown.prior_value,
                                  unknown.deviation(prior.mean[at], before), unknown.in(pack), deviation,
                                  state});
    }
    for (std::size_t a = 1; a < kept.size(); ++a)
        for (std::size_t b = 0; b < a; ++b) {
            const double both =
                std::sqrt(fit.covariance(kept[a], kept[a]) * fit.covariance(kept[b], kept[b]));
            const double together = both > 0 ? fit.covariance(kept[a], kept[b]) / both : 0;
            pack.fit.correlation.push_back(std::round(kCorrelationDigits * std::clamp(together, -1.0, 1.0)) /
                                           kCorrelationDigits);
        }
}

// What departs further from the laws than a pack may say is no paper but a label.
void require_lawful(const ErrorSizes& errors, std::span<const StripFit> strips) {
    const double most = pack_number("scatter.law")->maximum;
    if (errors.law <= most || strips.empty()) return;
    const StripFit& farthest = *std::ranges::max_element(strips, {}, &StripFit::rms);
    throw Error(Fault::data, "readings",
                "no single paper fits all of them: they miss the laws by " + fixed(errors.law, 2) +
                    " D, strip \"" + farthest.label + "\" most of all",
                "up to " + decimal(most, 2) +
                    " D: check this strip's labels, and that its densities stand in the order of its bands");
}

// Beside the numbers of the laws, together with none of them.
void put_sheet_scatter(PackFit& result, const Pack& before, const SheetScatter& sheet) {
    const SheetScatter usual = usual_sheet_scatter();
    const Origin state = state_after(sheet.deviation / usual.deviation, Origin::assumed);
    result.pack.sheet_scatter = sheet.value;
    result.pack.knowledge[kSheet] = {state, sheet.deviation};
    FitRecord& record = result.pack.fit;
    record.correlation.insert(record.correlation.end(), record.numbers.size(), 0);
    record.numbers.push_back({kSheet, before.sheet_scatter, before.known(kSheet)});
    result.numbers.push_back({kSheet, usual.value, usual.deviation, sheet.value, sheet.deviation, state});
}

// Fits in turn with what is learnt from their residuals: the errors of readings, of sheets and of the laws,
// and how far the paper departs from these.
class Settling {
  public:
    Settling(Prior& prior, std::optional<double> stated_sheets)
        : prior_(prior),
          is_stated_(stated_sheets.has_value()),
          sheet_(is_stated_ ? SheetScatter{*stated_sheets, 0} : usual_sheet_scatter()) {
        errors_ = {0.01, 0.01, sheet_.value};
    }

    [[nodiscard]] Fitted settled(std::span<const Reading> readings) {
        if (readings.size() <= kMany) {
            Fitter fitter(prior_, readings);
            return settled(fitter, readings, kRounds, kMostSteps);
        }
        const std::vector<Reading> few = fewer_of(readings, prior_.pack, kMany);
        Fitter of_few(prior_, few);
        Fitted fit = settled(of_few, few, kFewRounds, kFewSteps);
        if (!fit.usable()) return fit;
        // How they err all readings tell better, and the way from there is long only where it is cheap.
        Fitter of_all(prior_, readings);
        const Fitted shown = near(of_all, fit, 1);
        if (!shown.usable()) return shown;
        learn(of_all.likeness(), shown, readings);
        fit = near(of_few, fit, kMostSteps, double(readings.size()) / double(few.size()));
        return fit.usable() ? near(of_all, fit, kMostSteps) : fit;
    }

    [[nodiscard]] const ErrorSizes& errors() const { return errors_; }
    [[nodiscard]] const SheetScatter& sheet() const { return sheet_; }
    [[nodiscard]] int steps() const { return steps_; }

  private:
    Fitted settled(Fitter& fitter, std::span<const Reading> readings, int rounds, int most_steps) {
        // From afar no reading is given up: fitted by the laws alone a paper may end in another valley.
        Fitted fit = fitter.fitted_from_afar(errors_, kMostSteps);
        steps_ += fit.steps;
        for (int round = 1; round < rounds && fit.usable(); ++round) {
            learn(fitter.likeness(), fit, readings);
            fit = near(fitter, fit, most_steps);
        }
        return fit;
    }

    Fitted near(Fitter& fitter, const Fitted& from, int most_steps, double stand_for = 1) {
        Fitted fit = fitter.fitted_near(errors_, from.mean, most_steps, stand_for);
        steps_ += fit.steps;
        return fit;
    }

    void learn(const Likeness& likeness, const Fitted& fit, std::span<const Reading> readings) {
        errors_ = learnt_errors(readings, likeness, errors_, residuals_of(fit, readings), fit.free_numbers);
        if (!is_stated_) sheet_ = learnt_sheet_scatter(likeness, errors_, fit);
        errors_.sheet = sheet_.value;
        departs_ = learnt_departure(prior_, likeness, errors_, fit, departs_);
        scale_departure(prior_, departs_);
    }

    Prior& prior_;
    bool is_stated_;
    SheetScatter sheet_;
    ErrorSizes errors_;
    double departs_ = 1;  // times as far as usual
    int steps_ = 0;
};

}  // namespace

bool StripFit::stands_off() const {
    return std::abs(mean) > std::max(kStandsOff, kBeyondErrors * mean_error);
}

std::string PackFit::in_words() const {
    if (ending == Ending::failed) return "failed: no pack reproduces these readings";
    if (ending == Ending::singular) return "the readings do not determine one of the numbers";
    std::string words = ending == Ending::converged ? "converged" : "out of steps";
    if (contradictions.empty()) return words;
    words += "; the readings contradict each other:";
    for (const auto& c : contradictions) {
        words += " strip \"" + c.strip + "\" is " + fixed(c.rms, 2) + " D off what the other strips say";
        words += c.better ? ", with " + *c.better + " it would be " + fixed(*c.rms_better, 2) + " D;"
                          : ", no other label tried fits it better;";
    }
    words.pop_back();
    return words;
}

PackFit fitted_pack(const Pack& given, std::span<const Reading> further, const std::string& origin) {
    Pack before = unfitted(given);
    PackFit result;
    refuse_doubles({further, origin});
    result.readings = before.readings.rows();
    refuse_doubles({result.readings, "the pack's [readings]"}, {further, origin},
                   "fit only readings that the pack does not keep, or fit without --pack");
    result.readings.insert(result.readings.end(), further.begin(), further.end());
    if (result.readings.empty()) throw Error(Fault::data, "readings", "there are none", "at least one");
    before.darkroom.enlarger.anchor_carrier = zero_of(before, result.readings);
    refuse_backward_strips(result.readings, before, origin);

    const Pack as_stated = before;
    const auto deepened = deepen_surface(before, result.readings);

    const Prior stated = prior_for(before, result.readings);
    const std::vector<Reading> readings = with_stated_densities(result.readings, before);
    Prior prior = prior_for(before_stated_densities(before, readings), result.readings);
    const bool is_stated = before.known(kSheet).origin != Origin::assumed;
    Settling settling(prior, is_stated ? std::optional(before.sheet_scatter) : std::nullopt);
    const Fitted fit = settling.settled(readings);
    const ErrorSizes& errors = settling.errors();
    result.steps = settling.steps();
    result.ending = fit.ending;
    if (!fit.usable())
        throw Error(Fault::data, "readings", "the fit failed", "readings that one pack could show");

    const std::vector<double> residuals = residuals_of(fit, result.readings);
    result.fitted = fit.densities;
    result.fitted.resize(result.readings.size());
    result.rms = rms_of(residuals);
    result.strips = strips_of(result.readings, residuals, errors.reading);
    result.reading_error = errors.reading;
    result.contradictions = contradictions_in(prior, readings, errors, fit);
    require_lawful(errors, result.strips);
    result.warnings = fit_warnings(prior, readings, errors, fit, result.contradictions, is_stated);

    if (deepened) result.warnings.insert(result.warnings.begin(), *deepened);

    result.pack = prior.pack;
    result.pack.knowledge = before.knowledge;
    for (std::size_t i = 0; i < prior.unknowns.size(); ++i)
        if (fit.active[i] || is_always_told(prior.unknowns[i]))
            prior.unknowns[i].put(result.pack, fit.mean[Eigen::Index(i)]);
    put_knowledge(result, stated, fit);
    if (deepened) keep_stated_surface(result.pack.fit, as_stated);
    result.pack.fit.prior_anchored = before.darkroom.anchored;
    result.pack.darkroom.anchored =
        before.darkroom.anchored || std::ranges::any_of(result.readings, [&](const auto& reading) {
            return shows_light(reading, before);
        });
    result.pack.law_scatter = errors.law;
    if (!is_stated) put_sheet_scatter(result, before, settling.sheet());
    result.pack.knowledge["scatter.law"] = {Origin::partly_measured, std::nullopt};
    result.pack.readings = before.readings.with(further, origin);
    check(result.pack, "fitted pack");
    static_cast<void>(paper_model(result.pack));
    return result;
}

}  // namespace fogproof::fit
