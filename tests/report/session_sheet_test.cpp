// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the session's sheet says of baths.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "bleach/bath_use.hpp"
#include "report/document.hpp"
#include "report/work_sheets.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

// Of so many alike prints, each giving the bath this share of what its chemistry allows; in one line.
std::string said_of_bath(int count, double share_of_capacity, const WorkTerms& terms) {
    const Pack pack;
    const BleachBath bath = pack.darkroom.bath;
    std::vector<SessionPrint> prints;
    for (int i = 0; i < count; ++i) {
        SessionPrint print{std::string(1, char('a' + i)), "fresh paper", {}};
        print.numbers.bath = bath;
        print.numbers.bleach = {100};
        print.numbers.bleach_s = {100, 80, 120};
        print.numbers.latitude = {{90}, {110}};
        print.numbers.silver_g = share_of_capacity * capacity_silver_g_l(bath) * terms.litres;
        prints.push_back(print);
    }
    std::string text =
        document_text(session_sheet(prints, planned_session(prints, pack, terms), pack, terms));
    for (std::size_t at = 0; (at = text.find("\n  ", at)) != std::string::npos;) text.replace(at, 3, " ");
    return text;
}

// Stoichiometry: a load that gives a bath 90 % of what it can take leaves a tenth of its ferricyanide, and a
// rate that goes with the strength falls to a tenth with it.
TEST(SessionSheet, ABathThatOneLoadUsesUpIsToldToBeTooSmall) {
    WorkTerms terms;
    terms.litres = 0.1;
    terms.together = 1;
    EXPECT_THAT(said_of_bath(3, 0.9, terms), AllOf(HasSubstr("90 % of what it could take: it would weaken"),
                                                   HasSubstr("Take at least 0.36 L"),
                                                   HasSubstr("after each sheet"), Not(HasSubstr("about 0"))));
    // Two that would be too much together go in one after the other.
    terms.together = 2;
    EXPECT_THAT(said_of_bath(2, 0.2, terms),
                AllOf(HasSubstr("2 tray loads"), Not(HasSubstr("would weaken"))));
    EXPECT_THAT(said_of_bath(2, 0.2, terms),
                AllOf(Not(HasSubstr("would weaken")), HasSubstr("about 1 such sheet,")));
    EXPECT_THAT(said_of_bath(2, 0.01, terms),
                AllOf(Not(HasSubstr("would weaken")), HasSubstr("about 25 such sheets")));
}

// Half and twice are a stop either side: on a pack without an anchor as on one with seconds.
TEST(SessionSheet, WithoutAnAnchorTheExposureIsToldWithItsDoubt) {
    Pack pack;
    pack.darkroom.anchored = false;
    SessionPrint print{"hut", "fresh paper", {}};
    print.numbers.black_stops = 1.5;
    print.numbers.exposure_s = {10, 5, 20};
    const std::vector<SessionPrint> prints{print};
    EXPECT_THAT(document_text(session_sheet(prints, planned_session(prints, pack, {}), pack, {})),
                HasSubstr("full black +1.5 stop (+/- 1.0)"));
}

}  // namespace
}  // namespace fogproof::tests
