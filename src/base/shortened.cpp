// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/base/shortened.hpp"

namespace fogproof {

std::string_view shortened(std::string_view utf8, std::size_t bytes) {
    if (utf8.size() <= bytes) return utf8;
    // Bytes of the form 10xxxxxx go on with a character (RFC 3629).
    while (bytes > 0 && (static_cast<unsigned char>(utf8[bytes]) & 0xC0) == 0x80) --bytes;
    return utf8.substr(0, bytes);
}

}  // namespace fogproof
