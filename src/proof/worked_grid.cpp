// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "proof/worked_grid.hpp"

#include <algorithm>

#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/grade_words.hpp"
#include "print/clearing.hpp"
#include "system/threads.hpp"

namespace fogproof::proof {

Axis usual_across(const Printing& printing) {
    if (printing.pack().contrast == Contrast::graded)
        return axis_of(AxisQuantity::exposure, {"-0.5", "+0", "+0.5", "+1"}, "across");
    auto grades = grades_of(printing.pack(), printing.paper());
    constexpr std::size_t kMost = 4;
    while (grades.size() > kMost) {
        // Drops the end that lies further from the middle grade of 2.5.
        if (2.5 - grades.front() >= grades.back() - 2.5)
            grades.erase(grades.begin());
        else
            grades.pop_back();
    }
    std::vector<std::string> told;
    for (const double grade : grades) told.push_back(grade_name(grade));
    return axis_of(AxisQuantity::grade, told, "across");
}

Axis usual_down(const Printing& printing, const Recipe& base) {
    if (clearing_dose(printing.paper(), develop_step(printing.pack(), base)))
        return axis_of(AxisQuantity::bleach, {"0%", "50%", "100%", "150%"}, "down");
    return axis_of(AxisQuantity::bleach, {"0s", "20s", "40s", "60s"}, "down");
}

WorkedGrid worked_grid(const Printing& printing, GridRequest request) {
    WorkedGrid grid;
    const std::size_t columns = request.across.values.size();
    grid.proofs.resize(columns * request.down.values.size());
    in_parallel(grid.proofs.size(), [&](std::size_t i) {
        const Recipe across = request.across.applied(request.base, i % columns);
        const Recipe recipe = request.down.applied(across, i / columns);
        const bool from_want = request.wanted && needs_start(recipe);
        grid.proofs[i] = from_want
                             ? printing.proof(recipe, printing.starting_exposure(recipe, *request.wanted))
                             : printing.proof(recipe);
    });
    const auto closest = std::ranges::min_element(grid.proofs, {}, &Proof::lightness_error);
    grid.closest = std::size_t(closest - grid.proofs.begin());
    grid.request = std::move(request);

    return grid;
}

}  // namespace fogproof::proof
