// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/report/plan_proofs.hpp"

#include <algorithm>
#include <cmath>

#include "fogproof/base/words.hpp"

namespace fogproof {
namespace {

// The place of a value on an axis; it takes the nearest one's unless it stands there already. The first value
// of a bleach axis is none, and stays for comparison.
std::size_t put_in(std::vector<std::string>& values, double own, const std::string& unit, bool keep_first) {
    const auto number = [&](const std::string& value) {
        return number_in(value.substr(0, value.size() - unit.size())).value_or(0);
    };
    std::size_t nearest = 0;
    for (std::size_t i = 0; i < values.size(); ++i)
        if (std::abs(number(values[i]) - own) < std::abs(number(values[nearest]) - own)) nearest = i;
    constexpr double kSame = 1e-6;
    if (std::abs(number(values[nearest]) - own) < kSame) return nearest;
    if (keep_first && nearest == 0) nearest = 1;
    const std::string told = decimal(own, 6) + unit;
    values[nearest] = told;
    std::ranges::sort(values, {}, number);
    return std::size_t(std::ranges::find(values, told) - values.begin());
}

}  // namespace

GridRequest plan_proofs(const PlannedPrint& print, Wanted wanted) {
    const Easel& easel = print.easel;
    const StartingPoint& point = print.point;
    GridRequest request;
    request.negative = print.name;
    request.base = point.recipe;
    request.wanted = std::move(wanted);
    request.remarks = print.remarks;
    request.across = usual_across(easel);
    request.down = usual_down(easel, request.base);

    const auto column =
        request.across.quantity == AxisQuantity::grade
            ? put_in(request.across.values, point.found.grade, "", false)
            : std::size_t(std::ranges::find(request.across.values, "+0") - request.across.values.begin());
    const bool in_percent = point.proof.clearing_percent.has_value();
    const double depth = in_percent ? *point.proof.clearing_percent : point.proof.bleach.value;
    const auto row = put_in(request.down.values, depth, in_percent ? "%" : "s", true);
    request.recommended = row * request.across.values.size() + column;
    return request;
}

}  // namespace fogproof
