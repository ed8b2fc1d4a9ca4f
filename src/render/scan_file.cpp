// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "render/scan_file.hpp"

#include <array>
#include <cerrno>
#include <cstring>
#include <fstream>

#include "fogproof/base/error.hpp"
#include "fogproof/base/words.hpp"
#include "render/vips_session.hpp"

namespace fogproof {
namespace fs = std::filesystem;
namespace {

// Interlaced files are decoded whole before their first line is known.
constexpr double kMostPixelsInterlaced = 1e8;

// The loader is chosen by content: asked to choose for itself, libvips would offer the file to formats that
// share the suffix, and would read "[options]" out of the file's name.
std::string loader_for(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file)
        throw Error(Fault::no_input, path.string(), std::string("cannot be read: ") + std::strerror(errno));
    std::array<char, 8> head{};
    file.read(head.data(), head.size());
    const std::string_view start(head.data(), std::size_t(file.gcount()));
    using namespace std::string_view_literals;
    for (const auto magic : {"II*\0"sv, "MM\0*"sv, "II+\0"sv, "MM\0+"sv})
        if (start.starts_with(magic)) return "tiffload";
    if (start.starts_with("\x89PNG\r\n\x1a\n"sv)) return "pngload";
    if (start.starts_with("\xff\xd8\xff"sv)) return "jpegload";
    return {};
}

// Only lines in their own order can be streamed; other turns need the picture at hand.
bool streams(int orientation) {
    return orientation <= 2;
}

void require_regular(const fs::path& path) {
    std::error_code fault;
    const auto status = fs::status(path, fault);
    if (!fs::exists(status)) throw Error(Fault::no_input, path.string(), "does not exist");
    if (!fs::is_regular_file(status)) throw Error(Fault::no_input, path.string(), "is not a regular file");
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

bool begins_like_picture(const fs::path& path) {
    require_regular(path);
    return !loader_for(path).empty();
}

ScanFile::ScanFile(fs::path path, double max_pixels, bool by_strips) : path_(std::move(path)) {
    require_regular(path_);
    loader_ = loader_for(path_);
    if (by_strips && loader_ == "tiffload") strips_ = TiffScan::open(path_);
    // Lines in another order than they are stored in are not for the engine.
    if (strips_ && strips_->facts().orientation <= 8 && !streams(strips_->facts().orientation)) strips_.reset();
    if (strips_)
        orientation_ = strips_->facts().orientation;
    else
        read_header();
    if (orientation_ < 1 || orientation_ > 8) orientation_ = 1;
    const bool whole = is_interlaced();
    const double most = whole ? std::min(max_pixels, kMostPixelsInterlaced) : max_pixels;
    if (double(width()) * height() > most)
        throw Error(
            Fault::data, path_.string(),
            std::to_string(stored_width()) + " x " + std::to_string(stored_height()) + " pixels" +
                (whole ? ", interlaced" : ""),
            "at most " + decimal(most / 1e6, 3) + " million pixels" + (whole ? " when interlaced" : ""));
}

void ScanFile::read_header() {
    const VipsWatch watch;
    try {
        header_ = load(VIPS_ACCESS_SEQUENTIAL);
    } catch (const vips::VError&) {
        const std::string why =
            loader_.empty() ? "is not an image" : "is damaged (" + watch.complaint() + ")";
        throw Error(Fault::data, path_.string(), why, "a TIFF, PNG, JPEG or other picture file");
    }
    if (header_->get_typeof(VIPS_META_ORIENTATION) != 0)
        orientation_ = header_->get_int(VIPS_META_ORIENTATION);
}

VipsBandFormat ScanFile::format() const {
    if (!strips_) return header_->format();
    return strips_->facts().bits == 16 ? VIPS_FORMAT_USHORT : VIPS_FORMAT_UCHAR;
}

int ScanFile::bands() const {
    return strips_ ? strips_->facts().samples : header_->bands();
}

VipsInterpretation ScanFile::interpretation() const {
    if (!strips_) return header_->interpretation();
    const bool is_deep = strips_->facts().bits == 16;
    if (strips_->facts().is_rgb) return is_deep ? VIPS_INTERPRETATION_RGB16 : VIPS_INTERPRETATION_sRGB;
    return is_deep ? VIPS_INTERPRETATION_GREY16 : VIPS_INTERPRETATION_B_W;
}

int ScanFile::stored_width() const {
    return strips_ ? strips_->facts().width : header_->width();
}

int ScanFile::stored_height() const {
    return strips_ ? strips_->facts().height : header_->height();
}

vips::VImage ScanFile::load(VipsAccess access) const {
    vips_ready();
    vips::VOption* options =
        vips::VImage::option()->set("access", access)->set("fail_on", VIPS_FAIL_ON_WARNING);
    if (loader_.empty()) {
        const char* found = vips_foreign_find_load(path_.c_str());
        if (found == nullptr) {
            delete options;
            throw vips::VError();
        }
        vips::VImage image;
        vips::VImage::call(found, options->set("filename", path_.c_str())->set("out", &image));
        return image;
    }
    vips::VImage image;
    vips::VImage::call(loader_.c_str(), options->set("filename", path_.c_str())->set("out", &image));
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
    if (strips_) return strips_->facts().icc;
    if (header_->get_typeof(VIPS_META_ICC_NAME) == 0) return {};
    std::size_t size = 0;
    const auto* data = static_cast<const unsigned char*>(header_->get_blob(VIPS_META_ICC_NAME, &size));
    return {data, data + size};
}

std::optional<double> ScanFile::pixels_per_mm() const {
    // libvips reports 1 pixel a millimetre where the file says nothing; no film scan is that coarse.
    const double resolution = strips_            ? strips_->facts().x_per_mm.value_or(0)
                              : orientation_ < 5 ? header_->xres()
                                                 : header_->yres();
    if (!(resolution > 1.01 && resolution < 4000)) return std::nullopt;
    return resolution;
}

vips::VImage ScanFile::as_stored() const {
    return load(VIPS_ACCESS_SEQUENTIAL);
}

vips::VImage ScanFile::upright() const {
    const vips::VImage image = load(streams(orientation_) ? VIPS_ACCESS_SEQUENTIAL : VIPS_ACCESS_RANDOM);
    if (image.width() != stored_width() || image.height() != stored_height() || image.bands() != bands() ||
        image.format() != format())
        throw Error(Fault::data, path_.string(), "has changed since it was opened");
    return turned(image, orientation_);
}

}  // namespace fogproof
