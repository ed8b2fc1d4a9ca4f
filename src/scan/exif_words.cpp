// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What TIFF directories say: those of TIFF files and those in the EXIF data of others.
#include <algorithm>
#include <cmath>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "pixels/tiff_numbers.hpp"
#include "scan/file_words.hpp"

namespace fogproof::scan {
namespace {

using namespace pixels::tiff;

constexpr std::size_t kLongestTable = 65536;

void add_orientation(const TiffEntries& entries, FileWords& words) {
    const auto told = entries.number(kOrientation);
    if (!told) return;
    if (*told >= 1 && *told <= 8)
        words.orientation = int(*told);
    else
        words.notes.push_back("the orientation " + decimal(*told, 0) +
                              " of the file is none of 1 to 8; the scan is taken as it lies");
}

void add_resolution(const TiffEntries& entries, FileWords& words) {
    const auto x = entries.number(kXResolution), y = entries.number(kYResolution);
    if (!x && !y) return;
    const double unit = entries.number(kResolutionUnit).value_or(2);
    const double millimetres = unit == 1 ? 1.0 : unit == 2 ? 25.4 : unit == 3 ? 10.0 : 0.0;
    const auto is_length = [](const std::optional<double>& of) {
        return of && std::isfinite(*of) && *of >= 0;
    };
    if (millimetres > 0 && is_length(x) && is_length(y)) {
        words.x_per_mm = *x / millimetres;
        words.y_per_mm = *y / millimetres;
        return;
    }
    const auto shown = [](const std::optional<double>& of) {
        return !of ? "none" : std::isfinite(*of) ? decimal(*of, 1) : "no number";
    };
    words.notes.push_back(std::string("the resolution of the file (") + shown(x) + " across, " + shown(y) +
                          " down, unit " + decimal(unit, 0) + ") makes no sense and is set aside");
}

// One table of a value for every code, or three of them one behind the other; TIFF 6.0, section 20.
void add_transfer_function(const TiffEntries& entries, FileWords& words) {
    if (!entries.has(kTransferFunction)) return;
    const std::vector<double> bits = entries.numbers(kBitsPerSample, 16);
    const std::vector<double> all = entries.numbers(kTransferFunction, 3 * kLongestTable);
    const double deep = bits.empty() ? 1 : bits.front();
    const std::size_t each = deep >= 1 && deep <= 16 ? std::size_t(1) << std::size_t(deep) : 0;
    std::vector<std::vector<double>> tables;
    if (each != 0 && (all.size() == each || all.size() == 3 * each))
        for (auto from = all.begin(); from != all.end(); from += std::ptrdiff_t(each)) {
            tables.emplace_back(from, from + std::ptrdiff_t(each));
            // Here code 0 is black, whatever the file calls it.
            if (entries.number(kPhotometric) == 0.0) std::ranges::reverse(tables.back());
        }
    auto coding = tables.empty() ? std::nullopt : table_coding(std::move(tables));
    if (coding)
        words.codings.push_back({"TransferFunction tag", *std::move(coding)});
    else
        words.notes.push_back(
            "the TransferFunction tag of the file holds no rising table with a value for every code and is "
            "not used");
}

void add_colour_space(const TiffEntries& entries, FileWords& words) {
    const auto exif = entries.below(kExif);
    if (!exif) return;
    const auto space = exif->number(kColourSpace);
    const auto interop = exif->below(kInterop);
    const std::string index = interop ? interop->text(kInteropIndex, 16) : "";
    constexpr double kSrgb = 1, kUncalibrated = 65535;
    // Design rule for Camera File system (CIPA DC-009): R03 marks files in Adobe RGB, which EXIF itself has
    // no number for.
    if (space == kSrgb)
        words.codings.push_back({"EXIF colour space", coding_of(Encoding::srgb)});
    else if (index == "R03" && (!space || space == kUncalibrated))
        words.codings.push_back({"EXIF colour space", adobe_rgb_coding()});
}

// Sound files whose pixels nobody here decodes; TIFF 6.0, sections 8, 19, 21 and 22.
void add_not_read(const TiffEntries& entries, FileWords& words) {
    constexpr double kOldJpeg = 6, kJpeg = 7, kYcc = 6;
    const double coding = entries.number(kCompression).value_or(1);
    const std::vector<double> bits = entries.numbers(kBitsPerSample, 16),
                              kinds = entries.numbers(kSampleFormat, 16);
    const double deep = bits.empty() ? 1 : bits.front(), kind = kinds.empty() ? 1 : kinds.front();
    if (coding == kOldJpeg) {
        words.not_read = "holds JPEG data of the old kind (compression 6), which is not read";
    } else if (entries.number(kPhotometric) == kYcc && coding != kJpeg) {
        words.not_read = "holds YCbCr colours without JPEG, which are not read";
    }
    if (!words.not_read.empty()) {
        words.read_instead = "grey or RGB; save it as TIFF without compression";
        return;
    }
    constexpr double kUnsigned = 1, kSigned = 2, kFloat = 3, kUntold = 4;
    const bool is_read =
        (kind == kFloat && deep == 32) || ((kind == kUnsigned || kind == kUntold) && deep <= 16);
    if (is_read) return;
    const char* const name = kind == kFloat      ? "float"
                             : kind == kSigned   ? "signed"
                             : kind == kUnsigned ? "unsigned"
                                                 : "other";
    words.not_read = "has " + decimal(deep, 0) + "-bit " + name + " samples";
    words.read_instead = "unsigned 8 or 16 bit or 32-bit float";
}

}  // namespace

void add_placing(const TiffEntries& entries, FileWords& words) {
    add_orientation(entries, words);
    add_resolution(entries, words);
}

void add_exif(const TiffEntries& entries, FileWords& words) {
    add_placing(entries, words);
    add_colour_space(entries, words);
}

FileWords words_of_tiff(const std::filesystem::path& path) {
    FileWords words;
    const auto entries = TiffEntries::first(bytes_of(path));
    if (!entries) return words;  // to be refused by who reads the pixels
    add_placing(*entries, words);
    add_not_read(*entries, words);
    if (entries->is_empty(kIccProfile)) words.notes.push_back("the ICC tag of the file is empty");
    words.has_apart_alpha =
        entries->number(kSamplesPerPixel) == 2.0 && entries->number(kPlanarConfiguration) == 2.0;
    if (words.has_apart_alpha) words.notes.push_back("the second channel (alpha) of the scan is left aside");
    // The general reader opens such a file and gives up at its first pixel.
    if (entries->number(kSamplesPerPixel) > 2.0 && entries->number(kPlanarConfiguration) == 2.0 &&
        entries->has(kTileWidth))
        throw Error(Fault::data, path.string(), "holds its colours in planes of their own, in tiles",
                    "colours together in every pixel, or planes in strips");
    add_transfer_function(*entries, words);
    add_colour_space(*entries, words);
    return words;
}

}  // namespace fogproof::scan
