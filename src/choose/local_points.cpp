// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/local_points.hpp"

namespace fogproof::choose {

StartingPoints with_local_work(StartingPoints points, const Printing& printing,
                               const std::vector<LocalWork>& local) {
    const auto work = [&](StartingPoint& point) {
        point.recipe.local = local;
        point.proof = printing.proof(point.recipe, point.proof.exposures.front());
    };
    work(points.best);
    for (StartingPoint& point : points.by_grade) work(point);
    if (points.unbleached) work(*points.unbleached);
    if (points.after_strip) work(*points.after_strip);
    return points;
}

}  // namespace fogproof::choose
