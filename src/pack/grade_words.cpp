// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/grade_words.hpp"

#include "base/decimal_comma.hpp"
#include "base/words.hpp"
#include "fogproof/base/error.hpp"

namespace fogproof::pack {
namespace {

constexpr std::string_view kHalfSign = "\xC2\xBD";  // the one character for 1/2, in UTF-8

// The text before a half, however the half is written; nothing where there is none.
std::optional<std::string_view> before_half(std::string_view text) {
    for (const std::string_view half : {std::string_view("1/2"), kHalfSign})
        if (text.ends_with(half)) return text.substr(0, text.size() - half.size());
    return std::nullopt;
}

bool is_whole(std::string_view text) {
    return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

}  // namespace

std::optional<double> grade_in(std::string_view text) {
    text = trimmed(text);
    if (text == "00") return kGrade00;
    if (const auto rest = before_half(text)) {
        const std::string_view whole = trimmed(*rest);
        if (whole.empty()) return 0.5;
        // "11/2" may be 1 1/2 or eleven halves.
        const bool is_parted = rest->size() > whole.size() || text.ends_with(kHalfSign);
        if (!is_parted || !is_whole(whole) || whole.starts_with("00")) return std::nullopt;
        return *number_in(whole) + 0.5;
    }
    if (text.starts_with("00")) return std::nullopt;
    return number_in(text);
}

double grade_told(std::string_view text, const std::string& place) {
    const auto grade = grade_in(text);
    if (grade && (*grade >= 0 || trimmed(text) == "00")) return *grade;
    throw Error(Fault::usage, place, "\"" + std::string(text) + "\" is no grade" + comma_advice(text),
                std::string(kGradesAllowed) + (trimmed(text).find('-', 1) != std::string_view::npos
                                                   ? "; several values each by itself, as 1,2,3,4"
                                                   : ""));
}

std::string grade_name(double grade, int digits) {
    return grade == kGrade00 ? "00" : decimal(grade, digits);
}

std::string filter_words(Contrast contrast, double grade) {
    return contrast == Contrast::graded ? "without a filter" : "through grade " + grade_name(grade);
}

}  // namespace fogproof::pack
