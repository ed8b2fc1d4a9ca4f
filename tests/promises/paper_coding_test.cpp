// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Flatbed scans of paper whose codes nobody explains: what is taken, what is warned of, what is repeated.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "support/read_strips.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using nlohmann::json;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

class PaperCoding : public Reads {
  protected:
    // A strip of 21 steps down to a black of 1.9, 16 bits without a profile, in linear codes and in sRGB's.
    void SetUp() override {
        const StripScan scan = plain_scan(printed_wedge(21, 0.15, 0.12, 1.9));
        scan.linear().tiffsave((program_ / "linear.tif").c_str());
        const vips::VImage eight = in_srgb_codes(scan.light(), 1);
        (eight * 257)
            .cast(VIPS_FORMAT_USHORT)
            .copy(vips::VImage::option()->set("interpretation", VIPS_INTERPRETATION_GREY16))
            .tiffsave((program_ / "gamma.tif").c_str());
    }
    std::string said(const std::string& words) {
        std::filesystem::remove(program_ / "rows.csv");
        const auto answer = program_.run("read -o rows.csv --exposure 8 " + words);
        EXPECT_EQ(answer.code, 0) << words << answer.err;
        return answer.err;
    }
    [[nodiscard]] std::vector<Reading> read_rows() const {
        return parse_readings(content_of(program_ / "rows.csv"), "rows.csv");
    }
    Program program_;
};

TEST_F(PaperCoding, CodesForTheEyeThatAreTakenAsLinearAreWarnedOf) {
    EXPECT_THAT(said("linear.tif"), AllOf(HasSubstr("taken as linear reflectance"), Not(HasSubstr("warning")),
                                          Not(HasSubstr("transmittance"))));
    EXPECT_THAT(said("gamma.tif"),
                AllOf(HasSubstr("warning: gamma.tif: the scan is taken as linear, but its darkest"),
                      HasSubstr("--encoding srgb")));
    EXPECT_THAT(program_.run("read gamma.tif --labels-out labels.csv").err,
                HasSubstr("warning: gamma.tif: the scan is"));
    const auto as_json = program_.run("read gamma.tif -o rows.csv --exposure 8 --strip again --json");
    EXPECT_EQ(json::parse(as_json.out)["warnings"].size(), 1U) << as_json.out;
    for (const char* told : {"srgb", "linear"})
        EXPECT_THAT(said(std::string("gamma.tif --encoding ") + told), Not(HasSubstr("warning"))) << told;
}

// Where two densities are known, no range of tones has to be guessed from.
TEST_F(PaperCoding, KnownPatchesTellIt) {
    StripScan scan = plain_scan(printed_wedge(21, 0.15, 0.12, 1.9));
    scan.patches.push_back({{600, 300, 160, 80}, 1.8});
    scan.linear().tiffsave((program_ / "two.tif").c_str());
    const std::string known = "two.tif --white 312,312,136,56=0.12 --dark 612,312,136,56=1.8 --encoding ";
    EXPECT_THAT(said(known + "linear"), Not(HasSubstr("warning")));
    for (const char* wrong : {"srgb", "gamma22"})
        EXPECT_THAT(said(known + wrong),
                    HasSubstr("warning: two.tif: the known patches lie on one scale only if"));
}

TEST_F(PaperCoding, TheNextCommandRepeatsHowTheScanIsRead) {
    const auto pieces =
        program_.run("read gamma.tif --encoding srgb --frame 10,100,880,290 --labels-out labels.csv");
    ASSERT_EQ(pieces.code, 0) << pieces.err;
    EXPECT_THAT(pieces.err, HasSubstr("then: fogproof read gamma.tif --encoding srgb --frame 10,100,880,290 "
                                      "--labels labels.csv -o READINGS"));
    EXPECT_THAT(program_.run("read gamma.tif --labels-out others.csv").err,
                HasSubstr("then: fogproof read gamma.tif --labels others.csv -o READINGS"));
}

// Slips hold no black, by which linear codes would show.
TEST_F(PaperCoding, SlipsWithoutABlackLeaveTheCodingOpen) {
    StripScan scan{.width = 900, .height = 400, .lid = 1.6};
    scan.patches = {{{100, 100, 220, 160}, 0.09}, {{500, 100, 220, 160}, 0.42}};
    scan.linear().tiffsave((program_ / "slips.tif").c_str());
    const std::string read = "slips.tif --known 1=0.09 --steps 1";
    scan.lid = 0.03;
    scan.patches = {{{100, 100, 220, 160}, 0.2}, {{500, 100, 220, 160}, 0.42}};
    scan.linear().tiffsave((program_ / "white_lid.tif").c_str());
    EXPECT_THAT(said(read), Not(HasSubstr("warning"))) << "the lid is a black";
    const std::string white = "white_lid.tif --white 140,130,120,90=0.2 --steps 1";
    EXPECT_THAT(said(white), HasSubstr("no black on it tells whether it is"));
    const auto open = read_rows();
    EXPECT_THAT(said(white + " --encoding linear"), Not(HasSubstr("warning")));
    const auto told = read_rows();
    ASSERT_FALSE(open.empty());
    ASSERT_EQ(open.size(), told.size());
    for (std::size_t i = 0; i < open.size(); ++i) {
        EXPECT_EQ(open[i].density, told[i].density);
        EXPECT_GT(*open[i].dark_error, 0.35 * open[i].density);
        EXPECT_LT(*told[i].dark_error, 0.05 * told[i].density);
    }
}

}  // namespace
}  // namespace fogproof::tests
