// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "proof/work_plan.hpp"

#include <cstring>
#include <type_traits>

#include "choose/pull.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/print/print_steps.hpp"

namespace fogproof::proof {

PlannedPrint planned_print(std::string name, std::string wanted, Printing printing, StartingPoint point,
                           TestStripPlace strip, double aspect, const WorkTerms& terms) {
    PlannedPrint print{std::move(name), std::move(wanted), std::move(printing), std::move(point), strip, {}};
    const Proof& proof = print.point.proof;
    print.silver_g = lost_silver_g(lost_silver(print.printing, proof), terms.sheet, aspect);
    if (proof.bleach.value > 0) print.latitude = bleach_latitude(print.printing, proof, terms.alike);
    print.cost = sheet_cost(print.point.first_sheet_good);
    return print;
}

SessionPrint session_print(const PlannedPrint& print) {
    const StartingPoint& point = print.point;
    const auto pull = moment_to_pull(print.printing, point);
    return {print.name,
            print.wanted,
            {point.found.grade, point.found.restrainer_ml_l, point.proof.steps.develop.time_s,
             point.proof.black_stops, point.lightness_error_after_strip, point.first_sheet_good,
             print.silver_g, point.proof.clearing_percent.value_or(-1), pull ? pull->border_ahead : 0,
             point.exposure_s, point.bleach_s, point.lightness_error, point.proof.bleach,
             bleach_bath(print.printing.pack(), point.recipe), print.latitude, print.cost, print.edges},
            print.remarks.warnings};
}

std::string SessionPrint::packed() const {
    static_assert(std::is_trivially_copyable_v<Numbers>);
    std::string bytes(reinterpret_cast<const char*>(&numbers), sizeof numbers);
    bytes += name + '\0' + wanted + '\0';
    for (const auto& warning : warnings) bytes += warning + '\0';
    return bytes;
}

SessionPrint SessionPrint::unpacked(std::string_view bytes) {
    const Error incomplete(Fault::internal, "session", "a print arrived incomplete");
    if (bytes.size() < sizeof(Numbers) || bytes.back() != '\0') throw incomplete;
    SessionPrint print{};
    std::memcpy(&print.numbers, bytes.data(), sizeof(Numbers));
    std::vector<std::string> texts;
    for (std::size_t from = sizeof(Numbers); from < bytes.size(); from += texts.back().size() + 1)
        texts.emplace_back(bytes.substr(from, bytes.find('\0', from) - from));
    if (texts.size() < 2) throw incomplete;
    print.name = std::move(texts[0]);
    print.wanted = std::move(texts[1]);
    print.warnings.assign(texts.begin() + 2, texts.end());
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

}  // namespace fogproof::proof
