// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/rescue.hpp"

#include <boost/math/tools/minima.hpp>

namespace fogproof::choose {

Rescue rescue(const Printing& printing, const Proof& made, Seconds bleached) {
    Recipe recipe = made.recipe;
    recipe.bleach = bleached;
    const auto step = [&](double seconds) {
        Recipe next = recipe;
        next.redevelop_s = seconds;
        next.toner = Toner::none;
        // What stands on the paper was exposed already, whatever comes after.
        const Proof proof = printing.timed_proof(next, made.exposures);
        return RescueStep{{seconds}, proof, printing.print(proof.steps).border().density};
    };
    Rescue rescue;
    for (const double seconds : {0.0, 5.0, 10.0, 20.0, 40.0, 80.0, 160.0})
        rescue.steps.push_back(step(seconds));
    constexpr double kLongest = 240;
    const double best =
        boost::math::tools::brent_find_minima(
            [&](double seconds) { return step(seconds).proof.lightness_error; }, 0.0, kLongest, 12)
            .first;
    rescue.best = step(best < 0.5 ? 0 : best);
    return rescue;
}

}  // namespace fogproof::choose
