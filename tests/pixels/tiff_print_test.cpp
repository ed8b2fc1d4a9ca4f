// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// TIFFs written by strips: the same pixels, tags and bytes whichever way they are made.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fcntl.h>
#include <unistd.h>
#include <cmath>
#include <fstream>
#include <random>

#include "fogproof/base/error.hpp"
#include "pixels/code_lines.hpp"
#include "pixels/passes.hpp"
#include "pixels/tiff_print.hpp"
#include "support/film_scan.hpp"
#include "support/rooms.hpp"
#include "support/strips.hpp"
#include "support/tiff_layouts.hpp"

namespace fogproof::tests {
namespace {

using vips::VImage;

template <class Sample>
std::vector<Sample> samples_of(const std::filesystem::path& path) {
    const VImage image = VImage::new_from_file(path.c_str());
    const VImage held = image.copy_memory();
    const auto* first = static_cast<const Sample*>(held.data());
    return {first,
            first + std::size_t(held.width()) * std::size_t(held.height()) * std::size_t(held.bands())};
}

TEST_F(Strips, OfEveryLayoutYieldTheirCodes) {
    int forms = 0;
    for (const TiffForm& form : every_form()) {
        write_tiff(scan(), form, kWidth, kHeight, code_at);
        const unsigned top = form.bits == 16 ? 65535u : 255u;
        Histogram wanted(top + 1);
        std::vector<unsigned> codes;
        for (int y = 0; y < kHeight; ++y)
            for (int x = 0; x < kWidth; ++x) ++wanted[codes.emplace_back(code_at(x, y, 0) & top)];
        ASSERT_TRUE(TiffScan::open(scan())) << testing::PrintToString(form);
        ASSERT_TRUE(counted(lines(), {2, kTiny}) == wanted) << testing::PrintToString(form);

        // As libvips reads the same file.
        const VImage image = VImage::new_from_file(scan().c_str());
        ASSERT_EQ(TiffScan::open(scan())->facts().samples, image.bands());
        const VImage first = image.extract_band(0).cast(VIPS_FORMAT_UINT).copy_memory();
        ASSERT_TRUE(std::equal(codes.begin(), codes.end(), static_cast<const unsigned*>(first.data())))
            << testing::PrintToString(form);
        ++forms;

        // One pixel after the other through a table; the bytes whatever the number of workers.
        const auto table = colours<std::uint16_t>(top + 1, 3);
        const auto narrow = colours<std::uint8_t>(top + 1, 3);
        print_strips(lines(), print_of(PackedTable(table, 3)), target("wide.tif"), &wanted, {1, kTiny});
        print_strips(lines(), print_of(PackedTable(narrow, 3)), target("narrow.tif"), &wanted, {1, kTiny});
        std::vector<std::uint16_t> looked_up;
        std::vector<std::uint8_t> looked_up_narrow;
        for (const unsigned code : codes) {
            looked_up.insert(looked_up.end(), &table[code * 3], &table[code * 3] + 3);
            looked_up_narrow.insert(looked_up_narrow.end(), &narrow[code * 3], &narrow[code * 3] + 3);
        }
        ASSERT_TRUE(samples_of<std::uint16_t>(folder / "wide.tif") == looked_up)
            << testing::PrintToString(form);
        ASSERT_TRUE(samples_of<std::uint8_t>(folder / "narrow.tif") == looked_up_narrow)
            << testing::PrintToString(form);
        for (const unsigned threads : {2u, 5u, 8u}) {
            print_strips(lines(), print_of(PackedTable(table, 3)), target("again.tif"), &wanted,
                         {threads, kTiny});
            ASSERT_TRUE(content_of(folder / "again.tif") == content_of(folder / "wide.tif"))
                << testing::PrintToString(form) << ", " << threads << " threads";
        }
    }
    EXPECT_GT(forms, 300);
}

TEST_F(Strips, CutMirroredAndBorderedPrintsAreDrawnPixelByPixel) {
    const Region region{5, 9, 41, 33};
    constexpr int kBorder = 4;
    for (const auto coding : {COMPRESSION_NONE, COMPRESSION_LZW})
        for (const bool tiled : {false, true})
            for (const LineOrder order : {LineOrder::as_scanned, LineOrder::reversed})
                for (const bool compress : {false, true})
                    for (const int channels : {1, 3}) {
                        write_tiff(scan(), {16, std::uint16_t(coding), 1, tiled, 8}, kWidth, kHeight,
                                   code_at);
                        const auto table = colours<std::uint16_t>(65536, channels);
                        StripPrint print = print_of(PackedTable(table, channels), compress);
                        print.border = {BorderWidths::even(kBorder),
                                        std::vector(std::size_t(2 * channels), std::byte{0x5a})};
                        print_strips(lines(region, order), print, target("cut.tif"), nullptr, {3, kTiny});
                        const auto found = samples_of<std::uint16_t>(folder / "cut.tif");
                        const int width = region.width + 2 * kBorder, height = region.height + 2 * kBorder;
                        ASSERT_EQ(found.size(), std::size_t(width * height * channels));
                        std::size_t i = 0;
                        for (int y = 0; y < height; ++y)
                            for (int x = 0; x < width; ++x)
                                for (int channel = 0; channel < channels; ++channel, ++i) {
                                    const int row = y - kBorder;
                                    int column = x - kBorder;
                                    unsigned wanted = 0x5a5a;
                                    if (row >= 0 && row < region.height && column >= 0 &&
                                        column < region.width) {
                                        if (order == LineOrder::reversed) column = region.width - 1 - column;
                                        const unsigned code =
                                            code_at(region.left + column, region.top + row, 0) & 65535u;
                                        wanted = table[code * unsigned(channels) + unsigned(channel)];
                                    }
                                    ASSERT_EQ(found[i], wanted)
                                        << x << ", " << y
                                        << (order == LineOrder::reversed ? ", reversed" : "");
                                }
                    }
}

// Large enough for many bands and many compressed strips.
TEST_F(Strips, OfALargeScanGiveTheSameBytesForAnyNumberOfThreads) {
    constexpr int kLargeWidth = 1501, kLargeHeight = 1203;
    const auto smooth = [](int x, int y, int) { return unsigned(20000 + 9 * x + 11 * y + (x * y) % 97); };
    for (const bool tiled : {false, true}) {
        write_tiff(scan(), {16, COMPRESSION_ADOBE_DEFLATE, 2, tiled, 32}, kLargeWidth, kLargeHeight, smooth);
        const CodeLines all = lines({0, 0, kLargeWidth, kLargeHeight});
        const auto table = colours<std::uint16_t>(65536, 3);
        for (const bool compress : {false, true}) {
            const StripPrint print = print_of(PackedTable(table, 3), compress);
            print_strips(all, print, target("one.tif"), nullptr, {1});
            const std::string one = content_of(folder / "one.tif");
            EXPECT_GT(one.size(), 100'000u);
            for (const unsigned threads : {2u, 5u, 8u}) {
                const WrittenPrint written = print_strips(all, print, target("many.tif"), nullptr, {threads});
                EXPECT_TRUE(content_of(folder / "many.tif") == one) << threads << " threads";
                EXPECT_NO_THROW(require_as_written(written, folder / "many.tif", {threads}));
            }
            const auto found = samples_of<std::uint16_t>(folder / "one.tif");
            ASSERT_EQ(found.size(), std::size_t(kLargeWidth) * kLargeHeight * 3);
            for (std::size_t i = 0; i < found.size(); i += 3) {
                const int x = int(i / 3) % kLargeWidth, y = int(i / 3) / kLargeWidth;
                ASSERT_EQ(found[i], table[smooth(x, y, 0) % 65536u * 3]) << x << ", " << y;
            }
        }
        const auto columns = fractional_cells(kLargeWidth, 400), rows = fractional_cells(kLargeHeight, 321);
        std::vector<double> values(65536);
        for (std::size_t code = 0; code < values.size(); ++code) values[code] = std::pow(double(code), 0.7);
        const CellSums one = cell_sums(all, values, columns, rows, Counting::on, {1});
        for (const unsigned threads : {2u, 5u, 8u}) {
            const CellSums many = cell_sums(all, values, columns, rows, Counting::on, {threads});
            EXPECT_TRUE(many.sums == one.sums && many.counts == one.counts) << threads << " threads";
        }
    }
}

// The tags that libvips writes for the same picture; strips may be of another height.
TEST_F(Strips, PrintsCarryTheTagsThatOtherPrintsDo) {
    write_tiff(scan(), {}, kWidth, kHeight, code_at);
    for (const bool compress : {false, true}) {
        StripPrint print = print_of(PackedTable(colours<std::uint16_t>(65536, 3), 3), compress);
        print.icc.assign(3001, 7);
        print.xmp = "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\"/>";
        print_strips(lines(), print, target("engine.tif"), nullptr);
        VImage by_vips = VImage::new_from_file((folder / "engine.tif").c_str()).copy();
        by_vips.tiffsave((folder / "vips.tif").c_str(),
                         compress ? VImage::option()
                                        ->set("resunit", VIPS_FOREIGN_TIFF_RESUNIT_CM)
                                        ->set("compression", VIPS_FOREIGN_TIFF_COMPRESSION_DEFLATE)
                                        ->set("predictor", VIPS_FOREIGN_TIFF_PREDICTOR_HORIZONTAL)
                                  : VImage::option()->set("resunit", VIPS_FOREIGN_TIFF_RESUNIT_CM));
        const auto tags = [&](const char* name) {
            TIFF* const tiff = TIFFOpen((folder / name).c_str(), "r");
            std::vector<std::string> found;
            for (const std::uint32_t tag :
                 {TIFFTAG_BITSPERSAMPLE, TIFFTAG_COMPRESSION, TIFFTAG_PHOTOMETRIC, TIFFTAG_ORIENTATION,
                  TIFFTAG_SAMPLESPERPIXEL, TIFFTAG_PLANARCONFIG, TIFFTAG_RESOLUTIONUNIT, TIFFTAG_SAMPLEFORMAT,
                  TIFFTAG_PREDICTOR}) {
                std::uint16_t value = 0;
                found.push_back(TIFFGetField(tiff, tag, &value) == 1 ? std::to_string(value) : "none");
            }
            for (const std::uint32_t tag : {TIFFTAG_XRESOLUTION, TIFFTAG_YRESOLUTION}) {
                float value = 0;
                TIFFGetField(tiff, tag, &value);
                found.push_back(std::to_string(value));
            }
            for (const std::uint32_t tag : {TIFFTAG_ICCPROFILE, TIFFTAG_XMLPACKET}) {
                std::uint32_t size = 0;
                const char* bytes = nullptr;
                found.push_back(TIFFGetField(tiff, tag, &size, &bytes) == 1 ? std::string(bytes, size)
                                                                            : "none");
            }
            found.push_back(std::to_string(TIFFIsBigTIFF(tiff)) + std::to_string(TIFFIsBigEndian(tiff)));
            TIFFClose(tiff);
            return found;
        };
        EXPECT_EQ(tags("engine.tif"), tags("vips.tif"));
    }
}

TEST_F(Strips, APrintThatReadsBackOtherwiseIsRefused) {
    write_tiff(scan(), {}, kWidth, kHeight, code_at);
    for (const bool compress : {false, true}) {
        const StripPrint print = print_of(PackedTable(colours<std::uint16_t>(65536, 3), 3), compress);
        const WrittenPrint written = print_strips(lines(), print, target("print.tif"), nullptr, {2, kTiny});
        EXPECT_NO_THROW(require_as_written(written, folder / "print.tif"));
        std::string bytes = content_of(folder / "print.tif");
        bytes[bytes.size() - 2000] = char(bytes[bytes.size() - 2000] ^ 1);
        std::ofstream(folder / "print.tif", std::ios::binary) << bytes;
        EXPECT_THROW(require_as_written(written, folder / "print.tif"), Error) << "one bit";
    }
}

TEST_F(Strips, AScanThatChangesBetweenTwoPassesIsNoticed) {
    write_tiff(scan(), {}, kWidth, kHeight, code_at);
    const Histogram counts = counted(lines());
    write_tiff(scan(), {}, kWidth, kHeight,
               [](int x, int y, int) { return code_at(x, y, 0) + (x == 9 && y == 9); });
    const StripPrint print = print_of(PackedTable(colours<std::uint16_t>(65536, 3), 3));
    EXPECT_THROW(print_strips(lines(), print, target("print.tif"), &counts), Error);
    const CodeLines opened = lines();
    ASSERT_NO_THROW(static_cast<void>(counted(opened)));
    write_tiff(scan(), {}, kWidth, kHeight, code_at);
    EXPECT_THROW(static_cast<void>(counted(opened)), Error);
}

}  // namespace
}  // namespace fogproof::tests
