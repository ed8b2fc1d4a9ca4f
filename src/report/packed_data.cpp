// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/packed_data.hpp"

#include <libdeflate.h>

#include <cstdint>
#include <memory>

#include "fogproof/base/error.hpp"

namespace fogproof::report {
namespace {

constexpr int kBits = 13;
constexpr unsigned kLetters = 91;  // whose square is just above 2^13

// From # to ~, without < .
char letter(unsigned digit) {
    const char plain = char('#' + digit);
    return plain < '<' ? plain : char(plain + 1);
}

}  // namespace

PackedData in_letters(std::string_view bytes) {
    PackedData packed{{}, bytes.size()};
    packed.letters.reserve(bytes.size() * 16 / kBits + 2);
    std::uint32_t held = 0;
    int bits = 0;
    const auto put = [&] {
        const unsigned value = held & ((1u << kBits) - 1);
        packed.letters += letter(value / kLetters);
        packed.letters += letter(value % kLetters);
        held >>= kBits;
        bits -= kBits;
    };
    for (const char byte : bytes) {
        held |= std::uint32_t(std::uint8_t(byte)) << bits;
        bits += 8;
        if (bits >= kBits) put();
    }
    if (bits > 0) put();
    return packed;
}

PackedData deflated_letters(std::string_view bytes) {
    constexpr int kLevel = 9;
    const std::unique_ptr<libdeflate_compressor, void (*)(libdeflate_compressor*)> compressor(
        libdeflate_alloc_compressor(kLevel), libdeflate_free_compressor);
    if (!compressor) throw Error(Fault::unavailable, "libdeflate", "has no memory");
    std::string packed(libdeflate_zlib_compress_bound(compressor.get(), bytes.size()), '\0');
    packed.resize(
        libdeflate_zlib_compress(compressor.get(), bytes.data(), bytes.size(), packed.data(), packed.size()));
    return in_letters(packed);
}

}  // namespace fogproof::report
