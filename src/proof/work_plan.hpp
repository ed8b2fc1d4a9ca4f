// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// From negatives and a pack to what sheets for the darkroom wall hold: one for each negative, one for the
// session.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/remarks.hpp"
#include "choose/edge_advice.hpp"
#include "choose/pull.hpp"
#include "choose/session.hpp"
#include "choose/sheet_cost.hpp"
#include "choose/starting_point.hpp"
#include "choose/strip_place.hpp"
#include "fogproof/rooms.hpp"
#include "proof/small_picture.hpp"

namespace fogproof::proof {

/// What the printer has and likes.
struct WorkTerms {
    SheetLayout sheet;
    double litres = 1;           ///< in each tray
    double developer_parts = 9;  ///< N of the developer 1+N; the label knows better
    double alike = 1.0;          ///< L* by which prints of one bleach time may differ from their own best
    int together = 2;            ///< sheets in the bleach at once
    std::optional<int> sheets_left;
    Toner toner = Toner::none;  ///< that all prints go into in the end
};

/// One negative, worked out.
struct PlannedPrint {
    std::string name, wanted;  ///< its own name, and what its print is meant to look like
    Printing printing;
    StartingPoint point;
    TestStripPlace strip;
    Remarks remarks;            ///< on its scan
    double silver_g = 0;        ///< that its bleach has to take up
    BleachLatitude latitude{};  ///< times alike enough
    SheetCost cost{};
    std::optional<TellingPlace> telling{};  ///< where to watch it in the bleach
    std::optional<EdgeAdvice> edges{};      ///< where the sheet is fogged at its edges
    SmallPicture small{};                   ///< of the finished print; none where no sheets are written
};

/// What the session and the table of all numbers ask of a print: little, so that thousands find room.
struct SessionPrint {
    std::string name, wanted;
    struct Numbers {
        double grade, restrainer_ml_l, develop_s, black_stops, error_after_strip, first_sheet_good, silver_g;
        double clearing_percent, border_short;  ///< a negative share where there is no fog to clear; L*
        Interval exposure_s, bleach_s;
        Interval lightness_error;  ///< of the first sheet, as expected
        Seconds bleach;
        BleachBath bath;
        BleachLatitude latitude;
        SheetCost cost;
        std::optional<EdgeAdvice> edges;
        double degrees_turned;  ///< clockwise, of the scan to set its frame upright
        bool bleach_is_decided, brushes_bleach;
    } numbers;
    std::vector<std::string> warnings{};
    SmallPicture small{};  ///< of the finished print

    /// As bytes, for another process of this very program.
    [[nodiscard]] std::string packed() const;
    [[nodiscard]] static SessionPrint unpacked(std::string_view bytes);
};
[[nodiscard]] SessionPrint session_print(const PlannedPrint&);

/// `aspect` is width over height of the picture.
[[nodiscard]] PlannedPrint planned_print(std::string name, std::string wanted, Printing, StartingPoint,
                                         TestStripPlace, double aspect, const WorkTerms&);
/// The prints that want a bleach, in an order.
[[nodiscard]] Session planned_session(const std::vector<SessionPrint>&, const Pack&, const WorkTerms&);

}  // namespace fogproof::proof
