// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/fit_record.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "pack/schema.hpp"

namespace fogproof::pack {
namespace {

// Correlations are kept rounded; a matrix this close to one that can be is taken for it.
constexpr double kRounding = 0.01;

std::vector<std::string> words_in(std::string_view text) {
    std::vector<std::string> words;
    std::string word;
    for (const char c : std::string(text) + " ") {
        if (c != ' ' && c != '\n' && c != '\t' && c != '\r')
            word.push_back(c);
        else if (!word.empty())
            words.push_back(std::exchange(word, {}));
    }
    return words;
}

bool is_number_of(const Pack& pack, const std::string& name) {
    if (pack_number(name)) return true;
    return std::ranges::any_of(pack.filters, [&](const auto& filter) {
        return std::ranges::any_of(filter_numbers(), [&](const auto& row) {
            return row.key != "grade" && filter_number_name(filter, row.key) == name;
        });
    });
}

// Cholesky's decomposition goes through.
bool can_be(const FitRecord& fit) {
    const std::size_t n = fit.numbers.size();
    std::vector<double> root(n * n);
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t j = 0; j <= i; ++j) {
            double left = i == j ? 1 + kRounding : fit.correlated(i, j);
            for (std::size_t k = 0; k < j; ++k) left -= root[i * n + k] * root[j * n + k];
            if (i == j && !(left > 0)) return false;
            root[i * n + j] = i == j ? std::sqrt(left) : left / root[j * n + j];
        }
    return true;
}

FitRecord::Number number_in_line(const TomlValue& value, const std::string& line) {
    const auto parts = words_in(line);
    const auto refuse = [&] {
        throw Error(Fault::data, value.place, "\"" + line.substr(0, 60) + "\" in numbers",
                    "NAME VALUE SD ORIGIN, - for no SD");
    };
    if (parts.size() != 4) refuse();
    const auto prior = number_in(parts[1]), deviation = number_in(parts[2]);
    const auto origin = origin_of(parts[3]);
    if (!prior || !origin || (!deviation && parts[2] != "-") || (deviation && !(*deviation > 0))) refuse();
    return {parts[0], *prior, {*origin, deviation}};
}

}  // namespace

std::string fit_sections(const Pack& pack) {
    std::string text;
    if (!pack.readings.empty())
        text.append("\n# The readings behind the numbers above; a fit appends to them.\n[readings]\ntext = ")
            .append(toml_text(pack.readings.text()))
            .append("\n");
    if (pack.fit.numbers.empty()) return text;
    text.append("\n# What the numbers were before the fit (name, value, sd, from) and how they now err\n")
        .append("# together: correlations, row by row below the diagonal. Not made to be edited.\n[fit]\n")
        .append("anchored_before = ")
        .append(pack.fit.prior_anchored ? "true" : "false")
        .append("\nnumbers = \"\"\"\n");
    for (const auto& number : pack.fit.numbers) {
        const auto& known = number.prior_knowledge;
        text.append(number.name + " " + shortest(number.prior) + " ")
            .append(known.deviation ? shortest(*known.deviation) : "-")
            .append(" " + origin_words()[std::size_t(known.origin)] + "\n");
    }
    text.append("\"\"\"\ncorrelation = \"\"\"\n");
    for (std::size_t i = 1; i < pack.fit.numbers.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            text.append(shortest(pack.fit.correlated(i, j))).append(j + 1 == i ? "\n" : " ");
    return text.append("\"\"\"\n");
}

void read_readings(Pack& pack, const TomlSection& section) {
    for (const auto& entry : section.values) {
        if (entry.key != "text")
            refuse_unknown(entry.place, "key in [readings]:", entry.key, std::vector<std::string>{"text"});
        pack.readings = {text_of(entry), entry.place + " [readings]"};
    }
}

void read_fit(Pack& pack, const TomlSection& section) {
    const std::vector<std::string> keys{"anchored_before", "numbers", "correlation"};
    for (const auto& entry : section.values) {
        if (entry.key == keys[0]) {
            pack.fit.prior_anchored = truth_of(entry);
        } else if (entry.key == keys[1]) {
            for (const auto& line : split(text_of(entry), '\n'))
                if (!trimmed(line).empty()) pack.fit.numbers.push_back(number_in_line(entry, line));
        } else if (entry.key == keys[2]) {
            for (const auto& word : words_in(text_of(entry))) {
                const auto value = number_in(word);
                if (!value)
                    throw Error(Fault::data, entry.place, "\"" + word.substr(0, 60) + "\" in correlation",
                                "numbers from -1 to 1");
                pack.fit.correlation.push_back(*value);
            }
        } else {
            refuse_unknown(entry.place, "key in [fit]:", entry.key, keys);
        }
    }
}

void check_fit(const Pack& pack, const std::string& place) {
    const FitRecord& fit = pack.fit;
    const std::size_t n = fit.numbers.size(), pairs = n > 0 ? n * (n - 1) / 2 : 0;
    std::set<std::string> seen;
    for (const auto& number : fit.numbers) {
        if (!is_number_of(pack, number.name))
            throw Error(Fault::config, place, "[fit] knows \"" + number.name.substr(0, 60) + "\"",
                        "numbers of this pack");
        if (!seen.insert(number.name).second)
            throw Error(Fault::config, place, "[fit] has " + number.name + " twice", "once");
        if (!std::isfinite(number.prior))
            throw Error(Fault::config, place, "[fit] " + number.name + " was " + shortest(number.prior),
                        "finite numbers");
    }
    if (fit.correlation.size() != pairs)
        throw Error(Fault::config, place,
                    "[fit] has " + std::to_string(fit.correlation.size()) + " correlations of " +
                        std::to_string(n) + " numbers",
                    std::to_string(pairs));
    const bool in_range = std::ranges::all_of(fit.correlation, [](double c) { return c >= -1 && c <= 1; });
    if (!in_range || !can_be(fit))
        throw Error(Fault::config, place, "[fit] correlations contradict each other",
                    "what a fit has written");
}

}  // namespace fogproof::pack
