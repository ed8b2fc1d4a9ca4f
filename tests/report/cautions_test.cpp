// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What cautions tell people to do.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/cautions.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;

// Hydrogen sulphide deadens the sense of smell: that the smell is gone does not tell that the gas is.
TEST(Cautions, OfSulphideSendPeopleAwayWhenTheSmellGoes) {
    EXPECT_THAT(toner_caution(Toner::sulphide),
                AllOf(HasSubstr("If the smell seems to go away, stop and leave at once"),
                      HasSubstr("numbs the sense of smell"), HasSubstr("dangerous amount")));
}

}  // namespace
}  // namespace fogproof::tests
