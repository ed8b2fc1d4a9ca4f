// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What is refused, as it is said.
#pragma once

#include <gtest/gtest.h>

#include <string>

#include "fogproof/base/error.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {

/// The error that an action throws; a failure if it throws none.
inline Error refusal(const auto& action) {
    try {
        action();
    } catch (const Error& error) {
        return error;
    }
    ADD_FAILURE() << "nothing was refused";
    return {Fault::internal, "", ""};
}

/// Its words.
inline std::string words_of_refusal(const auto& action) {
    return refusal(action).what();
}

/// Its words, of a fault of this kind.
inline std::string refusal(Fault fault, const auto& action) {
    const Error error = refusal(action);
    EXPECT_EQ(error.fault(), fault) << error.what();
    return error.what();
}

}  // namespace fogproof::tests
