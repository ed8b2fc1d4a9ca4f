// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/report/work_plan.hpp"

#include "fogproof/print/print_steps.hpp"

namespace fogproof {

PlannedPrint planned_print(std::string name, std::string wanted, Easel easel, StartingPoint point,
                           StripPlace strip, double aspect, const WorkTerms& terms) {
    PlannedPrint print{std::move(name), std::move(wanted), std::move(easel), std::move(point), strip, {}};
    const Proof& proof = print.point.proof;
    print.silver_g = lost_silver_g(lost_silver(print.easel, proof), terms.sheet, aspect);
    if (proof.bleach.value > 0) print.latitude = bleach_latitude(print.easel, proof, terms.alike);
    print.cost = sheet_cost(print.point.first_sheet_good);
    return print;
}

Session planned_session(const std::vector<PlannedPrint>& prints, const WorkTerms& terms) {
    std::vector<WaitingPrint> waiting;
    std::vector<std::size_t> index;
    for (std::size_t i = 0; i < prints.size(); ++i) {
        const PlannedPrint& print = prints[i];
        if (print.point.proof.bleach.value <= 0) continue;
        waiting.push_back({print.name, bleach_bath(print.easel.pack(), print.point.recipe),
                           print.point.proof.bleach, print.latitude, print.silver_g});
        index.push_back(i);
    }
    if (waiting.empty()) return {};
    Session session = bleaching_session(waiting, prints.front().easel.paper().bleach,
                                        {terms.litres, terms.together, SessionTerms{}.between_s});
    for (SessionBatch& batch : session.batches)
        for (std::size_t& print : batch.prints) print = index[print];
    return session;
}

}  // namespace fogproof
