// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One fuzzer for libFuzzer; which one is said when it is compiled.
#include <algorithm>
#include <cstddef>
#include <cstdint>

#include "targets.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    static const auto target =
        std::ranges::find(fogproof::fuzz::targets(), FOGPROOF_FUZZ_TARGET, &fogproof::fuzz::Target::name);
    target->tried({reinterpret_cast<const char*>(bytes), size});
    return 0;
}
