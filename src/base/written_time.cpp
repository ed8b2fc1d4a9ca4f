// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "base/written_time.hpp"

#include <cmath>

#include "base/words.hpp"

namespace fogproof::base {
namespace {

constexpr double kMinute_s = 60;

std::string_view without(std::string_view text, std::string_view unit) {
    if (text.ends_with(unit)) text.remove_suffix(unit.size());
    return trimmed(text);
}

// What stands before and behind a mark, both without a sign, the minutes without a fraction.
std::optional<double> minutes_and_seconds(std::string_view before, std::string_view behind) {
    const auto minutes = number_in(trimmed(before)), seconds = number_in(trimmed(behind));
    if (!minutes || !seconds || *minutes < 0 || *minutes != std::floor(*minutes) || *seconds < 0 ||
        *seconds >= kMinute_s)
        return std::nullopt;
    return *minutes * kMinute_s + *seconds;
}

}  // namespace

std::optional<double> seconds_in(std::string_view text) {
    text = trimmed(text);
    constexpr std::string_view kMin = "min";
    if (const auto mark = text.find(':'); mark != std::string_view::npos) {
        const auto behind = text.substr(mark + 1);
        // 1:5 may be meant as one and a half minute.
        if (behind.size() < 2 || behind[1] == '.') return std::nullopt;
        return minutes_and_seconds(text.substr(0, mark), behind);
    }
    if (const auto mark = text.find(kMin); mark != std::string_view::npos) {
        const auto behind = without(text.substr(mark + kMin.size()), "s");
        if (!behind.empty()) return minutes_and_seconds(text.substr(0, mark), behind);
        const auto minutes = number_in(trimmed(text.substr(0, mark)));
        return minutes && *minutes >= 0 ? std::optional(*minutes * kMinute_s) : std::nullopt;
    }
    return number_in(without(text, "s"));
}

}  // namespace fogproof::base
