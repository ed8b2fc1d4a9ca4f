// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/tiff_directory.hpp"
#include "pixels/tiff_numbers.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstring>
#include <limits>

namespace fogproof::pixels {
namespace {

using namespace tiff;

using Bytes = std::vector<std::byte>;

template <class Value>
void put(Bytes& bytes, Value value) {
    const std::size_t place = bytes.size();
    bytes.resize(place + sizeof value);
    std::memcpy(bytes.data() + place, &value, sizeof value);
}

struct Entry {
    std::uint16_t tag, type;
    std::uint64_t count;
    Bytes value;
};

template <class Value>
Entry entry(Tag tag, Type type, const std::vector<Value>& values) {
    Entry made{tag, type, values.size(), {}};
    for (const Value value : values) put(made.value, value);
    return made;
}

Entry one_short(Tag tag, int value) {
    return entry(tag, kShort, std::vector{std::uint16_t(value)});
}

// As many decimals as fit.
Entry rational(Tag tag, double value) {
    std::uint32_t denominator = 1;
    while (denominator < 1'000'000'000u &&
           value * denominator * 10 < std::numeric_limits<std::uint32_t>::max())
        denominator *= 10;
    Entry made =
        entry(tag, kRational, std::vector{std::uint32_t(std::lround(value * denominator)), denominator});
    made.count = 1;
    return made;
}

Entry blob(Tag tag, Type type, const void* data, std::size_t size) {
    const auto* first = static_cast<const std::byte*>(data);
    return {tag, type, size, Bytes(first, first + size)};
}

// In rising order of tags, as the format asks.
std::vector<Entry> entries_of(const TiffPicture& picture, std::span<const StoredStrip> strips, bool big) {
    std::vector<std::uint64_t> offsets;
    std::vector<std::uint32_t> narrow_offsets, counts;
    for (const StoredStrip& strip : strips) {
        offsets.push_back(strip.offset);
        narrow_offsets.push_back(std::uint32_t(strip.offset));
        counts.push_back(std::uint32_t(strip.bytes));
    }
    const auto each = [&](int value) {
        return std::vector<std::uint16_t>(std::size_t(picture.channels), std::uint16_t(value));
    };
    constexpr int kDeflate = 8, kNone = 1, kRgb = 2, kBlackIsZero = 1, kTopLeft = 1, kContiguous = 1,
                  kCentimetre = 3, kHorizontal = 2, kUnsigned = 1;
    std::vector<Entry> entries{
        entry(kImageWidth, kLong, std::vector{std::uint32_t(picture.width)}),
        entry(kImageLength, kLong, std::vector{std::uint32_t(picture.height)}),
        entry(kBitsPerSample, kShort, each(picture.bits)),
        one_short(kCompression, picture.deflate ? kDeflate : kNone),
        one_short(kPhotometric, picture.channels == 3 ? kRgb : kBlackIsZero),
        big ? entry(kStripOffsets, kLong8, offsets) : entry(kStripOffsets, kLong, narrow_offsets),
        one_short(kOrientation, kTopLeft),
        one_short(kSamplesPerPixel, picture.channels),
        entry(kRowsPerStrip, kLong, std::vector{std::uint32_t(picture.lines_per_strip)}),
        entry(kStripByteCounts, kLong, counts),
        rational(kXResolution, picture.pixels_per_mm * 10),
        rational(kYResolution, picture.pixels_per_mm * 10),
        one_short(kPlanarConfiguration, kContiguous),
        one_short(kResolutionUnit, kCentimetre)};
    if (picture.deflate) entries.push_back(one_short(kPredictor, kHorizontal));
    entries.push_back(entry(kSampleFormat, kShort, each(kUnsigned)));
    if (!picture.xmp.empty()) entries.push_back(blob(kXmp, kByte, picture.xmp.data(), picture.xmp.size()));
    entries.push_back(blob(kIccProfile, kUndefined, picture.icc.data(), picture.icc.size()));
    return entries;
}

void pad(Bytes& bytes, std::size_t to) {
    bytes.resize((bytes.size() + to - 1) / to * to);
}

void put_number(Bytes& bytes, std::uint64_t value, bool wide) {
    if (wide)
        put(bytes, value);
    else
        put(bytes, std::uint32_t(value));
}

}  // namespace

std::vector<std::byte> tiff_head(const TiffPicture& picture, std::span<const StoredStrip> strips) {
    const bool big = double(picture.pixel_bytes()) > kLargestClassicTiff;
    const std::vector<Entry> entries = entries_of(picture, strips, big);
    const std::size_t head = big ? 16 : 8, each = big ? 20 : 12, number = big ? 8 : 4;

    Bytes bytes;
    put(bytes, std::endian::native == std::endian::little ? std::uint16_t(0x4949) : std::uint16_t(0x4d4d));
    put(bytes, std::uint16_t(big ? 43 : 42));
    if (big) put(bytes, std::uint32_t(8));  // an offset has 8 bytes, and two of zero
    put_number(bytes, head, big);
    if (big)
        put(bytes, std::uint64_t(entries.size()));
    else
        put(bytes, std::uint16_t(entries.size()));
    Bytes behind;  // values too long for their entry
    std::size_t behind_at = bytes.size() + entries.size() * each + number;
    behind_at = (behind_at + 7) / 8 * 8;
    for (const Entry& one : entries) {
        put(bytes, one.tag);
        put(bytes, one.type);
        put_number(bytes, one.count, big);
        if (one.value.size() > number) {
            put_number(bytes, behind_at + behind.size(), big);
            behind.insert(behind.end(), one.value.begin(), one.value.end());
            pad(behind, 8);
        } else {
            bytes.insert(bytes.end(), one.value.begin(), one.value.end());
            bytes.resize(bytes.size() + number - one.value.size());
        }
    }
    put_number(bytes, 0, big);  // no further directory
    bytes.resize(behind_at);
    bytes.insert(bytes.end(), behind.begin(), behind.end());
    pad(bytes, 16);
    return bytes;
}

}  // namespace fogproof::pixels
