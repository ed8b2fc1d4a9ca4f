// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/report/work_plan.hpp"

#include <cstring>
#include <type_traits>

#include "fogproof/base/error.hpp"
#include "fogproof/print/print_steps.hpp"

namespace fogproof {

PlannedPrint planned_print(std::string name, std::string wanted, Easel easel, StartingPoint point,
                           TestStripPlace strip, double aspect, const WorkTerms& terms) {
    PlannedPrint print{std::move(name), std::move(wanted), std::move(easel), std::move(point), strip, {}};
    const Proof& proof = print.point.proof;
    print.silver_g = lost_silver_g(lost_silver(print.easel, proof), terms.sheet, aspect);
    if (proof.bleach.value > 0) print.latitude = bleach_latitude(print.easel, proof, terms.alike);
    print.cost = sheet_cost(print.point.first_sheet_good);
    return print;
}

SessionPrint session_print(const PlannedPrint& print) {
    const StartingPoint& point = print.point;
    return {print.name,
            print.wanted,
            {point.found.grade, point.found.restrainer_ml_l, point.proof.steps.develop.time_s,
             point.proof.black_stops, point.found.lightness_error, point.first_sheet_good, print.silver_g,
             point.exposure_s, point.bleach_s, point.proof.bleach,
             bleach_bath(print.easel.pack(), point.recipe), print.latitude, print.cost}};
}

std::string SessionPrint::packed() const {
    static_assert(std::is_trivially_copyable_v<Numbers>);
    std::string bytes(reinterpret_cast<const char*>(&numbers), sizeof numbers);
    return bytes + name + '\0' + wanted;
}

SessionPrint SessionPrint::unpacked(std::string_view bytes) {
    const std::size_t end = bytes.find('\0', sizeof(Numbers));
    if (bytes.size() < sizeof(Numbers) || end == std::string_view::npos)
        throw Error(Fault::internal, "session", "a print arrived incomplete");
    SessionPrint print{std::string(bytes.substr(sizeof(Numbers), end - sizeof(Numbers))),
                       std::string(bytes.substr(end + 1)),
                       {}};
    std::memcpy(&print.numbers, bytes.data(), sizeof(Numbers));
    return print;
}

Session planned_session(const std::vector<SessionPrint>& prints, const Pack& pack, const WorkTerms& terms) {
    std::vector<WaitingPrint> waiting;
    std::vector<std::size_t> index;
    for (std::size_t i = 0; i < prints.size(); ++i) {
        const SessionPrint::Numbers& print = prints[i].numbers;
        if (print.bleach.value <= 0) continue;
        waiting.push_back({prints[i].name, print.bath, print.bleach, print.latitude, print.silver_g});
        index.push_back(i);
    }
    if (waiting.empty()) return {};
    Session session = bleaching_session(waiting, paper_model(pack).bleach,
                                        {terms.litres, terms.together, SessionTerms{}.between_s});
    for (SessionBatch& batch : session.batches)
        for (std::size_t& print : batch.prints) print = index[print];
    return session;
}

}  // namespace fogproof
