// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What finished pictures say about their own making, read back out of the files by libvips.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <string>
#include <vips/vips8>

#include "report/pack_label.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/typed_files.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

std::string said_by(const std::filesystem::path& picture) {
    const auto image = vips::VImage::new_from_file(picture.c_str());
    std::size_t size = 0;
    const auto* const bytes = static_cast<const char*>(image.get_blob(VIPS_META_XMP_NAME, &size));
    return {bytes, size};
}

std::string pack_with_readings(int count, const std::string& notes, const std::string& name) {
    std::string rows =
        "strip,wedge_density,exposure_s,filter,restrainer_ml_l,develop_s,bleach_s,bleach_parts,"
        "redevelop_s,density\n";
    for (int row = 0; row < count; ++row)
        rows += "strip-of-the-attic-find-" + std::to_string(row) + ",0.30,12,2,0,90,,,,0.85\n";
    return "fogproof_pack = 1\nname = \"" + name + "\"\nnotes = \"" + notes +
           "\"\n[paper]\nwhite = 0.083\n[fog]\nblank = 0.35\n[readings]\ntext = \"\"\"\n" + rows + "\"\"\"\n";
}

class PictureWords : public testing::Test {
  protected:
    void SetUp() override { make_typed_files(program); }
    const Program program{};
};

TEST_F(PictureWords, APackOfManyReadingsIsPrintedWithItsNumbersAndWithoutThem) {
    program.write("attic.toml", pack_with_readings(1300, std::string(100000, 'n'), "attic find"));
    const auto hash = program.shell("sha256sum attic.toml").out.substr(0, 64);  // GNU coreutils
    for (const std::string picture : {"out.tif", "out.png", "out.jpg"})
        for (const std::string verb :
             {"print scan.tif --bleach 40s", "grid scan.tif --cell 80 --down bleach=40s"}) {
            const auto answer = program.run(verb + " --pack attic.toml --force --quiet -o " + picture);
            ASSERT_EQ(answer.code, 0) << verb << " " << picture << "\n" << answer.err;
            EXPECT_THAT(said_by(program / picture),
                        AllOf(HasSubstr("fogproof_recipe = 1"), HasSubstr("attic find"), HasSubstr("0.083"),
                              HasSubstr(hash), Not(HasSubstr("strip-of-the-attic")), Not(HasSubstr("nnnn"))))
                << verb << " " << picture;
        }
}

TEST_F(PictureWords, WhatAJpegHasNoRoomForIsLeftOutWithANoteAndTheRecipeStays) {
    program.write("named.toml", pack_with_readings(1, "", std::string(70000, 'm')));
    const auto jpeg = program.run("print scan.tif --pack named.toml --bleach 40s -o out.jpg");
    ASSERT_EQ(jpeg.code, 0) << jpeg.err;
    EXPECT_THAT(jpeg.err,
                HasSubstr("left out of what the picture says about itself: pack, too long for a JPEG"));
    EXPECT_THAT(said_by(program / "out.jpg"),
                AllOf(HasSubstr("fogproof_recipe = 1"), HasSubstr("pack-sha256"), Not(HasSubstr("mmmm"))));
    const auto tiff = program.run("print scan.tif --pack named.toml --bleach 40s -o out.tif");
    ASSERT_EQ(tiff.code, 0) << tiff.err;
    EXPECT_THAT(tiff.err, Not(HasSubstr("left out")));
    EXPECT_THAT(said_by(program / "out.tif"), HasSubstr(std::string(70000, 'm')));
}

// FIPS 180-4, the example "abc" of its secure hash standard.
TEST(PackLabel, TellsTheHashOfTheFile) {
    EXPECT_THAT(pack_label(Pack{}, "abc"),
                testing::Contains(testing::Pair(
                    "pack-sha256", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")));
}

}  // namespace
}  // namespace fogproof::tests
