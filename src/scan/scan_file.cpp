// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/scan_file.hpp"

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "pixels/line_reader.hpp"
#include "scan/file_words.hpp"
#include "scan/part_source.hpp"
#include "scan/tiff_image.hpp"
#include "scan/vips_call.hpp"
#include "scan/vips_session.hpp"
#include "system/memory.hpp"
#include "system/picture_kind.hpp"
#include "system/progress.hpp"

namespace fogproof::scan {
namespace fs = std::filesystem;
namespace {

// Interlaced files are decoded whole before their first line is known.
constexpr double kMostPixelsInterlaced = 1e8;
// Inflating is most of the work on a coded scan, and every print passes over its scan twice.
constexpr std::uint64_t kMostKept = std::uint64_t(1) << 30;
constexpr char kStays[] = "a scan that stays as it is";

// A picture of this many pixels takes a moment to read, whatever its file promises; larger ones are held
// against the size of their file. No scan of film packs so tightly: grain does not compress. Deflate reaches
// 1032 to 1 on nothing at all.
constexpr double kBelievedPixels = 1e8, kTightestPacking = 200;

constexpr std::size_t kTellingBytes = 16;

// How a kind of picture is read. libvips is told its loader: asked to choose for itself, it would offer the
// file to formats that share the suffix, and would read "[options]" out of the file's name.
struct Reader {
    const char* loader;
    FileWords (*words)(const fs::path&);
};
Reader reader_of(PictureKind kind) {
    switch (kind) {
        case PictureKind::tiff:
            return {"tiffload", words_of_tiff};
        case PictureKind::png:
            return {"pngload", words_of_png};
        case PictureKind::jpeg:
            break;
    }
    return {"jpegload", words_of_jpeg};
}

// Only lines in their own order can be streamed; other turns need the picture at hand.
bool streams(int orientation) {
    return orientation <= 2;
}

// What else people hand in, in words.
std::string other_kind(std::string_view start) {
    using namespace std::string_view_literals;
    struct Known {
        std::size_t at;
        std::string_view magic;
        const char* words;
    };
    static constexpr Known kinds[] = {
        {0, "%PDF"sv, "a PDF document"},
        {0, "GIF8"sv, "a GIF picture"},
        {0, "BM"sv, "a BMP picture"},
        {8, "WEBP"sv, "a WebP picture"},
        {4, "ftypheic"sv, "a HEIF picture"},
        {4, "ftypavif"sv, "an AVIF picture"},
        {0, "8BPS"sv, "a layered picture"},
        {0, "PK\3\4"sv, "a ZIP archive"},
        {0, "\x1f\x8b"sv, "a gzip archive"},
        {0, "<svg"sv, "an SVG drawing"},
        {0, "<?xml"sv, "an XML document"},
        {0, "\0\0\0\x0cjP  "sv, "a JPEG 2000 picture"},
        {0, "\0\0\0\x0cJXL "sv, "a JPEG XL picture"},
        {0, "\xff\x0a"sv, "a JPEG XL picture"},
    };
    if (start.empty()) return "is empty";
    for (const auto& kind : kinds)
        if (start.size() > kind.at && start.substr(kind.at).starts_with(kind.magic))
            return std::string("is ") + kind.words;
    return "is no picture";
}

vips::VImage turned(vips::VImage image, int orientation) {
    switch (orientation) {
        case 2:
            return image.fliphor();
        case 3:
            return image.rot180();
        case 4:
            return image.flipver();
        case 5:
            return image.rot90().fliphor();
        case 6:
            return image.rot90();
        case 7:
            return image.rot270().fliphor();
        case 8:
            return image.rot270();
        default:
            return image;
    }
}

}  // namespace

ScanFile::ScanFile(fs::path path, double max_pixels, ReadBy read_by) : path_(std::move(path)) {
    const std::string start = beginning_of(path_, kTellingBytes);
    const auto kind = picture_kind_of(start);
    if (!kind) throw Error(Fault::data, path_.string(), other_kind(start), kPictureAllowed);
    if (read_by == ReadBy::lines && kind == PictureKind::tiff) tiff_ = TiffScan::open(path_, kMostKept);
    const Reader reader = reader_of(*kind);
    loader_ = reader.loader;
    words_ = reader.words(path_);
    // Lines in another order than they are stored in are not for the engine.
    orientation_ = words_.orientation;
    if (!streams(orientation_)) tiff_.reset();
    if (!tiff_ && words_.has_apart_alpha)
        throw Error(Fault::data, path_.string(),
                    "holds grey and alpha in planes of their own, turned or in an unusual coding",
                    "grey alone, or alpha beside grey in every pixel");
    if (!tiff_) read_header();
    require_sound(max_pixels);
}

void ScanFile::read_header() {
    const VipsWatch watch;
    try {
        header_ = load(VIPS_ACCESS_SEQUENTIAL);
    } catch (const vips::VError&) {
        if (!words_.not_read.empty())
            throw Error(Fault::data, path_.string(), words_.not_read, words_.read_instead);
        const std::string why = watch.complaint();
        throw Error(
            Fault::data, path_.string(),
            why.empty() ? "cannot be decoded, and the decoder gives no reason" : "is damaged (" + why + ")",
            kPictureAllowed);
    }
}

VipsBandFormat ScanFile::format() const {
    if (!tiff_) return header_->format();
    return tiff_->facts().bits == 16 ? VIPS_FORMAT_USHORT : VIPS_FORMAT_UCHAR;
}

int ScanFile::bytes_of_sample() const {
    return tiff_ ? tiff_->facts().bits / 8 : int(vips_format_sizeof(header_->format()));
}

int ScanFile::bands() const {
    return tiff_ ? tiff_->facts().samples : header_->bands();
}

VipsInterpretation ScanFile::interpretation() const {
    if (!tiff_) return header_->interpretation();
    const bool is_deep = tiff_->facts().bits == 16;
    if (tiff_->facts().is_rgb) return is_deep ? VIPS_INTERPRETATION_RGB16 : VIPS_INTERPRETATION_sRGB;
    return is_deep ? VIPS_INTERPRETATION_GREY16 : VIPS_INTERPRETATION_B_W;
}

int ScanFile::stored_width() const {
    return tiff_ ? tiff_->facts().width : header_->width();
}

int ScanFile::stored_height() const {
    return tiff_ ? tiff_->facts().height : header_->height();
}

void ScanFile::require_sound(double max_pixels) const {
    const double pixels = double(width()) * height();
    const std::string size =
        std::to_string(stored_width()) + " x " + std::to_string(stored_height()) + " pixels";
    const bool interlaced = is_interlaced();
    const double most = interlaced ? std::min(max_pixels, kMostPixelsInterlaced) : max_pixels;
    if (pixels > most)
        throw Error(
            Fault::data, path_.string(), size + (interlaced ? ", interlaced" : ""),
            "at most " + decimal(most / 1e6, 3) + " million pixels" + (interlaced ? " when interlaced" : ""));
    if (std::max(width(), height()) > kLongestSide)
        throw Error(Fault::data, path_.string(), size, "at most " + std::to_string(kLongestSide) + " a side");
    const double unpacked = pixels * bands() * bytes_of_sample();
    std::error_code unknown;
    const auto packed = double(fs::file_size(path_, unknown));
    if (pixels > kBelievedPixels && unpacked > kTightestPacking * packed)
        throw Error(Fault::data, path_.string(),
                    "promises " + decimal(unpacked / 1e6, 0) + " MB of picture in a file of " +
                        decimal(packed / 1e6, 3) + " MB",
                    "at most " + decimal(kTightestPacking, 0) + " to 1 above 100 million pixels");
    // Twice: as it is decoded, and turned.
    if (is_held_whole()) require_memory(std::uint64_t(2 * unpacked), path_.string());
}

vips::VImage ScanFile::load(VipsAccess access) const {
    vips_ready();
    const auto loaded = [access](const std::string& loader, auto from) {
        return made_by_vips([&](VipsImage** made) {
            const int memory = access == VIPS_ACCESS_RANDOM;  // else large ones go through a file in /tmp
            return vips_call(loader.c_str(), from, made, "access", access, "memory", memory, "fail_on",
                             VIPS_FAIL_ON_WARNING, nullptr);
        });
    };
    const vips::VImage image =
        words_.parts.empty() ? loaded(loader_, path_.c_str())
                             : loaded(loader_ + "_source", part_source(path_, words_.parts).get_source());
    if (somebody_listens()) tell_progress_of(image, "reading " + path_.filename().string());
    return image;
}

int ScanFile::pages() const {
    return header_ && header_->get_typeof("n-pages") != 0 ? header_->get_int("n-pages") : 1;
}

bool ScanFile::is_interlaced() const {
    return header_ && header_->get_typeof("interlaced") != 0;
}

bool ScanFile::is_held_whole() const {
    return is_interlaced() || !streams(orientation_);
}

std::vector<unsigned char> ScanFile::icc() const {
    if (tiff_) return tiff_->facts().icc;
    if (header_->get_typeof(VIPS_META_ICC_NAME) == 0) return {};
    std::size_t size = 0;
    const auto* data = static_cast<const unsigned char*>(header_->get_blob(VIPS_META_ICC_NAME, &size));
    return {data, data + size};
}

std::optional<double> ScanFile::pixels_per_mm() const {
    // Up to 300 dpi stand in files by habit, whatever was scanned, and libvips reports 25 or 72 where a file
    // says nothing.
    constexpr double kByHabit = 300.5 / 25.4;
    const auto& told = orientation_ < 5 ? words_.x_per_mm : words_.y_per_mm;
    const double resolution = told                    ? *told
                              : loader_ == "tiffload" ? 0
                              : orientation_ < 5      ? header_->xres()
                                                      : header_->yres();
    if (!(resolution > kByHabit && resolution < 4000)) return std::nullopt;
    return resolution;
}

vips::VImage ScanFile::as_stored() const {
    return loaded_again(VIPS_ACCESS_SEQUENTIAL);
}

vips::VImage ScanFile::loaded_again(VipsAccess access) const {
    if (tiff_) {
        tiff_->require_unchanged();
        const vips::VImage image = tiff_image(*tiff_);
        if (somebody_listens()) tell_progress_of(image, "reading " + path_.filename().string());
        return image;
    }
    try {
        return load(access);
    } catch (const vips::VError&) {
        vips_error_clear();
        throw Error(Fault::data, path_.string(), "has changed since it was opened", kStays);
    }
}

vips::VImage ScanFile::upright() const {
    const vips::VImage image =
        loaded_again(streams(orientation_) ? VIPS_ACCESS_SEQUENTIAL : VIPS_ACCESS_RANDOM);
    if (image.width() != stored_width() || image.height() != stored_height() || image.bands() != bands() ||
        image.format() != format())
        throw Error(Fault::data, path_.string(), "has changed since it was opened", kStays);
    return turned(image, orientation_);
}

}  // namespace fogproof::scan
