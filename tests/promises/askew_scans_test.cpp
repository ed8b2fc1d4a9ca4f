// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Scans of film that lies askew, asked of the program: they print as the upright scan does, every verb says
// so, and nothing is turned that need not be.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <regex>

#include "pixels/turning.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/scanned_print.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;
using vips::VImage;

/// 720 x 500 pixels, searched for its frame at full size: two pixels are drawn in at each side.
FilmScan small_film(double degrees) {
    FilmScan film{.width = 720,
                  .height = 500,
                  .holder = 20,
                  .left = 80,
                  .top = 75,
                  .right = 640,
                  .bottom = 425,
                  .degrees = degrees,
                  .grain = 0};
    film.picture_law = [](double u, double v) {
        return 0.8 + 0.4 * std::sin(9 * u + 2) * std::cos(7 * v) + 0.1 * std::sin(40 * u + 30 * v);
    };
    return film;
}

class AskewScans : public testing::Test {
  protected:
    AskewScans() { program_.write("pack.toml", "fogproof_pack = 1\n"); }
    void save(const FilmScan& film, const std::string& name) {
        film.drawn().write_to_file((program_ / name).c_str());
    }
    std::string printed(const std::string& words) {
        const auto answer = program_.run("print " + words + " --pack pack.toml --exposure +1 --force --json");
        EXPECT_EQ(answer.code, 0) << words << "\n" << answer.err;
        if (answer.code == 0) print_ = nlohmann::json::parse(answer.out)["prints"][0];
        return answer.err;
    }
    static Region frame_in(const std::string& notes) {
        const std::regex told(R"(frame was found: (\d+) x (\d+) at (\d+), (\d+) pixels)");
        std::smatch found;
        if (!std::regex_search(notes, found, told)) {
            ADD_FAILURE() << notes;
            return {};
        }
        return {std::stoi(found[3]), std::stoi(found[4]), std::stoi(found[1]), std::stoi(found[2])};
    }
    VImage picture(const std::string& name) { return VImage::new_from_file((program_ / name).c_str()); }

    Program program_;
    nlohmann::json print_;  // what was said of the last one
};

TEST_F(AskewScans, ThePrintIsThatOfTheUprightScan) {
    const FilmScan upright = small_film(0);
    save(upright, "upright.tif");
    const std::string plain = printed("upright.tif -o upright.png");
    EXPECT_THAT(plain, Not(HasSubstr("turned")));
    const Region wanted = frame_in(plain);
    const VImage truth = picture("upright.png").extract_band(1).copy_memory();
    for (const double degrees : {-4.0, -1.3, 0.5, 3.0}) {
        save(small_film(degrees), "askew.tif");
        const std::string notes = printed("askew.tif -o askew.png");
        const double turned = std::stod(notes.substr(notes.find("was turned ") + 11));
        EXPECT_NEAR(turned, std::abs(degrees), 0.051) << "told to a tenth";
        EXPECT_THAT(notes, AllOf(HasSubstr("pixels of the turned scan"),
                                 HasSubstr(degrees < 0 ? " degrees clockwise" : " degrees anticlockwise")));
        const Region frame = frame_in(notes);
        // A turned frame is drawn in by what the interpolation reaches over its edge; the rest is within two
        // pixels at each side.
        constexpr int kReachedOver = 2;
        EXPECT_NEAR(frame.width + 2 * kReachedOver, wanted.width, 4);
        EXPECT_NEAR(frame.height + 2 * kReachedOver, wanted.height, 4);
        // The film was turned about the middle of its frame, which is that of the scan.
        const Turning turning(print_["degrees_turned"], upright.width, upright.height);
        const PixelPlace middle = turning.place_turned({360, 250});
        const VImage print = picture("askew.png").extract_band(1).copy_memory();
        std::vector<double> off;
        for (int y = 8; y < frame.height - 8; ++y)
            for (int x = 8; x < frame.width - 8; ++x) {
                const double there_x = frame.left + x - middle.x + 360 - wanted.left,
                             there_y = frame.top + y - middle.y + 250 - wanted.top;
                const int left = int(std::floor(there_x)), up = int(std::floor(there_y));
                const double a = there_x - left, b = there_y - up;
                const auto at = [&](int i, int j) {
                    return double(*reinterpret_cast<const std::uint16_t*>(
                        VIPS_IMAGE_ADDR(truth.get_image(), left + i, up + j)));
                };
                const double here =
                    *reinterpret_cast<const std::uint16_t*>(VIPS_IMAGE_ADDR(print.get_image(), x, y));
                off.push_back(std::abs(here - ((1 - b) * ((1 - a) * at(0, 0) + a * at(1, 0)) +
                                               b * ((1 - a) * at(0, 1) + a * at(1, 1)))));
            }
        std::sort(off.begin(), off.end());
        RecordProperty("median_at_" + std::to_string(degrees), std::to_string(off[off.size() / 2] / 65535));
        RecordProperty("worst_at_" + std::to_string(degrees), std::to_string(off.back() / 65535));
        // Of the 65536 codes of an sRGB print: the picture's steepest slope is some 800 a pixel.
        EXPECT_LT(off[off.size() / 2], 65535 * 0.001) << degrees;
        EXPECT_LT(off.back(), 65535 * 0.008) << degrees;
    }
}

TEST_F(AskewScans, KeepAskewTakesAnUprightRectangleInside) {
    save(small_film(2), "askew.tif");
    save(small_film(0), "upright.tif");
    const std::string turned = printed("askew.tif -o turned.png"),
                      kept = printed("askew.tif -o kept.png --keep-askew");
    EXPECT_THAT(kept,
                AllOf(HasSubstr("upright inside a frame 2 degrees askew"), Not(HasSubstr("was turned"))));
    // What an upright rectangle gives away, to first order in the angle.
    const double tan = std::tan(2 * std::numbers::pi / 180);
    EXPECT_NEAR(picture("turned.png").width() - picture("kept.png").width(), 350 * tan, 5);
    EXPECT_NEAR(picture("turned.png").height() - picture("kept.png").height(), 560 * tan, 5);
    // Kept, pixels are those of the scan: of a frame told as it was found.
    const Region frame = frame_in(kept);
    printed("askew.tif -o told.png --frame " + std::to_string(frame.left) + "," + std::to_string(frame.top) +
            "," + std::to_string(frame.width) + "," + std::to_string(frame.height));
    EXPECT_EQ((picture("told.png") != picture("kept.png")).max(), 0);
    // A frame that lies upright is the same, byte for byte.
    printed("upright.tif -o one.png");
    printed("upright.tif -o other.png --keep-askew");
    EXPECT_EQ(content_of(program_ / "one.png"), content_of(program_ / "other.png"));
}

TEST_F(AskewScans, KeepAskewIsToldToBeIdleWhereNoFrameIsLookedFor) {
    save(small_film(2), "askew.tif");
    for (const char* told : {"--frame 120,110,480,280", "--whole", "--as positive"}) {
        const std::string print = "askew.tif -o print.png " + std::string(told);
        EXPECT_THAT(printed(print + " --keep-askew"), HasSubstr("--keep-askew changes nothing here")) << told;
        EXPECT_THAT(printed(print), Not(HasSubstr("--keep-askew"))) << told;
    }
    EXPECT_THAT(printed("askew.tif -o print.png --keep-askew"), Not(HasSubstr("changes nothing")));
}

TEST_F(AskewScans, OtherVerbsTurnThemTooAndTellTheDegrees) {
    save(small_film(1.5), "askew.tif");
    const auto told = [&](const std::string& words) {
        const auto answer = program_.run(words);
        EXPECT_EQ(answer.code, 0) << words << "\n" << answer.err;
        EXPECT_EQ(answer.err.find("was turned 1.5 degrees anticlockwise") == std::string::npos,
                  words.find("--keep-askew") != std::string::npos)
            << words << "\n"
            << answer.err;
        return answer.out;
    };
    const auto degrees = [](const nlohmann::json& said) {
        return said.contains("degrees_turned") ? said["degrees_turned"].get<double>() : 0;
    };
    constexpr double kTold = 0.05;
    const std::string askew = " askew.tif --pack pack.toml ", kept = askew + "--keep-askew ";
    using nlohmann::json;
    EXPECT_NEAR(degrees(json::parse(told("print" + askew + "-o a.tif --json"))["prints"][0]), -1.5, kTold);
    EXPECT_EQ(degrees(json::parse(told("print" + kept + "-o b.tif --json"))["prints"][0]), 0);
    EXPECT_NEAR(degrees(json::parse(told("start" + askew + "--json"))), -1.5, kTold);
    EXPECT_EQ(degrees(json::parse(told("start" + kept + "--json"))), 0);
    EXPECT_NEAR(degrees(json::parse(told("plan" + askew + "--json"))["prints"][0]), -1.5, kTold);
    EXPECT_EQ(degrees(json::parse(told("plan" + kept + "--json"))["prints"][0]), 0);
    told("grid" + askew + "--across grade=1,2 --down bleach=0,20s --cell 80 -o grid.png");
    EXPECT_NEAR(degrees(json::parse(content_of(program_ / "grid.png.json"))), -1.5, kTold);
    told("grid" + kept + "--across grade=1,2 --down bleach=0,20s --cell 80 -o kept.png");
    EXPECT_EQ(degrees(json::parse(content_of(program_ / "kept.png.json"))), 0);
    for (const char* name : {"a.tif", "grid.png"}) {
        const VImage made = picture(name);
        std::size_t size = 0;
        const auto* const bytes = static_cast<const char*>(made.get_blob(VIPS_META_XMP_NAME, &size));
        EXPECT_THAT(std::string(bytes, size), HasSubstr("degrees-turned")) << name;
    }
    program_.write("readings.csv",
                   "strip,wedge_density,exposure_s,filter,develop_s,bleach_s,density\n"
                   "a,0.1,10,2,90,0,1.6\na,0.6,10,2,90,0,1.2\na,1.1,10,2,90,0,0.5\na,2.5,10,2,90,0,0.3\n"
                   "b,0.1,10,4,90,0,1.7\nb,0.6,10,4,90,0,1.3\nb,1.1,10,4,90,0,0.4\nb,2.5,10,4,90,0,0.3\n");
    told("pack fit readings.csv --negative askew.tif -o fitted.toml");
    told("pack fit readings.csv --negative askew.tif -o kept.toml --keep-askew");
}

TEST_F(AskewScans, AreTheSameBytesOnOneProcessorAndOnAll) {
    save(small_film(-2.5), "askew.tif");
    const std::string print = "\"$FOGPROOF\" print askew.tif --pack pack.toml --quiet -o ";
    ASSERT_EQ(program_.shell("taskset -c 0 " + print + "one.tif").code, 0);
    ASSERT_EQ(program_.shell(print + "all.tif").code, 0);
    EXPECT_TRUE(content_of(program_ / "one.tif") == content_of(program_ / "all.tif"));
    // In memory, where the disk has no room.
    ASSERT_EQ(program_.shell("TMPDIR=/nonexistent " + print + "memory.tif").code, 0);
    EXPECT_TRUE(content_of(program_ / "memory.tif") == content_of(program_ / "all.tif"));
}

TEST_F(AskewScans, KilledTheyLeaveNothingAndWithoutRoomThatIsTold) {
    save(small_film(-2.5), "askew.tif");
    std::filesystem::create_directory(program_ / "scratch");
    std::filesystem::create_directory(program_ / "out");
    const auto before = program_.files();
    for (const char* after : {"0.002", "0.01", "0.025", "0.05", "0.09"})
        static_cast<void>(program_.shell(
            std::string("TMPDIR=scratch timeout -s KILL ") + after +
            " \"$FOGPROOF\" print askew.tif --pack pack.toml --quiet --force -o out/print.tif"));
    std::filesystem::remove(program_ / "out/print.tif");  // of a run that was quicker
    EXPECT_TRUE(program_.files() == before);
    EXPECT_TRUE(std::filesystem::is_empty(program_ / "scratch"));
    const auto full = program_.shell(
        "ulimit -f 100 && \"$FOGPROOF\" print askew.tif --pack pack.toml --quiet --size 60 -o small.png");
    EXPECT_EQ(full.code, 74);  // EX_IOERR of sysexits.h
    EXPECT_THAT(full.err, AllOf(HasSubstr("askew.tif: cannot be turned: "), HasSubstr("$TMPDIR")));
    EXPECT_TRUE(program_.files() == before);
}

TEST_F(AskewScans, ReadHoldsPrintsAgainstTheUprightFrame) {
    const DrawnNegative negative(7);
    FilmScan film{
        .width = 1000, .height = 760, .holder = 20, .left = 140, .top = 140, .right = 860, .bottom = 620};
    film.degrees = 2, film.grain = 0.002;
    film.picture_law = [&](double u, double v) { return negative.at(u, v) + 0.05; };
    save(film, "askew.tif");
    DrawnPrint print;
    print.degrees = -3;
    PrintScan scan;
    scan.prints = {print};
    scan.linear(negative).write_to_file((program_ / "print.tif").c_str());
    const std::string read = "read print.tif --negative askew.tif --json --callier 1 --flare 0 -o rows.csv ";
    const auto answer = program_.run(read);
    ASSERT_EQ(answer.code, 0) << answer.err;
    const auto told = nlohmann::json::parse(answer.out);
    EXPECT_NEAR(told["degrees_turned"].get<double>(), -2, 0.05);
    ASSERT_EQ(told["corners"].size(), 4u);
    // Corners are those of the whole frame, as they were printed, to a pixel of the scan of the print.
    for (std::size_t i = 0; i < 4; ++i)
        EXPECT_LT(std::hypot(told["corners"][i][0].get<double>() - print.corners()[i][0],
                             told["corners"][i][1].get<double>() - print.corners()[i][1]),
                  1.5)
            << i;
    // The upright rectangle inside is too small for this print.
    const auto kept = program_.run(read + "--keep-askew");
    EXPECT_EQ(kept.code, 65);
    EXPECT_THAT(kept.err, HasSubstr("found or told too small"));
}

}  // namespace
}  // namespace fogproof::tests
