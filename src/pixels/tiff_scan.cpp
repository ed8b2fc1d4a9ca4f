// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/tiff_scan.hpp"

#include <algorithm>

#include "fogproof/base/error.hpp"
#include "pixels/tiff_handle.hpp"
#include "pixels/tiff_layout.hpp"

namespace fogproof::pixels {
namespace {

// What one worker may hold decoded: a strip, or a row of tiles.
constexpr std::uint64_t kLargestStrip = 16 << 20, kLargestTileRow = 64 << 20;
constexpr std::uint64_t kLargestFile = std::uint64_t(1) << 62;
constexpr std::uint32_t kLongestSide = 10'000'000;

bool is_known_coding(std::uint16_t coding) {
    return coding == COMPRESSION_NONE || coding == COMPRESSION_LZW || coding == COMPRESSION_ADOBE_DEFLATE ||
           coding == COMPRESSION_DEFLATE || coding == COMPRESSION_PACKBITS;
}

// Grey with or without an alpha, RGB with or without one.
bool are_known_samples(std::uint16_t meaning, std::uint16_t samples) {
    if (meaning == PHOTOMETRIC_MINISWHITE) return samples == 1;
    if (meaning == PHOTOMETRIC_MINISBLACK) return samples == 1 || samples == 2;
    return meaning == PHOTOMETRIC_RGB && (samples == 3 || samples == 4);
}

std::vector<std::uint8_t> profile_of(const TiffHandle& tiff) {
    std::uint32_t size = 0;
    const void* bytes = nullptr;
    if (TIFFGetField(tiff.get(), TIFFTAG_ICCPROFILE, &size, &bytes) != 1 || bytes == nullptr) return {};
    const auto* first = static_cast<const std::uint8_t*>(bytes);
    return {first, first + size};
}

// What the header says of size, samples and coding; false when they are not for us.
bool read_facts(const TiffHandle& tiff, TiffScan::Layout& layout) {
    const auto width = tiff.field<std::uint32_t>(TIFFTAG_IMAGEWIDTH, 0);
    const auto height = tiff.field<std::uint32_t>(TIFFTAG_IMAGELENGTH, 0);
    const auto samples = tiff.field<std::uint16_t>(TIFFTAG_SAMPLESPERPIXEL, 1);
    const auto bits = tiff.field<std::uint16_t>(TIFFTAG_BITSPERSAMPLE, 1);
    const auto meaning = tiff.field<std::uint16_t>(TIFFTAG_PHOTOMETRIC, PHOTOMETRIC_PALETTE);
    const auto coding = tiff.field<std::uint16_t>(TIFFTAG_COMPRESSION, 0);
    if (width == 0 || height == 0 || width > kLongestSide || height > kLongestSide ||
        (bits != 8 && bits != 16) || !are_known_samples(meaning, samples) || !is_known_coding(coding) ||
        TIFFIsCODECConfigured(coding) == 0 ||
        tiff.field<std::uint16_t>(TIFFTAG_SAMPLEFORMAT, SAMPLEFORMAT_UINT) != SAMPLEFORMAT_UINT ||
        tiff.field<std::uint16_t>(TIFFTAG_FILLORDER, FILLORDER_MSB2LSB) != FILLORDER_MSB2LSB)
        return false;
    // Of grey and alpha in planes of their own, the grey ones come first and are all that is read.
    const bool in_planes =
        samples > 1 &&
        tiff.field<std::uint16_t>(TIFFTAG_PLANARCONFIG, PLANARCONFIG_CONTIG) != PLANARCONFIG_CONTIG;
    if (in_planes && samples != 2) return false;
    layout.planes = in_planes ? samples : 1;
    layout.facts = {int(width),      int(height), in_planes ? 1 : samples, bits, meaning == PHOTOMETRIC_RGB,
                    profile_of(tiff)};
    layout.is_plain = coding == COMPRESSION_NONE;
    layout.is_swapped = bits == 16 && TIFFIsByteSwapped(tiff.get()) != 0;
    layout.is_white_low = meaning == PHOTOMETRIC_MINISWHITE;
    return true;
}

// Size and place of strips or tiles; false when they are not for us.
bool read_units(const TiffHandle& tiff, TiffScan::Layout& layout) {
    std::uint32_t width = std::uint32_t(layout.facts.width), height = std::uint32_t(layout.facts.height);
    layout.is_tiled = TIFFIsTiled(tiff.get()) != 0;
    if (layout.is_tiled) {
        width = tiff.field<std::uint32_t>(TIFFTAG_TILEWIDTH, 0);
        height = tiff.field<std::uint32_t>(TIFFTAG_TILELENGTH, 0);
    } else {
        height = std::min(height, tiff.field<std::uint32_t>(TIFFTAG_ROWSPERSTRIP, height));
    }
    if (width == 0 || height == 0 || width > kLongestSide || height > kLongestSide) return false;
    layout.unit_width = int(width);
    layout.unit_height = int(height);
    const std::uint64_t across = std::uint64_t(layout.units_across()) * width * layout.pixel_bytes();
    if (!layout.is_plain && across * height > (layout.is_tiled ? kLargestTileRow : kLargestStrip))
        return false;

    const auto down = (std::uint32_t(layout.facts.height) + height - 1) / height;
    const auto units = std::uint64_t(layout.units_across()) * down;
    const auto stated = layout.is_tiled ? TIFFNumberOfTiles(tiff.get()) : TIFFNumberOfStrips(tiff.get());
    if (units * layout.planes != stated) return false;
    if (!layout.is_plain) return true;
    const std::uint64_t unit_line = std::uint64_t(width) * layout.pixel_bytes();
    for (std::uint32_t unit = 0; unit < units; ++unit) {
        const std::uint64_t lines = layout.is_tiled
                                        ? height
                                        : std::min<std::uint64_t>(height, std::uint64_t(layout.facts.height) -
                                                                              std::uint64_t(unit) * height);
        int fault = 0;
        const std::uint64_t offset = TIFFGetStrileOffsetWithErr(tiff.get(), unit, &fault);
        if (fault != 0 || offset == 0 || offset > kLargestFile ||
            TIFFGetStrileByteCountWithErr(tiff.get(), unit, &fault) < lines * unit_line || fault != 0)
            return false;
        layout.offsets.push_back(offset);
        layout.end = std::max(layout.end, offset + lines * unit_line);
    }
    return true;
}

}  // namespace

std::optional<TiffScan> TiffScan::open(const std::filesystem::path& path, std::uint64_t most_kept) {
    auto layout = std::make_shared<Layout>();
    layout->path = path;
    if (::stat(path.c_str(), &layout->opened) != 0) return std::nullopt;
    const TiffHandle tiff(path);
    if (!tiff || TIFFNumberOfDirectories(tiff.get()) != 1 || TIFFSetDirectory(tiff.get(), 0) != 1 ||
        !read_facts(tiff, *layout) || !read_units(tiff, *layout) || !tiff.complaint().empty())
        return std::nullopt;
    const auto height = std::size_t(layout->facts.height), unit = std::size_t(layout->unit_height);
    const std::uint64_t bytes = height * layout->line_bytes();
    if (!layout->is_plain && bytes <= most_kept)
        layout->kept =
            std::make_shared<KeptLines>(bytes, (height + unit - 1) / unit, unit * layout->line_bytes());
    TiffScan scan;
    scan.layout_ = std::move(layout);
    return scan;
}

const std::filesystem::path& TiffScan::path() const {
    return layout_->path;
}
const TiffFacts& TiffScan::facts() const {
    return layout_->facts;
}
void TiffScan::require_unchanged() const {
    const struct stat& then = layout_->opened;
    struct stat now {};
    if (::stat(path().c_str(), &now) == 0 && now.st_dev == then.st_dev && now.st_ino == then.st_ino &&
        now.st_size == then.st_size && now.st_mtim.tv_sec == then.st_mtim.tv_sec &&
        now.st_mtim.tv_nsec == then.st_mtim.tv_nsec)
        return;
    throw Error(Fault::data, path().string(), "has changed while it was read", "a scan that stays as it is");
}
int TiffScan::lines_together() const {
    return layout_->is_plain ? 1 : layout_->unit_height;
}

}  // namespace fogproof::pixels
