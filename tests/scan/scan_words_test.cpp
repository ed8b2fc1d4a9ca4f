// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a scan says of itself is believed, in a stated order; what it says wrongly is noted, not refused.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <lcms2.h>
#include <tiffio.h>

#include <cmath>

#include "scan/scan.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/said_in_files.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;
using vips::VImage;

constexpr double kClosedForm = 1e-9;  // densities in double on both sides
constexpr double kTable = 1e-4;       // a table of 16-bit steps, in density below 1.5
constexpr int kWide = 64, kHigh = 48;

std::string gamma(double value) {
    return chunk("gAMA", big(std::uint32_t(std::lround(value * 1e5))));
}
const std::string kSrgbChunk = chunk("sRGB", std::string(1, '\0'));
const std::string kLinearVideo = chunk("cICP", std::string("\x01\x08\x00\x01", 4));

class ScanWords : public testing::Test, protected Program {
  protected:
    ScanWords() {
        vips_ready();
        write("pack.toml", "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n");
        ramp(16).pngsave((*this / "plain.png").c_str());
        ramp(8).jpegsave((*this / "plain.jpg").c_str(), VImage::option()->set("strip", true));
    }
    static VImage ramp(int bits, int bands = 1) {
        const auto law = [bits](int x, int y, int band) {
            return (x * 900.0 + y * 40 + 3000 + 2000 * band) / (bits == 16 ? 1 : 257);
        };
        const auto grey = bands == 3 ? VIPS_INTERPRETATION_RGB16 : VIPS_INTERPRETATION_GREY16;
        return bits == 16 ? raster<std::uint16_t>(kWide, kHigh, bands, law, grey)
                          : raster<std::uint8_t>(kWide, kHigh, bands, law, VIPS_INTERPRETATION_B_W);
    }
    /// A PNG with more chunks behind its header.
    void png(const std::string& chunks, const std::string& of = "plain.png") const {
        constexpr std::size_t kHeader = 33;
        write("scan.png", content_of(*this / of).insert(kHeader, chunks));
    }
    void jpeg_with_exif(const std::string& tiff) const {
        const std::string body = std::string("Exif\0", 6) + tiff;
        const auto size = unsigned(body.size() + 2);
        write("scan.jpg",
              content_of(*this / "plain.jpg")
                  .insert(2, std::string("\xff\xe1") + char(size >> 8) + char(size & 255) + body));
    }
    struct Read {
        std::vector<double> density;
        Notes notes;
        CodingSource source;
    };
    [[nodiscard]] Read read(const std::string& name, std::optional<Encoding> encoding = {},
                            ReadBy read_by = ReadBy::lines) const {
        Read made;
        const Scan scan = Scan::open(
            *this / name,
            {.encoding = encoding, .whole = true, .clear_value = 1.0, .black_value = 0.0, .read_by = read_by},
            made.notes);
        for (const auto each : scan.scale()) made.density.push_back(each.value);
        made.source = scan.coding_source();
        return made;
    }
    /// Whether the densities of a scan are those of a power of its codes, -n log10(v), down to density 1.5.
    void expect_power(const std::string& name, double exponent, const std::string& note) const {
        const Read scan = read(name);
        EXPECT_THAT(scan.notes, Contains(HasSubstr(note)));
        EXPECT_EQ(scan.source, CodingSource::file);
        for (std::size_t code = 1; code < scan.density.size(); ++code)
            if (const double d = -exponent * std::log10(double(code) / double(scan.density.size() - 1));
                d < 1.5) {
                ASSERT_NEAR(scan.density[code], d, kClosedForm) << name << " at " << code;
            }
    }
    void expect_like(const std::string& name, Encoding encoding, const std::string& note) const {
        const Read scan = read(name);
        EXPECT_THAT(scan.notes, Contains(HasSubstr(note)));
        EXPECT_EQ(scan.density, read(name, encoding).density) << note;
    }
};

// PNG third edition, 11.3.2: light is the sample to the power of 1/gamma.
TEST_F(ScanWords, TheGammaChunkOfAPngIsBelieved) {
    for (const double value : {1.0, 0.55555, 0.45455}) {
        png(gamma(value));
        expect_power("scan.png", 1 / value, "the gAMA chunk of the file says what the codes stand for");
    }
    EXPECT_EQ(read("plain.png").source, CodingSource::guess);
    EXPECT_EQ(read("plain.png", Encoding::srgb).source, CodingSource::option);
}

// PNG third edition, 4.3: cICP before iCCP before sRGB before gAMA.
TEST_F(ScanWords, OfManyThingsThatAPngSaysTheOrderOfItsSpecificationHolds) {
    png(kSrgbChunk);
    expect_like("scan.png", Encoding::srgb, "the sRGB chunk of the file says");
    png(gamma(1) + kSrgbChunk);
    expect_like("scan.png", Encoding::srgb, "the gAMA chunk of the file (linear) is set aside");
    png(kSrgbChunk + gamma(0.45455) + kLinearVideo);
    expect_like("scan.png", Encoding::linear, "the cICP chunk of the file says");

    cmsToneCurve* const curve = cmsBuildGamma(nullptr, 1.8);
    cmsHPROFILE profile = cmsCreateGrayProfile(cmsD50_xyY(), curve);
    cmsSaveProfileToFile(profile, (*this / "grey.icc").c_str());
    cmsCloseProfile(profile);
    cmsFreeToneCurve(curve);
    ramp(16).pngsave((*this / "profiled.png").c_str(),
                     VImage::option()->set("profile", (*this / "grey.icc").c_str()));
    png(kSrgbChunk + gamma(1), "profiled.png");
    EXPECT_THAT(read("scan.png").notes, Contains(HasSubstr("the embedded profile (")));
    png(kLinearVideo, "profiled.png");
    expect_like("scan.png", Encoding::linear, "the embedded profile is set aside for the cICP chunk");
    png(gamma(1));
    EXPECT_THAT(read("scan.png", Encoding::srgb).notes,
                Contains("the gAMA chunk of the file (linear) is set aside for sRGB, as asked"));
}

TEST_F(ScanWords, ColourThatMakesNoSenseIsNotedAndNotUsed) {
    std::string spoilt = gamma(1);
    spoilt.back() = char(spoilt.back() ^ 1);
    for (const auto& [chunks, note] : std::vector<std::pair<std::string, const char*>>{
             {spoilt, "the gAMA chunk of the file is damaged"},
             {gamma(0), "the gAMA chunk of the file is outside"},
             {chunk("cICP", std::string("\x09\x10\x00\x01", 4)), "the cICP chunk of the file (primaries 9"},
             {gamma(1) + chunk("cHRM", std::string(32, '\0')),
              "the cHRM chunk of the file makes no colours"}}) {
        png(chunks);
        const auto answer = run("print scan.png --pack pack.toml --whole -o out.tif --force");
        EXPECT_EQ(answer.code, 0) << answer.err;
        EXPECT_THAT(answer.err, HasSubstr(note));
    }
}

// The whole program: a scan of the same light in three codings makes the same print.
TEST_F(ScanWords, OneLightInThreeCodingsMakesOnePrint) {
    const auto coded = [&](double exponent) {
        return raster<std::uint16_t>(
            kWide, kHigh, 1,
            [&](int x, int y, int) {
                return 65535 *
                       std::pow(std::pow(10.0, -(0.1 + 1.2 * x * (y + 20) / (kWide * (kHigh + 20.0)))),
                                1 / exponent);
            },
            VIPS_INTERPRETATION_GREY16);
    };
    std::vector<VImage> prints;
    for (const double exponent : {1.0, 1.8, 2.2}) {
        coded(exponent).pngsave((*this / "coded.png").c_str());
        png(gamma(1 / exponent), "coded.png");
        const std::string out = "out" + std::to_string(prints.size()) + ".tif";
        const auto answer = run("print scan.png --pack pack.toml --whole --clear 1 --exposure 0 -o " + out);
        ASSERT_EQ(answer.code, 0) << answer.err;
        prints.push_back(VImage::new_from_file((*this / out).c_str()));
    }
    // Steps of 16-bit codes before and behind the paper's curve.
    constexpr double kSteps = 60;
    for (const auto& each : prints) EXPECT_LT((each - prints[0]).abs().max(), kSteps);
}

// CIPA DC-008 has 1 for sRGB; CIPA DC-009 marks Adobe RGB, of gamma 563/256, by R03.
TEST_F(ScanWords, TheColourSpaceOfExifIsBelieved) {
    jpeg_with_exif(exif(65535, "R03"));
    expect_power("scan.jpg", 563.0 / 256,
                 "the EXIF colour space of the file says what the codes stand for: Adobe");
    jpeg_with_exif(exif(1, "R98"));
    expect_like("scan.jpg", Encoding::srgb, "the EXIF colour space of the file says");
    jpeg_with_exif(exif(65535, "R98"));
    EXPECT_EQ(read("scan.jpg").source, CodingSource::guess);
    png(chunk("eXIf", exif(1, "R98")));
    expect_like("scan.png", Encoding::srgb, "the EXIF colour space of the file says");
}

// TIFF 6.0, section 20: a table from codes to light of 16 bits.
TEST_F(ScanWords, TheTransferFunctionOfATiffIsBelievedBothWaysItIsRead) {
    std::vector<std::uint16_t> table;
    for (int code = 0; code < 65536; ++code)
        table.push_back(std::uint16_t(std::lround(65535 * std::pow(code / 65535.0, 1.8))));
    const std::string path = *this / "scan.tif";
    ramp(16).tiffsave(path.c_str());
    TIFF* const tiff = TIFFOpen(path.c_str(), "r+");
    TIFFSetField(tiff, TIFFTAG_TRANSFERFUNCTION, table.data());
    ASSERT_EQ(TIFFRewriteDirectory(tiff), 1);
    TIFFClose(tiff);
    const Read quick = read("scan.tif"), plain = read("scan.tif", {}, ReadBy::libvips);
    EXPECT_THAT(quick.notes, Contains(HasSubstr("the TransferFunction tag of the file says")));
    EXPECT_EQ(quick.notes, plain.notes);
    EXPECT_EQ(quick.density, plain.density);
    for (std::size_t code = 12000; code < quick.density.size(); ++code)
        ASSERT_NEAR(quick.density[code], -1.8 * std::log10(double(code) / 65535), kTable);
}

TEST_F(ScanWords, WhatAScanSaysWronglyOfItsPlaceIsNotedAndItIsPrinted) {
    struct Wrong {
        int tag, type, count;
        std::uint32_t value;
        const char* note;
    };
    // Orientations other than 1 to 8, no number as resolution, a unit that is none, a profile of no bytes.
    for (const Wrong& wrong : {Wrong{274, 3, 1, 0, "the orientation 0 of the file"},
                               Wrong{274, 3, 1, 9, "the orientation 9 of the file"},
                               Wrong{282, 11, 1, 0x7fc00000, "the resolution of the file (no number"},
                               Wrong{296, 3, 1, 9, "the resolution of the file ("},
                               Wrong{34675, 7, 0, 0, "the ICC tag of the file is empty"}})
        for (const int meaning : {1, 2}) {  // by strips, and by libvips for planes of RGB
            const std::string path = *this / "scan.tif";
            const auto entry = [](int tag, int type, int count, std::uint32_t value) {
                return little(std::uint32_t(tag), 2) + little(std::uint32_t(type), 2) +
                       little(std::uint32_t(count), 4) + little(value, 4);
            };
            std::map<int, std::string> entries;
            const auto put = [&](int tag, int type, std::uint32_t value) {
                entries[tag] = entry(tag, type, 1, value);
            };
            const int samples = meaning == 2 ? 3 : 1, behind = 512;
            for (const auto& [tag, value] : std::map<int, int>{{256, 40},
                                                               {257, 40},
                                                               {258, 8},
                                                               {259, 1},
                                                               {262, meaning},
                                                               {273, behind},
                                                               {277, samples},
                                                               {278, 40},
                                                               {279, 1600 * samples},
                                                               {284, 1}})
                put(tag, 3, std::uint32_t(value));
            if (samples == 3) {
                entries[258] = entry(258, 3, 3, 480);
                entries[273] = entry(273, 3, 3, 486);
                entries[279] = entry(279, 3, 3, 492);
                put(284, 3, 2);
            }
            put(282, 11, 0x42c80000);
            put(283, 11, 0x42c80000);
            put(296, 3, 2);
            entries[wrong.tag] = entry(wrong.tag, wrong.type, wrong.count, wrong.value);
            std::string file =
                "II*" + std::string(1, '\0') + little(8, 4) + little(std::uint32_t(entries.size()), 2);
            for (const auto& [tag, text] : entries) file += text;
            file.resize(480);
            for (int i = 0; i < 3; ++i) file += little(8, 2);
            for (int i = 0; i < 3; ++i) file += little(std::uint32_t(behind + 1600 * i), 2);
            for (int i = 0; i < 3; ++i) file += little(1600, 2);
            file.resize(std::size_t(behind));
            for (int i = 0; i < 1600 * samples; ++i) file.push_back(char(60 + i % 190));
            write("scan.tif", file);
            const auto answer = run("print scan.tif --pack pack.toml --whole -o out.tif --force");
            EXPECT_EQ(answer.code, 0) << wrong.tag << answer.err;
            EXPECT_THAT(answer.err, HasSubstr(wrong.note));
        }
}

// Some 330 entries that all point to their own directory: readers that follow them all take minutes.
TEST_F(ScanWords, NestedExifIsNotFollowed) {
    std::string entries;
    constexpr unsigned kCount = 330;
    for (unsigned i = 0; i < kCount; ++i)
        entries += little(i % 2 == 0 ? 34665 : 40965, 2) + little(4, 2) + little(1, 4) + little(8, 4);
    jpeg_with_exif("II*" + std::string(1, '\0') + little(8, 4) + little(kCount, 2) + entries + little(0, 4));
    png(chunk("eXIf",
              "II*" + std::string(1, '\0') + little(8, 4) + little(kCount, 2) + entries + little(0, 4)));
    for (const char* name : {"scan.jpg", "scan.png"}) {
        const auto answer =
            shell(std::string(
                      "ulimit -t 3; exec \"$FOGPROOF\" print --pack pack.toml --whole -o out.tif --force ") +
                  name);
        EXPECT_EQ(answer.code, 0) << name << ": " << answer.err;
    }
}

// A progressive JPEG whose last pass is there 2,000 times; T.81, annex G.
TEST_F(ScanWords, AJpegOfManyPassesIsRefused) {
    ramp(8).jpegsave((*this / "passes.jpg").c_str(), VImage::option()->set("interlace", true));
    const std::string file = content_of(*this / "passes.jpg");
    const auto last = file.rfind("\xff\xda");
    std::string many = file.substr(0, last);
    for (int i = 0; i < 2000; ++i) many += file.substr(last, file.size() - 2 - last);
    write("scan.jpg", many + "\xff\xd9");
    const auto answer = run("print scan.jpg --pack pack.toml --whole -o out.tif");
    EXPECT_EQ(answer.code, 65);
    EXPECT_THAT(answer.err, AllOf(HasSubstr("more than 100 passes"), HasSubstr("scan.jpg")));
    EXPECT_EQ(run("print passes.jpg --pack pack.toml --whole -o out.tif").code, 0);
}

TEST_F(ScanWords, NoRefusalIsWithoutAReason) {
    const std::string good = content_of(*this / "plain.png");
    for (const auto& [file, reason] : std::vector<std::pair<std::string, const char*>>{
             {std::string(good).replace(16, 4, big(1000000000)), "1000000000 x 48 pixels"},
             {std::string(good).replace(16, 4, big(0)), "its header promises 0 x 48 pixels"},
             {good.substr(0, 33) + big(0x7fffffff) + "zTXt" + good.substr(33), "its chunk zTXt does not end"},
             {good.substr(0, 33), "it holds no pixels"}}) {
        write("scan.png", file);
        const auto answer = run("print scan.png --pack pack.toml --whole -o out.tif");
        EXPECT_EQ(answer.code, 65) << answer.err;
        EXPECT_THAT(answer.err, AllOf(HasSubstr(reason), Not(HasSubstr("()"))));
    }
}

}  // namespace
}  // namespace fogproof::tests
