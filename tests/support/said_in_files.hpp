// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Chunks and directories in which picture files say what they are.
#pragma once

#include <cstdint>
#include <string>

#include "support/rooms.hpp"
#include "support/wrong_files.hpp"

namespace fogproof::tests {

// Length, name, content, CRC-32 (PNG, clause 5.3).
inline std::string chunk(const std::string& name, const std::string& content) {
    std::uint32_t sum = 0xffffffff;
    for (const char byte : name + content) {
        sum ^= static_cast<unsigned char>(byte);
        for (int bit = 0; bit < 8; ++bit) sum = sum >> 1 ^ (sum & 1 ? 0xedb88320u : 0u);
    }
    return big(std::uint32_t(content.size())) + name + content + big(~sum);
}

// A directory of EXIF (CIPA DC-008): colour space, and the index that tells Adobe RGB.
inline std::string exif(unsigned space, const std::string& index) {
    const auto entry = [](unsigned tag, unsigned type, unsigned count, unsigned value) {
        return little(tag, 2) + little(type, 2) + little(count, 4) + little(value, 4);
    };
    return "II*" + std::string(1, '\0') + little(8, 4) +                                       //
           little(1, 2) + entry(34665, 4, 1, 26) + little(0, 4) +                              // at 8
           little(2, 2) + entry(40961, 3, 1, space) + entry(40965, 4, 1, 56) + little(0, 4) +  // at 26
           little(1, 2) + little(1, 2) + little(2, 2) + little(4, 4) + index +
           std::string(1, '\0') +  // at 56
           little(0, 4);
}

}  // namespace fogproof::tests
