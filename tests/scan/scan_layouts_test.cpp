// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// TIFFs of every layout against libtiff's own RGBA reader (TIFFReadRGBAImageOriented), which no line of the
// product goes through.
#include <gtest/gtest.h>
#include <tiffio.h>

#include <cmath>

#include "fogproof/base/error.hpp"
#include "scan/scan.hpp"
#include "support/film_scan.hpp"
#include "support/rooms.hpp"
#include "support/scan_codes.hpp"

namespace fogproof::tests {
namespace {

constexpr int kRows = 53;
// What is compared has the 8 bits that the RGBA reader cuts 16 to: half a step, and another for its rounding.
constexpr double kStep = 1.01 / 255;

struct Layout {
    int bits, samples;
    bool planes, tiles, big_endian;
    std::uint16_t meaning, coding, predictor;

    // libtiff 4.5's RGBA reader goes astray behind a cut tile of grey and alpha.
    [[nodiscard]] int wide() const { return tiles && samples == 2 ? 64 : 75; }

    // It counts bytes for samples there: behind a cut tile of 16-bit grey it goes astray. The samples written
    // here are the witness instead.
    [[nodiscard]] bool is_misread() const { return tiles && samples == 1 && bits == 16; }

    friend std::ostream& operator<<(std::ostream& out, const Layout& of) {
        return out << of.bits << " bits, " << of.samples << " samples" << (of.planes ? " in planes" : "")
                   << (of.tiles ? ", tiles" : ", strips") << (of.big_endian ? ", big-endian" : "")
                   << ", meaning " << of.meaning << ", coding " << of.coding << ", predictor "
                   << of.predictor;
    }
};

unsigned sample_at(const Layout& of, int x, int y, int sample) {
    const bool is_alpha = sample == of.samples - 1 && of.samples % 2 == 0;
    const unsigned value =
        is_alpha ? 65535u : unsigned(6000 + 400 * x + 350 * y + 5000 * sample + x * y % 37);
    return of.bits == 16 ? value : value >> 8;
}

void save(const std::filesystem::path& path, const Layout& of) {
    TIFF* const tiff = TIFFOpen(path.c_str(), of.big_endian ? "wb" : "wl");
    TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, std::uint32_t(of.wide()));
    TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, std::uint32_t(kRows));
    TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, std::uint16_t(of.bits));
    TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, std::uint16_t(of.samples));
    TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, of.meaning);
    TIFFSetField(tiff, TIFFTAG_PLANARCONFIG,
                 std::uint16_t(of.planes ? PLANARCONFIG_SEPARATE : PLANARCONFIG_CONTIG));
    TIFFSetField(tiff, TIFFTAG_COMPRESSION, of.coding);
    if (of.predictor != 1) TIFFSetField(tiff, TIFFTAG_PREDICTOR, of.predictor);
    const std::uint16_t alpha = EXTRASAMPLE_UNASSALPHA;
    if (of.samples % 2 == 0) TIFFSetField(tiff, TIFFTAG_EXTRASAMPLES, std::uint16_t(1), &alpha);
    const int across = of.tiles ? 32 : of.wide(), down = of.tiles ? 16 : 9;
    if (of.tiles) {
        TIFFSetField(tiff, TIFFTAG_TILEWIDTH, std::uint32_t(across));
        TIFFSetField(tiff, TIFFTAG_TILELENGTH, std::uint32_t(down));
    } else {
        TIFFSetField(tiff, TIFFTAG_ROWSPERSTRIP, std::uint32_t(down));
    }
    std::uint32_t unit = 0;
    for (int plane = 0; plane < (of.planes ? of.samples : 1); ++plane)
        for (int top = 0; top < kRows; top += down)
            for (int left = 0; left < of.wide(); left += across, ++unit) {
                std::vector<std::uint8_t> bytes;
                for (int y = top; y < top + (of.tiles ? down : std::min(down, kRows - top)); ++y)
                    for (int x = left; x < left + across; ++x)
                        for (int each = 0; each < (of.planes ? 1 : of.samples); ++each) {
                            const auto value = std::uint16_t(sample_at(of, x, y, of.planes ? plane : each));
                            bytes.push_back(std::uint8_t(value));
                            if (of.bits == 16) bytes.push_back(std::uint8_t(value >> 8));
                        }
                const auto size = tmsize_t(bytes.size());
                ASSERT_EQ(of.tiles ? TIFFWriteEncodedTile(tiff, unit, bytes.data(), size)
                                   : TIFFWriteEncodedStrip(tiff, unit, bytes.data(), size),
                          size);
            }
    TIFFClose(tiff);
}

std::vector<std::uint32_t> rgba(const std::filesystem::path& path, int wide) {
    std::vector<std::uint32_t> pixels(std::size_t(wide) * kRows);
    TIFF* const tiff = TIFFOpen(path.c_str(), "r");
    EXPECT_EQ(
        TIFFReadRGBAImageOriented(tiff, std::uint32_t(wide), kRows, pixels.data(), ORIENTATION_TOPLEFT, 1),
        1);
    TIFFClose(tiff);
    return pixels;
}

// Luminance of linear sRGB (IEC 61966-2-1), or the grey.
double light_of(std::uint32_t pixel, int samples) {
    const double r = TIFFGetR(pixel) / 255.0, g = TIFFGetG(pixel) / 255.0, b = TIFFGetB(pixel) / 255.0;
    return samples < 3 ? g : 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

void compare(const std::filesystem::path& path, const Layout& of, ReadBy read_by) {
    Notes notes;
    const ScanOptions options{
        .encoding = Encoding::linear, .whole = true, .clear_value = 1.0, .read_by = read_by};
    std::optional<Scan> scan;
    try {
        scan = Scan::open(path, options, notes);
    } catch (const Error& error) {
        // The layouts that libvips garbles, or gives up at, are refused by what they are.
        EXPECT_TRUE(of.planes && (of.samples == 2 ? read_by == ReadBy::libvips : of.tiles))
            << of << ": " << error.what();
        EXPECT_NE(std::string(error.what()).find("in planes of their own"), std::string::npos)
            << error.what();
        return;
    }
    const std::vector<std::uint16_t> codes = codes_of(*scan);
    double worst = 0;
    const std::vector<std::uint32_t> seen = rgba(path, of.wide());
    for (std::size_t i = 0; i < seen.size(); ++i) {
        const int x = int(i) % of.wide(), y = int(i) / of.wide();
        const double stored = sample_at(of, x, y, 0) / 65535.0;
        const double wanted = !of.is_misread()                       ? light_of(seen[i], of.samples)
                              : of.meaning == PHOTOMETRIC_MINISWHITE ? 1 - stored
                                                                     : stored;
        worst = std::max(worst, std::abs(scan->light()[codes[i]] - wanted));
    }
    EXPECT_LT(worst, kStep) << of << (read_by == ReadBy::lines ? ", by lines" : ", by libvips");
}

TEST(TiffLayouts, EveryOneIsReadAsLibtiffReadsIt) {
    const TestFolder folder;
    vips_ready();
    int count = 0;
    for (const int bits : {8, 16})
        for (const int samples : {1, 2, 3, 4})
            for (const bool planes : {false, true})
                for (const bool tiles : {false, true})
                    for (const int coding :
                         {COMPRESSION_NONE, COMPRESSION_LZW, COMPRESSION_ADOBE_DEFLATE, COMPRESSION_PACKBITS})
                        for (const int predictor : {1, 2})
                            for (const bool big_endian : {false, true})
                                for (const bool white_low : {false, true}) {
                                    const bool has_predictor =
                                        coding == COMPRESSION_LZW || coding == COMPRESSION_ADOBE_DEFLATE;
                                    if ((predictor == 2 && !has_predictor) || (planes && samples == 1) ||
                                        (white_low && samples != 1))
                                        continue;
                                    const std::uint16_t meaning = samples >= 3 ? PHOTOMETRIC_RGB
                                                                  : white_low  ? PHOTOMETRIC_MINISWHITE
                                                                               : PHOTOMETRIC_MINISBLACK;
                                    const Layout layout{bits,
                                                        samples,
                                                        planes,
                                                        tiles,
                                                        big_endian,
                                                        meaning,
                                                        std::uint16_t(coding),
                                                        std::uint16_t(predictor)};
                                    // libvips remembers what it has opened by its name.
                                    const auto path = folder / (std::to_string(count) + ".tif");
                                    save(path, layout);
                                    for (const ReadBy read_by : {ReadBy::lines, ReadBy::libvips})
                                        compare(path, layout, read_by);
                                    std::filesystem::remove(path);
                                    ++count;
                                }
    RecordProperty("layouts", count);
    EXPECT_EQ(count, 384);
}

}  // namespace
}  // namespace fogproof::tests
