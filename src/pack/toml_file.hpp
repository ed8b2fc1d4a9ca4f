// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// TOML as packs and recipes use it: sections of keys, every value with the place it stands at, so that a
// refusal can name the line. Dates and lists of anything but numbers have no use here and are only named when
// refused.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/shortest.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::pack {

/// A kind of value that no key of ours takes.
struct TomlStranger {
    std::string kind;
};

struct TomlValue {
    std::string key;
    std::string place;  ///< "FILE:LINE"
    /// The last alternative is an inline table.
    std::variant<double, bool, std::string, TomlStranger, std::vector<double>, std::vector<TomlValue>>
        content;
};

struct TomlSection {
    std::string name;
    std::string place;
    bool repeated = false;  ///< [[name]]
    std::vector<TomlValue> values;
};

struct TomlFile {
    std::string place;
    std::vector<TomlValue> values;      ///< above the first section
    std::vector<TomlSection> sections;  ///< both in the order of the file
};

/// Reads a text of TOML 1.0. Throws Error(Fault::data) at the line of the first fault.
[[nodiscard]] TomlFile parsed_toml(std::string_view text, const std::string& place);

/// Refuses a file that does not say `key = version`.
void check_version(const TomlFile&, const std::string& key, int version);

/// Lowest and highest value of a number, and its unit (may be empty).
struct Limits {
    double minimum, maximum;
    std::string_view unit;
    bool are_grades = false;  ///< told by their names, 00 to 6
};

/// "0 to 0.5 D"
[[nodiscard]] std::string limits_in_words(const Limits&);
[[nodiscard]] bool within(double value, const Limits&);

/// The value as a number within limits, as a yes or no, as text, as one of some words; anything else is
/// refused with "FILE:LINE: key = found; expected: ...".
[[nodiscard]] double number_of(const TomlValue&, const Limits&);
/// The same, and a dilution "1+50" in quotes as its 50.
[[nodiscard]] double parts_of(const TomlValue&, const Limits&);
/// The same, and a grade in quotes ("00", "2 1/2") as its number.
[[nodiscard]] double grade_of(const TomlValue&, Limits);
[[nodiscard]] bool truth_of(const TomlValue&);
[[nodiscard]] std::string text_of(const TomlValue&);
[[nodiscard]] std::size_t choice_of(const TomlValue&, std::span<const std::string> words);

/// The value as numbers within limits, at least and at most so many.
[[nodiscard]] std::vector<double> numbers_of(const TomlValue&, const Limits&, std::size_t least,
                                             std::size_t most);

/// Throws "FILE:LINE: key = found; expected: ...".
[[noreturn]] void refuse_value(const TomlValue&, const std::string& allowed);

/// Refuses a name that is none of the candidates, naming the nearest one or all of them.
[[noreturn]] void refuse_unknown(const std::string& place, const std::string& what, const std::string& name,
                                 std::span<const std::string> candidates);

/// A grade as it stands in a file: "00" in quotes, any other plain.
[[nodiscard]] std::string grade_entry(double grade);
/// Text as a TOML basic string, line breaks kept by the long form.
[[nodiscard]] std::string toml_text(std::string_view text);

}  // namespace fogproof::pack
