// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "proof/curves.hpp"

#include <algorithm>
#include <iterator>
#include <set>
#include <vector>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/grade_words.hpp"
#include "print/axis.hpp"
#include "print/clearing.hpp"

namespace fogproof::proof {

CurveRequest curve_request(std::string_view text, const std::string& place) {
    CurveRequest request{std::string(trimmed(text)), {}};
    const std::string exposure = "exposure";
    std::vector<std::string> names;
    std::ranges::remove_copy(axis_names(), std::back_inserter(names), exposure);
    std::set<AxisQuantity> told;
    for (const auto& part : split(text, ',')) {
        if (trimmed(part.substr(0, part.find('='))) == exposure)
            throw Error(Fault::usage, place, exposure + " in \"" + request.label + "\"",
                        listed(names) + "; a curve runs over all exposures");
        const Axis axis = axis_in(part, place, names);
        if (!told.insert(axis.quantity).second)
            throw Error(Fault::usage, place, name_of(axis) + " twice in \"" + request.label + "\"", "once");
        request.recipe = axis.applied(request.recipe, 0);
    }
    return request;
}

std::vector<CurveRequest> usual_curves(const Pack& pack) {
    const PaperModel paper = paper_model(pack);
    const auto grades = grades_of(pack, paper);
    const auto request = [](double grade, const std::string& label) {
        CurveRequest plain{label, {}};
        plain.recipe.exposures.front().grade = grade;
        return plain;
    };
    const double middle = grades[(grades.size() - 1) / 2];
    std::vector<CurveRequest> curves;
    if (grades.front() < middle)
        curves.push_back(request(grades.front(), "grade " + grade_name(grades.front())));
    curves.push_back(request(middle, "grade " + grade_name(middle)));
    if (grades.back() > middle)
        curves.push_back(request(grades.back(), "grade " + grade_name(grades.back())));
    CurveRequest cleared = request(middle, "grade " + grade_name(middle) + ", bleached clear");
    cleared.recipe.bleach = ClearingPercent{100};
    if (clearing_dose(paper, develop_step(pack, cleared.recipe))) curves.push_back(cleared);
    return curves;
}

std::vector<LabelledCurve> worked_curves(const Pack& pack, std::span<const CurveRequest> requests) {
    std::vector<LabelledCurve> curves;
    for (const auto& request : requests)
        curves.push_back({request.label, working_curve(pack, request.recipe)});
    return curves;
}

}  // namespace fogproof::proof
