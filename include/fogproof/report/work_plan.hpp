// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// From negatives and a pack to sheets for the darkroom wall: one for each negative, one for the session.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "fogproof/choose/session.hpp"
#include "fogproof/choose/sheet_cost.hpp"
#include "fogproof/choose/starting_point.hpp"
#include "fogproof/choose/strip_place.hpp"
#include "fogproof/report/document.hpp"

namespace fogproof {

/// What the printer has and likes.
struct WorkTerms {
    SheetLayout sheet;
    double litres = 1;           ///< in each tray
    double developer_parts = 9;  ///< N of the developer 1+N; the label knows better
    double alike = 1.0;          ///< L* by which prints of one bleach time may differ from their own best
    int together = 2;            ///< sheets in the bleach at once
    std::optional<int> sheets_left;
};

/// One negative, worked out.
struct PlannedPrint {
    std::string name, wanted;  ///< its own name, and what its print is meant to look like
    Easel easel;
    StartingPoint point;
    StripPlace strip;
    std::vector<std::string> notes;  ///< guesses taken with the scan
    double silver_g = 0;             ///< that its bleach has to take up
    BleachLatitude latitude{};       ///< times alike enough
    SheetCost cost{};
    std::vector<Block> pictures{};  ///< for the page
};

/// `aspect` is width over height of the picture.
[[nodiscard]] PlannedPrint planned_print(std::string name, std::string wanted, Easel, StartingPoint,
                                         StripPlace, double aspect, const WorkTerms&);
/// The prints that want a bleach, in an order.
[[nodiscard]] Session planned_session(const std::vector<PlannedPrint>&, const WorkTerms&);

[[nodiscard]] Document print_sheet(const PlannedPrint&, const WorkTerms&);
[[nodiscard]] Document session_sheet(const std::vector<PlannedPrint>&, const Session&, const WorkTerms&);
/// All numbers of both as JSON.
[[nodiscard]] std::string plan_json(const std::vector<PlannedPrint>&, const Session&, const WorkTerms&);

}  // namespace fogproof
