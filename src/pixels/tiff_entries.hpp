// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The directory of a TIFF, or of the EXIF data in other files, which has the same form (TIFF 6.0; BigTIFF as
// libtiff's authors describe it; CIPA DC-008). Read by us, since general readers keep silent on values that
// they do not believe, and one of them follows nested EXIF for minutes: here no directory is followed unless
// asked for by its tag, and no value longer than the asker allows is read.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::pixels {

/// Fills all of the bytes from a place on; false when the source ends before.
using BytesAt = std::function<bool(std::uint64_t place, std::span<std::byte>)>;
/// Of a file, which is opened once. Throws Error(Fault::no_input).
[[nodiscard]] BytesAt bytes_of(const std::filesystem::path&);
/// Of a part of another source.
[[nodiscard]] BytesAt bytes_of_part(BytesAt, std::uint64_t from, std::uint64_t size);

class TiffEntries {
  public:
    /// The first directory; nothing for what is no TIFF or ends before its directory does.
    static std::optional<TiffEntries> first(BytesAt);
    /// The directory that a tag of this one points to.
    [[nodiscard]] std::optional<TiffEntries> below(std::uint16_t tag) const;

    [[nodiscard]] bool has(std::uint16_t tag) const { return entries_.contains(tag); }
    /// True for a tag that stands there without a value.
    [[nodiscard]] bool is_empty(std::uint16_t tag) const {
        const auto found = entries_.find(tag);
        return found != entries_.end() && found->second.count == 0;
    }
    /// Its values; none when the tag is absent, holds no numbers or more than so many, or lies outside the
    /// file. A ratio over zero is not finite.
    [[nodiscard]] std::vector<double> numbers(std::uint16_t tag, std::size_t most) const;
    /// The same for one number.
    [[nodiscard]] std::optional<double> number(std::uint16_t tag) const;
    /// A text up to its first zero; empty under the same conditions.
    [[nodiscard]] std::string text(std::uint16_t tag, std::size_t most) const;

  private:
    struct Entry {
        std::uint16_t type;
        std::uint64_t count, place;  // of the value
    };
    [[nodiscard]] bool read(std::uint64_t place);
    [[nodiscard]] std::uint64_t whole(std::span<const std::byte>) const;
    [[nodiscard]] double value(std::uint16_t type, std::span<const std::byte>) const;
    [[nodiscard]] std::vector<std::byte> content(const Entry&, std::size_t size) const;

    BytesAt source_;
    bool big_endian_ = false, big_ = false;
    std::map<std::uint16_t, Entry> entries_;
};

}  // namespace fogproof::pixels
