// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// TIFFs read by strips and tiles: every layout, damage, what is left to others.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fcntl.h>
#include <sys/stat.h>
#include <array>
#include <fstream>
#include <string>

#include "fogproof/base/error.hpp"
#include "pixels/code_lines.hpp"
#include "pixels/passes.hpp"
#include "pixels/tiff_print.hpp"
#include "support/film_scan.hpp"
#include "support/rooms.hpp"
#include "support/strips.hpp"
#include "support/tiff_layouts.hpp"
#include "support/variable.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;
using vips::VImage;

// Everything behind the header made wrong, and the file's times as if nothing had been done.
void spoil_unnoticed(const std::filesystem::path& path) {
    struct stat before {};
    ASSERT_EQ(::stat(path.c_str(), &before), 0);
    {
        std::fstream file(path, std::ios::in | std::ios::out | std::ios::binary);
        file.seekp(8);
        file << std::string(std::size_t(before.st_size) - 8, '\xff');
    }
    const std::array times{before.st_atim, before.st_mtim};
    ASSERT_EQ(::utimensat(AT_FDCWD, path.c_str(), times.data(), 0), 0);
}

TEST_F(Strips, CodedLinesThatAreKeptAreThoseThatAreRead) {
    const StripPrint print = print_of(PackedTable(colours<std::uint16_t>(65536, 3), 3));
    const Region all{0, 0, kWidth, kHeight};
    for (const TiffForm& form : every_form()) {
        if (form.coding == COMPRESSION_NONE || form.bits != 16) continue;
        write_tiff(scan(), form, kWidth, kHeight, code_at);
        const CodeLines read = lines();
        const std::uint64_t bytes = std::uint64_t(kWidth) * kHeight * read.scan().facts().samples * 2;
        const CodeLines kept{*TiffScan::open(scan(), bytes), all},
            too_large{*TiffScan::open(scan(), bytes - 1), all};
        const Histogram wanted = counted(read);
        for (const CodeLines* each : {&kept, &too_large})
            ASSERT_TRUE(counted(*each, {3, kTiny}) == wanted) << testing::PrintToString(form);
        print_strips(read, print, target("read.tif"), &wanted);
        auto reader = kept.reader();
        ASSERT_NO_FATAL_FAILURE(spoil_unnoticed(scan()));
        const CodeBand band = reader->lines(0, kHeight);
        for (int y = 0; y < kHeight; ++y)
            for (int x = 0; x < kWidth; ++x)
                ASSERT_EQ(band.line<std::uint16_t>(y)[x], std::uint16_t(code_at(x, y, 0)))
                    << testing::PrintToString(form);
        EXPECT_THROW(static_cast<void>(counted(too_large)), Error) << "it was not kept";
        write_tiff(scan(), form, kWidth, kHeight, code_at);
        const CodeLines again{*TiffScan::open(scan(), bytes), all};
        print_strips(again, print, target("first.tif"), &wanted, {2, kTiny});
        print_strips(again, print, target("kept.tif"), &wanted, {2, kTiny});
        for (const char* name : {"first.tif", "kept.tif"})
            ASSERT_TRUE(content_of(folder / name) == content_of(folder / "read.tif"))
                << name << ": " << testing::PrintToString(form);
    }
    const LastStripAtEnd file(scan());
    file.save_short_of(file.length() / 2, folder / "short.tif");
    const CodeLines cut{*TiffScan::open(folder / "short.tif", 1 << 20), all};
    for (int pass = 0; pass < 3; ++pass)
        EXPECT_THROW(static_cast<void>(counted(cut, {2, kTiny})), Error) << "pass " << pass;
}

TEST_F(Strips, CodedLinesAreDecodedAnewWhereNothingCanBeKept) {
    write_tiff(scan(), {16, COMPRESSION_ADOBE_DEFLATE, 1, false, 8}, kWidth, kHeight, code_at);
    const Histogram wanted = counted(lines());
    const Variable nowhere("TMPDIR", (folder / "missing").string());
    const CodeLines kept{*TiffScan::open(scan(), 1 << 20), {0, 0, kWidth, kHeight}};
    for (int pass = 0; pass < 2; ++pass) EXPECT_EQ(counted(kept), wanted);
    ASSERT_NO_FATAL_FAILURE(spoil_unnoticed(scan()));
    EXPECT_THROW(static_cast<void>(counted(kept)), Error);
}

TEST_F(Strips, ADamagedLastStripIsNeverReportedAsSuccess) {
    constexpr int kRuns = 60;
    int refused = 0;
    const auto smooth = [](int x, int y, int) { return unsigned(20000 + 200 * x + 90 * y + (x * y) % 97); };
    for (const auto coding :
         {COMPRESSION_NONE, COMPRESSION_LZW, COMPRESSION_ADOBE_DEFLATE, COMPRESSION_PACKBITS})
        for (const bool tiled : {false, true}) {
            write_tiff(folder / "whole.tif", {16, std::uint16_t(coding), 1, tiled, 8}, kWidth, kHeight,
                       smooth);
            const LastStripAtEnd file(folder / "whole.tif");
            file.save_whole(scan());
            ASSERT_NO_THROW(static_cast<void>(counted(lines()))) << "whole it is read, coding " << coding;
            const auto table = colours<std::uint16_t>(65536, 3);
            const auto refuses = [&](const char* damage) {
                for (int run = 0; run < kRuns; ++run) {
                    const Pace pace{unsigned(1 + run % 4), kTiny};
                    EXPECT_THROW(static_cast<void>(counted(lines(), pace)), Error) << damage;
                    try {
                        print_strips(lines(), print_of(PackedTable(table, 3), run % 2 == 0),
                                     target("print.tif"), nullptr, pace);
                        ADD_FAILURE() << damage << ", coding " << coding;
                    } catch (const Error& error) {
                        EXPECT_EQ(error.fault(), Fault::data);
                        EXPECT_THAT(error.what(), HasSubstr("scan.tif: cannot be read to its end"));
                        ++refused;
                    }
                }
            };
            file.save_short_of(coding == COMPRESSION_NONE ? 1 : file.length() / 2, scan());
            refuses("cut short");
            if (coding != COMPRESSION_ADOBE_DEFLATE) continue;
            file.save_spoilt(scan());
            refuses("spoilt");
        }
    EXPECT_EQ(refused, kRuns * 10);
}

TEST_F(Strips, AScanCutShortAnywhereIsRefusedOrLeftAlone) {
    write_tiff(folder / "whole.tif", {16, COMPRESSION_ADOBE_DEFLATE, 2, false, 8}, kWidth, kHeight, code_at);
    const LastStripAtEnd file(folder / "whole.tif");
    file.save_whole(scan());
    const auto size = std::filesystem::file_size(scan());
    for (std::uintmax_t kept = 0; kept < size; kept += 13) {
        file.save_short_of(size - kept, scan());
        if (const auto opened = TiffScan::open(scan())) {
            EXPECT_THROW(static_cast<void>(counted(CodeLines(*opened, {0, 0, kWidth, kHeight}), {2, kTiny})),
                         Error)
                << kept << " bytes";
        }
    }
}

// What a general reader must take or refuse.
TEST_F(Strips, OtherFilesAreLeftAlone) {
    const auto left_alone = [&](const char* what) { EXPECT_FALSE(TiffScan::open(scan())) << what; };
    std::ofstream(scan()) << "no picture";
    left_alone("text");
    const VImage grey = raster<std::uint16_t>(
        40, 30, 1, [](int x, int y, int) { return 900 * x + y; }, VIPS_INTERPRETATION_GREY16);
    grey.pngsave(scan().c_str());
    left_alone("PNG");
    grey.cast(VIPS_FORMAT_FLOAT).tiffsave(scan().c_str());
    left_alone("float");
    grey.cast(VIPS_FORMAT_SHORT).tiffsave(scan().c_str());
    left_alone("signed");
    (grey >> 8)
        .cast(VIPS_FORMAT_UCHAR)
        .tiffsave(scan().c_str(), VImage::option()->set("compression", VIPS_FOREIGN_TIFF_COMPRESSION_JPEG));
    left_alone("JPEG inside");
    (grey > 9000).tiffsave(scan().c_str(), VImage::option()->set("bitdepth", 1));
    left_alone("one bit");
    grey.replicate(1, 3)
        .copy(VImage::option()->set("interpretation", VIPS_INTERPRETATION_GREY16))
        .tiffsave(scan().c_str(), VImage::option()->set("page_height", 30));
    left_alone("three pages");
}

// One strip of the whole scan, compressed, cannot be shared out, and held whole it could be of any size.
TEST_F(Strips, OneLargeCompressedStripIsLeftAlone) {
    constexpr int kSide = 3000;
    const auto flat = [](int, int, int) { return 1000u; };
    write_tiff(scan(), {16, COMPRESSION_ADOBE_DEFLATE, 1, false, kSide}, kSide, kSide, flat);
    EXPECT_FALSE(TiffScan::open(scan()));
    write_tiff(scan(), {16, COMPRESSION_NONE, 1, false, kSide}, kSide, kSide, flat);
    EXPECT_TRUE(TiffScan::open(scan())) << "uncompressed, any of its lines can be had";
}

}  // namespace
}  // namespace fogproof::tests
