// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "proof/work_plan.hpp"

#include <cstdint>
#include <cstring>
#include <type_traits>

#include "choose/pull.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/print/print_steps.hpp"

namespace fogproof::proof {
namespace {

Error incomplete() {
    return {Fault::internal, "session", "a print arrived incomplete"};
}

std::string with_length(const std::string& text) {
    const std::uint64_t size = text.size();
    return std::string(reinterpret_cast<const char*>(&size), sizeof size) + text;
}

std::vector<std::string> texts_with_lengths(std::string_view bytes) {
    std::vector<std::string> texts;
    while (!bytes.empty()) {
        std::uint64_t size = 0;
        if (bytes.size() < sizeof size) throw incomplete();
        std::memcpy(&size, bytes.data(), sizeof size);
        bytes.remove_prefix(sizeof size);
        if (bytes.size() < size) throw incomplete();
        texts.emplace_back(bytes.substr(0, size));
        bytes.remove_prefix(size);
    }
    return texts;
}

}  // namespace

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
    return {
        print.name,
        print.wanted,
        {point.found.grade,
         point.found.restrainer_ml_l,
         point.proof.steps.develop.time_s,
         point.proof.black_stops,
         point.lightness_error_after_strip,
         point.first_sheet_good,
         print.silver_g,
         point.proof.clearing_percent.value_or(-1),
         pull ? pull->border_ahead : 0,
         point.exposure_s,
         point.bleach_s,
         point.lightness_error,
         point.proof.bleach,
         bleach_bath(print.printing.pack(), point.recipe),
         print.latitude,
         print.cost,
         print.edges,
         print.remarks.degrees_turned,
         point.bleach_is_decided,
         std::ranges::any_of(point.proof.steps.local, [](const LocalStep& step) { return step.dose > 0; })},
        print.remarks.warnings,
        print.small};
}

std::string SessionPrint::packed() const {
    static_assert(std::is_trivially_copyable_v<Numbers>);
    std::string bytes(reinterpret_cast<const char*>(&numbers), sizeof numbers);
    for (const auto* text : {&name, &wanted, &small.jpeg}) bytes += with_length(*text);
    bytes += with_length(std::to_string(small.width)) + with_length(std::to_string(small.height));
    for (const auto& warning : warnings) bytes += with_length(warning);
    return bytes;
}

SessionPrint SessionPrint::unpacked(std::string_view bytes) {
    if (bytes.size() < sizeof(Numbers)) throw incomplete();
    SessionPrint print{};
    std::memcpy(&print.numbers, bytes.data(), sizeof(Numbers));
    const std::vector<std::string> texts = texts_with_lengths(bytes.substr(sizeof(Numbers)));
    constexpr std::size_t kFixed = 5;
    if (texts.size() < kFixed) throw incomplete();
    print.name = texts[0];
    print.wanted = texts[1];
    print.small = {texts[2], std::stoi(texts[3]), std::stoi(texts[4])};
    print.warnings.assign(texts.begin() + kFixed, texts.end());
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
