// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A pack whose every number is given as exact, for tests of what a doubt would drown.
#pragma once

#include "pack/schema.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {

inline Pack exactly_known(Pack pack) {
    constexpr double kHardly = 1e-6;  // packs tell no deviation of nil
    for (const PackNumber& row : pack_numbers()) pack.knowledge[row.name()] = {Origin::given, kHardly};
    return pack;
}

}  // namespace fogproof::tests
