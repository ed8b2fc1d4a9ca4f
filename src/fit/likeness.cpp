// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/likeness.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "fit/stated_densities.hpp"
#include "fit/treated_patch.hpp"
#include "pack/uncertainty.hpp"

namespace fogproof::fit {
namespace {

// How many neighbouring patches of a strip share one error of the law. Judgement.
constexpr double kAlike = 3;

// Strips named like the halves that strip_labels makes are one sheet, however far its halves were bleached.
struct Half {
    std::string sheet;
    bool is_half;
};
Half half_of(const std::string& label) {
    for (const std::string suffix : {"-before", "-bleached"})
        if (label.ends_with(suffix)) return {label.substr(0, label.size() - suffix.size()), true};
    return {label, false};
}

// Rows of patches of one piece of paper that were lit, from the least light to the most.
class LitPieces {
  public:
    LitPieces(std::span<const Reading> readings, std::span<const TreatedPatch> patches) {
        std::map<std::tuple<std::string, std::string, Treatment>, std::vector<std::size_t>> pieces;
        for (std::size_t i = 0; i < readings.size(); ++i) {
            log_light_.push_back(std::log10(std::max(patches[i].exposure_s, 1e-9)) -
                                 patches[i].wedge_density);
            if (patches[i].exposure_s > 0 && patches[i].develop_s > 0)
                pieces[{readings[i].instrument, readings[i].strip, treatment_of(patches[i])}].push_back(i);
        }
        for (auto& [piece, rows] : pieces) {
            std::ranges::stable_sort(rows, {}, [&](std::size_t i) { return log_light_[i]; });
            rows_.push_back(std::move(rows));
        }
    }
    [[nodiscard]] double log_light(std::size_t row) const { return log_light_[row]; }
    /// Asks of every lit patch with its neighbours, as many as a curve through the strip evens out:
    /// judgement.
    void each(const auto& ask) const {
        constexpr std::size_t kNeighbours = 2;  // to either side
        for (const auto& rows : rows_)
            for (std::size_t i = 0; i < rows.size(); ++i) {
                const std::size_t first = i < kNeighbours ? 0 : i - kNeighbours,
                                  last = std::min(i + kNeighbours, rows.size() - 1);
                ask(rows[i], std::span(rows).subspan(first, last - first + 1));
            }
    }

  private:
    std::vector<double> log_light_;
    std::vector<std::vector<std::size_t>> rows_;
};

// The errors that grow with density, each as it is in the mean of a patch and its neighbours on the strip.
// Told at the density that was read it follows the chance of that reading, and a fit then explains chance by
// an instrument that is off: it comes to lie below all readings (Peelle's puzzle; Fruehwirth, Neudecker and
// Leeb 2012).
std::vector<double> dark_errors(std::span<const Reading> readings, const LitPieces& pieces) {
    std::vector<double> even;
    for (const Reading& reading : readings) even.push_back(reading.dark_error.value_or(0));
    const std::vector<double> errors = even;
    pieces.each([&](std::size_t row, std::span<const std::size_t> around) {
        double sum = 0;
        for (const std::size_t i : around) sum += errors[i];
        even[row] = sum / double(around.size());
    });
    return even;
}

// D per log10 of light by which each patch darkens, as its neighbours show. A lone patch that was lit is
// taken to lie where curves rise, unless it is the black that a pack states.
std::vector<double> rises(std::span<const Reading> readings, const LitPieces& pieces) {
    std::vector<double> rises(readings.size(), 0);
    pieces.each([&](std::size_t row, std::span<const std::size_t> around) {
        double light = 0, density = 0;
        for (const std::size_t i : around) {
            light += pieces.log_light(i) / double(around.size());
            density += readings[i].density / double(around.size());
        }
        double square = 0, both = 0;
        for (const std::size_t i : around) {
            const double apart = pieces.log_light(i) - light;
            square += apart * apart, both += apart * (readings[i].density - density);
        }
        constexpr double kUsual = 2, kLeastApart = 0.1;  // log10
        rises[row] = square > kLeastApart * kLeastApart ? std::max(both / square, 0.0)
                     : is_stated_density(readings[row]) ? 0
                                                        : kUsual;
    });
    return rises;
}

}  // namespace

std::string sheet_of(const std::string& strip) {
    return half_of(strip).sheet;
}

bool is_part_of(const std::string& strip, const std::string& name) {
    return strip == name || sheet_of(strip) == name;
}

Treatment treatment_of(const TreatedPatch& p) {
    return {p.filter.value_or(-9), p.restrainer_ml_l, p.develop_s, p.bleach_s, p.bleach_parts, p.redevelop_s};
}

Likeness::Likeness(std::span<const Reading> readings, const Pack& nominal) {
    std::map<std::tuple<std::string, bool, Treatment>, std::vector<Eigen::Index>> sheets;
    std::map<std::tuple<Treatment, double, double>, std::vector<Eigen::Index>> repeats;
    std::map<std::string, std::vector<Eigen::Index>> instruments;
    for (const Reading& reading : readings) {
        const TreatedPatch& patch = patches_.emplace_back(treated(reading, nominal));
        const auto at = Eigen::Index(patches_.size()) - 1;
        // What a pack states may be a slip of the pen, which no other reading of such a patch shares.
        if (!is_stated_density(reading))
            repeats[{treatment_of(patch), patch.exposure_s, patch.wedge_density}].push_back(at);
        told_.push_back(reading.density_error.value_or(0));
        rough_.push_back(roughness(reading.density));
        if (reading.common_error || reading.dark_error) instruments[reading.instrument].push_back(at);
        if (patch.develop_s <= 0) continue;
        const auto [sheet, is_half] = half_of(reading.strip);
        TreatedPatch developed = patch;
        if (is_half) developed.bleach_s = developed.bleach_parts = developed.redevelop_s = 0;
        sheets[{sheet, is_half, treatment_of(developed)}].push_back(at);
    }
    repeated_.resize(patches_.size());
    for (const auto& [key, rows] : repeats) {
        if (rows.size() < 2) continue;
        for (const auto row : rows) {
            shares_.push_back({row, repeats_, Kind::repeat, 0});
            repeated_[std::size_t(row)] = true;
        }
        ++repeats_;
    }
    const LitPieces pieces(readings, patches_);
    const std::vector<double> rise = rises(readings, pieces), dark = dark_errors(readings, pieces);
    for (const auto& [key, rows] : sheets) {
        const auto column = repeats_ + sheets_;
        for (const auto row : rows) {
            shares_.push_back({row, column, Kind::sheet, 1});
            shares_.push_back({row, column + 1, Kind::sheet, pack::kSheetInLight * rise[std::size_t(row)]});
        }
        sheets_ += 2;
    }
    for (const auto& [name, rows] : instruments) {
        const auto column = repeats_ + sheets_ + instruments_;
        for (const auto row : rows) {
            const Reading& reading = readings[std::size_t(row)];
            shares_.push_back({row, column, Kind::instrument, reading.common_error.value_or(0)});
            shares_.push_back({row, column + 1, Kind::instrument, dark[std::size_t(row)]});
        }
        instruments_ += 2;
    }
}

Eigen::VectorXd Likeness::own(const ErrorSizes& errors) const {
    Eigen::VectorXd variance(Eigen::Index(patches_.size()));
    for (std::size_t i = 0; i < patches_.size(); ++i) {
        const double own = std::max(errors.reading * (errors.rises ? rough_[i] : 1), told_[i]);
        variance[Eigen::Index(i)] = own * own + (repeated_[i] ? 0 : kAlike * errors.law * errors.law);
    }
    return variance;
}

SharedErrors Likeness::shared(const ErrorSizes& errors) const {
    std::vector<Eigen::Triplet<double>> cells;
    for (const Share& share : shares_) {
        const double size = share.kind == Kind::repeat  ? std::sqrt(kAlike) * errors.law
                            : share.kind == Kind::sheet ? errors.sheet * share.size
                                                        : share.size;
        if (size > 0) cells.emplace_back(int(share.reading), int(share.column), size);
    }
    SharedErrors shared(Eigen::Index(patches_.size()), repeats_ + sheets_ + instruments_);
    shared.setFromTriplets(cells.begin(), cells.end());
    return shared;
}

ErrorSpread Likeness::spread(const ErrorSizes& errors) const {
    return {own(errors), shared(errors)};
}

Eigen::VectorXd Likeness::set_off(const ErrorSizes& errors, const Eigen::VectorXd& residuals) const {
    const SharedErrors columns = shared(errors);
    Eigen::VectorXd together = ErrorSpread(own(errors), columns).shared_in(residuals);
    together.head(repeats_).setZero();
    if (together.size() == 0) return residuals;
    return residuals - columns * together;
}

Likeness::StandsOut Likeness::stands_out(const ErrorSizes& errors, const Eigen::VectorXd& residuals) const {
    const Eigen::VectorXd together = ErrorSpread(own(errors), shared(errors)).shared_in(residuals);
    StandsOut out{set_off(errors, residuals), Eigen::VectorXd::Zero(residuals.size())};
    const Eigen::VectorXd variance = own(errors);
    for (Eigen::Index i = 0; i < residuals.size(); ++i) {
        const double of_patch = repeated_[std::size_t(i)] ? kAlike * errors.law * errors.law : 0;
        out.of_sheet[i] /= std::sqrt(variance[i] + of_patch);
    }
    if (together.size() == 0) return out;
    Eigen::VectorXd square = Eigen::VectorXd::Zero(residuals.size());
    for (const Share& share : shares_)
        if (share.kind == Kind::sheet) {
            out.with_sheet[share.reading] += share.size * together[share.column];
            square[share.reading] += share.size * share.size;
        }
    for (Eigen::Index i = 0; i < square.size(); ++i)
        if (square[i] > 0) out.with_sheet[i] /= std::sqrt(square[i]);
    return out;
}

}  // namespace fogproof::fit
