// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "proof/plan_proofs.hpp"

#include <algorithm>
#include <cmath>
#include <type_traits>

#include "base/words.hpp"
#include "pack/grade_words.hpp"

namespace fogproof::proof {
namespace {

double number_of(const AxisValue& value) {
    return std::visit(
        [](const auto& amount) {
            using Amount = std::remove_cvref_t<decltype(amount)>;
            if constexpr (std::is_same_v<Amount, double> || std::is_same_v<Amount, Toner>)
                return double(amount);
            else
                return amount.value;
        },
        value.amount);
}

// The place of a value on an axis, told as given; it takes the nearest one's unless it stands there already.
// The first value of a bleach axis is none, and stays for comparison.
std::size_t put_in(Axis& axis, double own, const std::string& exact, const std::string& told,
                   bool keep_first) {
    auto& values = axis.values;
    const auto away = [&](const AxisValue& value) { return std::abs(number_of(value) - own); };
    auto nearest = std::ranges::min_element(values, {}, away);
    constexpr double kSame = 1e-6;
    if (away(*nearest) < kSame) return std::size_t(nearest - values.begin());
    if (keep_first && nearest == values.begin()) ++nearest;
    *nearest = axis_value(axis.quantity, exact, "proofs");
    nearest->told = told;
    std::ranges::sort(values, {}, number_of);
    return std::size_t(std::ranges::min_element(values, {}, away) - values.begin());
}

}  // namespace

GridRequest plan_proofs(const PlannedPrint& print, const Wanted& wanted) {
    const Printing& printing = print.printing;
    const StartingPoint& point = print.point;
    GridRequest request;
    request.negative = print.name;
    request.base = point.recipe;
    // With the place's own local work, as the plan's seconds count it.
    request.wanted = printing.in_places(wanted, point.proof.steps);
    request.remarks = print.remarks;
    request.across = usual_across(printing, request.base);
    request.down = usual_down(printing, request.base, request.across);

    const auto column = request.across.quantity == AxisQuantity::grade
                            ? put_in(request.across, point.found.grade, grade_name(point.found.grade, 6),
                                     grade_name(point.found.grade), false)
                            : std::size_t(std::ranges::find(request.across.values, "+0", &AxisValue::told) -
                                          request.across.values.begin());
    const bool in_percent = point.proof.clearing_percent.has_value();
    const double depth = in_percent ? *point.proof.clearing_percent : point.proof.bleach.value;
    const std::string unit = in_percent ? "%" : "s";
    const auto row = put_in(request.down, depth, decimal(depth, 6) + unit,
                            (in_percent ? fixed(depth, 0) : two_digits(depth)) + unit, true);
    request.recommended = row * request.across.values.size() + column;
    return request;
}

}  // namespace fogproof::proof
