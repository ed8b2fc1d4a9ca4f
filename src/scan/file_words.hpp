// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a scan file says of itself, found by short walks of our own over its directory, chunks or segments:
// general readers leave out most of it, or spend minutes on what nobody asked for.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "pixels/tiff_entries.hpp"
#include "scan/coding.hpp"
#include "scan/scan.hpp"
#include "system/picture_kind.hpp"

namespace fogproof::scan {

/// A whole roll at 4000 dots an inch has some 250 000. Lines are kept by the hundred.
inline constexpr int kLongestSide = 300000;
/// What a refusal of a scan says is allowed.
inline const std::string kPictureAllowed = std::string("a ") + kPictureKinds + " picture";

struct ToldCoding {
    std::string place;  ///< that tells it: "gAMA chunk"
    Coding coding;
    bool outranks_profile = false;
};

/// A stretch of a file.
struct FilePart {
    std::uint64_t from, size;
};

struct FileWords {
    std::vector<ToldCoding> codings;  ///< beside an ICC profile; the one to believe first
    Notes notes;                      ///< what is said and cannot be used
    int orientation = 1;              ///< 1 to 8
    std::optional<double> x_per_mm, y_per_mm;
    bool has_apart_alpha = false;  ///< grey and alpha in planes of their own
    /// What the file holds that general readers refuse without a word that helps, and what to hand in
    /// instead; empty for everything else.
    std::string not_read, read_instead;
    /// All that a decoder needs of the file; empty for the file as it is.
    std::vector<FilePart> parts;
};

/// Throws Error(data) for a file whose structure is broken before its pixels begin.
[[nodiscard]] FileWords words_of_png(const std::filesystem::path&);
/// The same; also for more passes over the picture than any camera or scanner makes.
[[nodiscard]] FileWords words_of_jpeg(const std::filesystem::path&);
[[nodiscard]] FileWords words_of_tiff(const std::filesystem::path&);

/// Orientation, resolution and colour space as EXIF has them (CIPA DC-008, the first directory and the two
/// below it that are needed; nothing else is followed).
void add_exif(const TiffEntries&, FileWords&);
/// Orientation and resolution of a TIFF directory; what cannot be meant is noted.
void add_placing(const TiffEntries&, FileWords&);

}  // namespace fogproof::scan
