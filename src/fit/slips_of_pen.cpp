// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/slips_of_pen.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <iterator>
#include <map>
#include <numbers>
#include <ranges>
#include <set>

#include "base/words.hpp"
#include "fit/likeness.hpp"
#include "fit/stated_densities.hpp"
#include "fit/treated_patch.hpp"
#include "pack/grade_words.hpp"

namespace fogproof::fit {
namespace {

// Half a stop, a stop, a decimal point, either way.
constexpr std::array kSlips{std::numbers::sqrt2, 2.0, 10.0};

// Values of other strips that may have been meant, those of the most strips.
constexpr std::size_t kMostValues = 32;

// A column that a pen can get wrong.
struct Label {
    const char* name;
    const char* unit;
    bool needs_light;      ///< an unexposed slip has none
    bool needs_developer;  ///< a slip that was only fixed has none
    std::size_t most;  ///< how many of the factors apply, from the second on where there is only time in it
    double (*of)(const TreatedPatch&);
    void (*put)(Reading&, double);
};
constexpr std::array kLabels{
    Label{"filter", "", true, true, 0, [](const TreatedPatch& p) { return p.filter.value_or(0); },
          [](Reading& r, double v) { r.filter = v; }},
    Label{"bleach time", " s", false, false, 2, [](const TreatedPatch& p) { return p.bleach_s; },
          [](Reading& r, double v) { r.bleach_s = v; }},
    Label{"exposure", " s", true, true, 3, [](const TreatedPatch& p) { return p.exposure_s; },
          [](Reading& r, double v) { r.exposure_s = v; }},
    Label{"restrainer", " ml/L", false, true, 2, [](const TreatedPatch& p) { return p.restrainer_ml_l; },
          [](Reading& r, double v) { r.restrainer_ml_l = v; }},
    Label{"development", " s", false, false, 0, [](const TreatedPatch& p) { return p.develop_s; },
          [](Reading& r, double v) { r.develop_s = v; }},
};
// Small amounts are told to more decimals: "0.02" is not "0".
std::string told(double value) {
    return decimal(value, value < 1 ? 3 : 1);
}
constexpr const Label& kFilter = kLabels[0];
constexpr const Label& kExposure = kLabels[2];
constexpr const Label& kDevelopment = kLabels[4];

class Strips {
  public:
    Strips(std::span<const Reading> readings, const Pack& nominal)
        : readings_(readings.begin(), readings.end()), strips_(strips_in(readings)), nominal_(nominal) {
        for (const auto& reading : readings_) {
            const std::size_t row = patches_.size();
            patches_.push_back(treated(reading, nominal));
            rows_[reading.strip].push_back(row);
            if (const std::string sheet = sheet_of(reading.strip); sheet != reading.strip)
                rows_[sheet].push_back(row);
        }
    }

    // The value that all patches of a strip share; nothing where they differ.
    [[nodiscard]] std::optional<double> shared(const std::string& strip, const Label& label) const {
        std::optional<double> value;
        for (const std::size_t row : rows_of(strip)) {
            const TreatedPatch& patch = patches_[row];
            if (&label == &kExposure && exposure_guessed(readings_[row])) return std::nullopt;
            if ((label.needs_light && patch.exposure_s <= 0) ||
                (label.needs_developer && patch.develop_s <= 0))
                return std::nullopt;
            const double own = label.of(patch);
            if (value && *value != own) return std::nullopt;
            value = own;
        }
        return value;
    }

    [[nodiscard]] std::set<double> others_of(const std::string& strip, const Label& label, double own) const {
        std::map<double, std::size_t> strips_with;
        for (const auto& other : strips_)
            if (const auto value = shared(other, label); other != strip && value) ++strips_with[*value];
        std::vector<std::pair<double, std::size_t>> usual(strips_with.begin(), strips_with.end());
        std::ranges::stable_sort(usual, std::greater<>(), &std::pair<double, std::size_t>::second);
        std::set<double> values;
        for (std::size_t i = 0; i < std::min(usual.size(), kMostValues); ++i) values.insert(usual[i].first);
        if (&label == &kFilter)
            for (const auto& filter : nominal_.filters) values.insert(filter.grade);
        // The pack's own time and the shorter one that people take beside it.
        if (&label == &kDevelopment)
            values.insert(
                {nominal_.development.nominal_s, std::round(nominal_.development.nominal_s * 2 / 3)});
        for (std::size_t i = label.most == kSlips.size() ? 0 : 1; i <= label.most && i < kSlips.size(); ++i)
            if (own > 0 && label.most > 0) values.insert({own * kSlips[i], own / kSlips[i]});
        values.erase(own);
        return values;
    }

    [[nodiscard]] Relabelling relabelled(const std::string& strip, const Label& label, double own,
                                         double value) const {
        Relabelling made = unchanged(rows_of(strip));
        const auto words = [&](double of) { return &label == &kFilter ? grade_name(of, 1) : told(of); };
        made.words = std::string(label.name) + " " + words(value) + label.unit + " instead of " + words(own);
        if (&label == &kExposure) made.words += or_filter(strip, std::log2(value / own));
        change(made, strip, label, value);
        return made;
    }

    // Of a strip of bands, all seconds by the same factor: nothing where patches share theirs, and an
    // unexposed part stays one.
    [[nodiscard]] std::optional<Relabelling> all_seconds(const std::string& strip, double factor) const {
        std::set<double> seconds;
        for (const std::size_t row : rows_of(strip))
            if (patches_[row].exposure_s > 0 && patches_[row].develop_s > 0 &&
                !exposure_guessed(readings_[row]))
                seconds.insert(patches_[row].exposure_s);
        if (seconds.size() < 2) return std::nullopt;
        const auto in_seconds = [](double value) { return decimal(value, value < 1 ? 2 : 1); };
        const auto range = [&](double by) {
            return in_seconds(*seconds.begin() * by) + " to " + in_seconds(*seconds.rbegin() * by);
        };
        Relabelling made = unchanged(rows_of(strip));
        made.words =
            "exposures " + range(factor) + " s instead of " + range(1) + or_filter(strip, std::log2(factor));
        for (std::size_t i = 0; i < made.rows.size(); ++i)
            if (const double own = patches_[made.rows[i]].exposure_s;
                own > 0 && !exposure_guessed(readings_[made.rows[i]]))
                kExposure.put(made.readings[i], own * factor);
        return made;
    }

    // All labels given that both strips have and that differ; nothing where none does.
    [[nodiscard]] std::optional<Relabelling> swapped(const std::string& strip, const std::string& other,
                                                     std::span<const Label> labels) const {
        std::vector<std::size_t> both;
        std::ranges::set_union(rows_of(strip), rows_of(other), std::back_inserter(both));
        Relabelling made = unchanged(std::move(both));
        made.is_swap = true;
        made.with = other;
        std::string names;
        int count = 0;
        for (const auto& label : labels) {
            const auto own = shared(strip, label), value = shared(other, label);
            if (!own || !value || *own == *value) continue;
            change(made, strip, label, *value);
            change(made, other, label, *own);
            names = label.name;
            ++count;
        }
        if (count == 0 || (labels.size() > 1 && count == 1)) return std::nullopt;
        made.words =
            (labels.size() > 1 ? "labels exchanged" : names + " exchanged") + " with strip \"" + other + "\"";
        return made;
    }

  private:
    [[nodiscard]] std::vector<std::size_t> rows_of(const std::string& strip) const {
        const auto found = rows_.find(strip);
        return found == rows_.end() ? std::vector<std::size_t>{} : found->second;
    }
    [[nodiscard]] Relabelling unchanged(std::vector<std::size_t> rows) const {
        Relabelling made{std::move(rows), {}, {}, false, {}};
        for (const std::size_t row : made.rows) made.readings.push_back(readings_[row]);
        return made;
    }
    // Where no other strip was lit through a filter, its own speed does what another exposure would.
    [[nodiscard]] std::string or_filter(const std::string& strip, double stops) const {
        const auto filter = shared(strip, kFilter);
        if (!filter || nominal_.contrast == Contrast::graded) return {};
        for (std::size_t row = 0; row < patches_.size(); ++row)
            if (patches_[row].filter == filter && patches_[row].exposure_s > 0 &&
                !is_part_of(readings_[row].strip, strip))
                return {};
        return " or a filter " + grade_name(*filter, 1) + " that is " + decimal(std::abs(stops), 1) +
               " stop " + (stops < 0 ? "slower" : "faster") + " than taken";
    }
    void change(Relabelling& made, const std::string& strip, const Label& label, double value) const {
        for (auto& reading : made.readings)
            if (is_part_of(reading.strip, strip)) label.put(reading, value);
    }

    std::vector<Reading> readings_;
    std::vector<std::string> strips_;
    const Pack& nominal_;
    std::vector<TreatedPatch> patches_;
    std::map<std::string, std::vector<std::size_t>> rows_;  // of strips, and of sheets in halves
};

}  // namespace

std::vector<std::string> strips_in(std::span<const Reading> readings) {
    std::vector<std::string> strips;
    std::set<std::string> seen;
    for (const auto& reading : readings)
        if (seen.insert(reading.strip).second) strips.push_back(reading.strip);
    return strips;
}

std::vector<std::string> sheets_in_halves(std::span<const Reading> readings) {
    std::vector<std::string> sheets;
    std::set<std::string> halves;
    for (const auto& strip : strips_in(readings)) {
        const std::string sheet = sheet_of(strip);
        if (sheet != strip && !halves.insert(sheet).second) sheets.push_back(sheet);
    }
    return sheets;
}

std::vector<Reading> with_labels_of(const Relabelling& made, std::span<const Reading> readings) {
    std::vector<Reading> all(readings.begin(), readings.end());
    for (std::size_t i = 0; i < made.rows.size(); ++i) all[made.rows[i]] = made.readings[i];
    return all;
}

std::vector<Relabelling> slips_of_pen(std::span<const Reading> readings, const Pack& nominal,
                                      const std::string& strip, std::span<const std::string> partners) {
    const Strips strips(readings, nominal);
    // What the pack states was written in no row of these, so nothing of it can stand in another one.
    const auto is_stated = [&](const std::string& name) {
        const auto row = std::ranges::find(readings, name, &Reading::strip);
        return row != readings.end() && is_stated_density(*row);
    };
    std::vector<Relabelling> all;
    for (const auto& label : kLabels) {
        const auto own = strips.shared(strip, label);
        if (!own || (&label == &kFilter && nominal.contrast == Contrast::graded)) continue;
        for (const double value : strips.others_of(strip, label, *own))
            all.push_back(strips.relabelled(strip, label, *own, value));
    }
    for (const double slip : kSlips)
        for (const double factor : {slip, 1 / slip})
            if (auto made = strips.all_seconds(strip, factor)) all.push_back(std::move(*made));
    for (const auto& other : partners) {
        if (is_part_of(other, strip) || is_part_of(strip, other)) continue;
        if (is_stated(strip) || is_stated(other)) continue;
        for (const auto& label : kLabels)
            if (auto made = strips.swapped(strip, other, std::span(&label, 1)))
                all.push_back(std::move(*made));
        if (auto made = strips.swapped(strip, other, kLabels)) all.push_back(std::move(*made));
    }
    return all;
}

}  // namespace fogproof::fit
