// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Different values in the order in which they came first, and which one each that was added has.
#pragma once

#include <cstddef>
#include <map>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::fit {

template <class Value>
struct Numbered {
    std::vector<Value> values;
    std::vector<std::size_t> of;

    void add(const Value& value) {
        const auto [at, is_new] = number.emplace(value, values.size());
        if (is_new) values.push_back(value);
        of.push_back(at->second);
    }

  private:
    std::map<Value, std::size_t> number;
};

}  // namespace fogproof::fit
