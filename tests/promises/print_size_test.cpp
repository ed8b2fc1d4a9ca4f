// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Seconds hold for one magnification: a picture drawn at another size is warned of, and a resolution that
// stands in a file by habit tells no size. Asked of the program; no published
// source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/film_scan.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;
using testing::Not;

class PrintSize : public ::testing::Test {
  protected:
    PrintSize() {
        vips_ready();
        const std::string pack =
            "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n[anchor]\nknown = true\n"
            "[enlarger]\nmagnification = 5\n";
        program_.write("pack.toml", pack);
        program_.write("edged.toml", pack + "[edge_fog]\ndensity = 0.3\nreach_mm = 10\n");
        // 36 mm of film.
        save("film.tif", 2400 / 25.4, 3400);
    }
    void save(const std::string& name, double per_mm, int wide) const {
        raster<std::uint8_t>(
            wide, 200, 1, [](int x, int y, int) { return 40 + (x / 8 + y) % 180; }, VIPS_INTERPRETATION_B_W)
            .copy(vips::VImage::option()->set("xres", per_mm)->set("yres", per_mm))
            .write_to_file((program_ / name).c_str());
    }
    std::string said(const std::string& words) const {
        const auto answer = program_.run(words + " --force");
        EXPECT_EQ(answer.code, 0) << words << "\n" << answer.err;
        return answer.err;
    }
    [[nodiscard]] double width_mm(const std::string& print) const {
        const auto picture = vips::VImage::new_from_file((program_ / print).c_str());
        return picture.width() / picture.xres();
    }
    Program program_;
};

constexpr char kOf[] = "film.tif --whole --clear 1 --encoding linear --grade 2 -o out.tif --pack ";

TEST_F(PrintSize, APictureDrawnAtAnotherSizeThanItsSecondsAreForIsWarnedOf) {
    const std::string print = std::string("print ") + kOf;
    EXPECT_THAT(
        said(print + "pack.toml --long-side 300"),
        HasSubstr("drawn 300 mm long, but all seconds are for magnification 5, which makes it 180 mm long; "
                  "give --magnification 8.3"));
    EXPECT_THAT(said(print + "pack.toml --long-side 300 --magnification 8.34"), Not(HasSubstr("drawn")));
    EXPECT_THAT(said(print + "pack.toml"), Not(HasSubstr("drawn")));
    EXPECT_THAT(said(print + "pack.toml --border sheet"), HasSubstr("drawn 280 mm long"));
    EXPECT_THAT(said(print + "edged.toml --sheet 50x60cm"), HasSubstr("drawn 580 mm long"));
    EXPECT_THAT(said("start film.tif --whole --clear 1 --encoding linear --pack edged.toml --sheet 50x60cm"),
                HasSubstr("drawn 580 mm long"));
}

TEST_F(PrintSize, AResolutionByHabitTellsNoSizeOfThePrint) {
    for (const double dpi : {72.0, 300.0}) {
        save("habit.jpg", dpi / 25.4, 600);
        said("print habit.jpg --pack pack.toml --grade 2 --whole --clear 1 -o habit-out.jpg");
        EXPECT_NEAR(width_mm("habit-out.jpg"), 600 / 300.0 * 25.4, 0.5) << dpi;
    }
    said(std::string("print ") + kOf + "pack.toml");
    EXPECT_NEAR(width_mm("out.tif"), 180, 1);
}

}  // namespace
}  // namespace fogproof::tests
