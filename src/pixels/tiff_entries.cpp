// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/tiff_entries.hpp"

#include <algorithm>
#include <bit>
#include <memory>

#include "pixels/tiff_numbers.hpp"
#include "system/file_descriptor.hpp"
#include "system/input_file.hpp"

namespace fogproof::pixels {
namespace {

using namespace tiff;

// A classic directory cannot hold more; no camera or scanner comes near.
constexpr std::uint64_t kMostEntries = 65535;

// Bytes of one value; 0 for types that nobody asks for.
std::size_t size_of(std::uint16_t type) {
    switch (type) {
        case kByte:
        case kAscii:
            return 1;
        case kShort:
            return 2;
        case kLong:
        case kFloat:
        case kIfd:
            return 4;
        case kRational:
        case kDouble:
        case kLong8:
        case kIfd8:
            return 8;
        default:
            return 0;
    }
}

}  // namespace

BytesAt bytes_of(const std::filesystem::path& path) {
    const auto file = std::make_shared<FileDescriptor>(opened_input(path));
    return [file](std::uint64_t place, std::span<std::byte> to) {
        const std::uint64_t size = file->size();
        return place <= size && to.size() <= size - place && !file->read(to.data(), to.size(), place);
    };
}

BytesAt bytes_of_part(BytesAt whole, std::uint64_t from, std::uint64_t size) {
    return [whole = std::move(whole), from, size](std::uint64_t place, std::span<std::byte> to) {
        return place <= size && to.size() <= size - place && whole(from + place, to);
    };
}

std::optional<TiffEntries> TiffEntries::first(BytesAt source) {
    TiffEntries made;
    made.source_ = std::move(source);
    std::byte head[16]{};
    if (!made.source_(0, std::span(head, 8))) return std::nullopt;
    if (head[0] != head[1] || (head[0] != std::byte('I') && head[0] != std::byte('M'))) return std::nullopt;
    made.big_endian_ = head[0] == std::byte('M');
    const auto version = made.whole(std::span(head + 2, 2));
    made.big_ = version == 43;
    if ((version != 42 && version != 43) || (made.big_ && !made.source_(0, head))) return std::nullopt;
    if (!made.read(made.whole(made.big_ ? std::span(head + 8, 8) : std::span(head + 4, 4))))
        return std::nullopt;
    return made;
}

std::optional<TiffEntries> TiffEntries::below(std::uint16_t tag) const {
    constexpr double kWhole = 0x1p53;  // a double holds every whole number up to here
    const auto place = number(tag);
    // A file may give this as a fraction of nothing, or as any floating-point number.
    if (!place || !(*place >= 0 && *place <= kWhole)) return std::nullopt;
    TiffEntries made;
    made.source_ = source_;
    made.big_endian_ = big_endian_;
    made.big_ = big_;
    if (!made.read(std::uint64_t(*place))) return std::nullopt;
    return made;
}

bool TiffEntries::read(std::uint64_t place) {
    const std::size_t head = big_ ? 8 : 2, each = big_ ? 20 : 12, field = big_ ? 8 : 4;
    std::byte number[8]{};
    if (!source_(place, std::span(number, head))) return false;
    const std::uint64_t count = whole(std::span(number, head));
    if (count > kMostEntries) return false;
    std::vector<std::byte> all(std::size_t(count) * each);
    if (!source_(place + head, all)) return false;
    for (std::size_t at = 0; at < all.size(); at += each) {
        const std::span<const std::byte> entry(all.data() + at, each);
        const auto tag = std::uint16_t(whole(entry.first(2)));
        Entry made{std::uint16_t(whole(entry.subspan(2, 2))), whole(entry.subspan(4, field)), 0};
        const std::size_t size = size_of(made.type);
        // Long values lie elsewhere.
        const bool is_here = size == 0 || made.count <= field / size;
        made.place = is_here ? place + head + at + 4 + field : whole(entry.subspan(4 + field, field));
        entries_.emplace(tag, made);
    }
    return true;
}

std::uint64_t TiffEntries::whole(std::span<const std::byte> bytes) const {
    std::uint64_t number = 0;
    for (std::size_t i = 0; i < bytes.size(); ++i)
        number = number << 8 | std::uint64_t(bytes[big_endian_ ? i : bytes.size() - 1 - i]);
    return number;
}

double TiffEntries::value(std::uint16_t type, std::span<const std::byte> bytes) const {
    switch (type) {
        case kRational:
            return double(whole(bytes.first(4))) / double(whole(bytes.last(4)));
        case kFloat:
            return std::bit_cast<float>(std::uint32_t(whole(bytes)));
        case kDouble:
            return std::bit_cast<double>(whole(bytes));
        default:
            return double(whole(bytes));
    }
}

std::vector<std::byte> TiffEntries::content(const Entry& entry, std::size_t size) const {
    std::vector<std::byte> bytes(std::size_t(entry.count) * size);
    if (!source_(entry.place, bytes)) bytes.clear();
    return bytes;
}

std::vector<double> TiffEntries::numbers(std::uint16_t tag, std::size_t most) const {
    const auto found = entries_.find(tag);
    if (found == entries_.end() || found->second.type == kAscii || found->second.count > most) return {};
    const std::size_t size = size_of(found->second.type);
    std::vector<double> values;
    const std::vector<std::byte> bytes = content(found->second, size);
    for (std::size_t at = 0; at < bytes.size(); at += size)
        values.push_back(value(found->second.type, std::span(bytes).subspan(at, size)));
    return values;
}

std::optional<double> TiffEntries::number(std::uint16_t tag) const {
    const std::vector<double> values = numbers(tag, 1);
    return values.empty() ? std::nullopt : std::optional(values.front());
}

std::string TiffEntries::text(std::uint16_t tag, std::size_t most) const {
    const auto found = entries_.find(tag);
    if (found == entries_.end() || found->second.type != kAscii || found->second.count > most) return {};
    std::string text;
    for (const std::byte each : content(found->second, 1)) {
        if (each == std::byte{0}) break;
        text += char(each);
    }
    return text;
}

}  // namespace fogproof::pixels
