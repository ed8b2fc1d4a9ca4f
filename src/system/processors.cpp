// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/processors.hpp"

#include <algorithm>
#include <thread>

namespace fogproof::system {
namespace {

unsigned sharers = 1;

}  // namespace

unsigned processors() {
    return std::max(1u, std::thread::hardware_concurrency() / sharers);
}

void share_processors(unsigned processes) {
    sharers = std::max(1u, processes);
}

}  // namespace fogproof::system
