// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Files that are wrong in one stated way, made out of a line of text such as "bad.tif = first 40 of
// scan.tif".
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {

/// Text in which \n, \t, \\, \p (a bar) and \xHH stand for one byte each.
[[nodiscard]] std::string unescaped(std::string_view text);

[[nodiscard]] std::string little(std::uint32_t value, int bytes);
[[nodiscard]] std::string big(std::uint32_t value);

/// A little-endian TIFF of one strip of 8 KB, whatever its tags promise; TIFF 6.0. Words as "width=40".
[[nodiscard]] std::string tiff_of(const std::vector<std::string>& words);

/// A PNG of width, height, depth, colour type, interlacing and no lines at all; ISO/IEC 15948. The checksum
/// of its header is right (CRC-32, clause 5.5).
[[nodiscard]] std::string png_of(const std::vector<std::string>& words);

/// A file made as `told`, "NAME = HOW ...", for as long as this lives; "-" makes none. HOW is one of
///   text WORDS              these bytes
///   first N of FILE, but N of FILE        its first N bytes, or all but its last N
///   FILE at +N: BYTES       a copy with these bytes from N on; "at OLD +N:" counts from where OLD stands
///   FILE again              a copy
///   FILE grown to N         a copy with bytes of nothing behind it, N in all
///   FILE then WORDS         a copy and more
///   FILE for OLD => NEW     a copy with one text for another
///   tiff WORDS, png WORDS   see above
///   sparse N                N bytes of nothing
///   folder, pipe, link TARGET, unreadable FILE, shut folder
class WrongFile {
  public:
    WrongFile(const Program& program, const std::string& told);
    ~WrongFile();
    WrongFile(const WrongFile&) = delete;

    [[nodiscard]] const std::string& name() const { return name_; }
    /// True when only a user without special rights can meet this fault.
    [[nodiscard]] bool needs_plain_rights() const { return rights_; }

  private:
    void make(const Program& program);
    void write(const std::string& text) const;
    void shut();
    void require(bool good) const;

    std::string name_, how_;
    std::filesystem::path path_;
    bool rights_ = false;
};

}  // namespace fogproof::tests
