// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The frame in drawn scans of film whose frame, clear film and surroundings are known.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "fogproof/base/error.hpp"
#include "scan/scan.hpp"
#include "support/film_scan.hpp"
#include "support/rooms.hpp"
#include "support/scan_codes.hpp"

namespace fogproof::tests {
namespace {

using testing::Contains;
using testing::Each;
using testing::HasSubstr;
using testing::Not;

// The search works in a copy of at most 640 pixels, so its pixel is 2 or 3 of the scan; two of them are given
// away on purpose so that nothing but picture lies inside.
constexpr double kDrawnIn = 9;
// Clear film is a median over thousands of pixels; what remains is rounding of the small copy's mean light.
constexpr double kClearFilm = 0.005;

class FrameSearch : public testing::Test {
  protected:
    TestFolder folder;
    Notes notes;
    Scan opened(const FilmScan& film, ScanOptions options = {}) {
        film.drawn().write_to_file((folder / "film.tif").c_str());
        notes.clear();
        return Scan::open(folder / "film.tif", options, notes);
    }
    /// All of the frame's pixels are picture, and little of the picture is lost.
    static void expect_frame(const Scan& scan, const FilmScan& film, double lost = kDrawnIn) {
        const Region frame = scan.frame();
        EXPECT_GE(frame.left, film.left);
        EXPECT_GE(frame.top, film.top);
        EXPECT_LE(frame.left + frame.width, film.right);
        EXPECT_LE(frame.top + frame.height, film.bottom);
        EXPECT_LE(frame.left, film.left + lost);
        EXPECT_LE(frame.top, film.top + lost);
        EXPECT_GE(frame.left + frame.width, film.right - lost);
        EXPECT_GE(frame.top + frame.height, film.bottom - lost);
    }
    void expect_clear_film(const Scan& scan, const FilmScan& film) {
        EXPECT_TRUE(scan.has_clear_reference());
        EXPECT_THAT(notes, Contains(HasSubstr("base + fog")));
        const double bare = 60000 * std::pow(10.0, -film.clear);
        const double found = scan.scale()[std::size_t(std::lround(bare))].value;
        EXPECT_NEAR(found, 0.0, kClearFilm);
    }
};

TEST_F(FrameSearch, FindsTheFrameInsideHolderAndClearEdge) {
    const FilmScan film;
    const Scan scan = opened(film);
    expect_frame(scan, film);
    expect_clear_film(scan, film);
    EXPECT_THAT(notes, Contains(HasSubstr("the frame was found")));
}

TEST_F(FrameSearch, FindsItOnALightTableWithoutHolder) {
    const FilmScan film{.holder = 0};
    const Scan scan = opened(film);
    expect_frame(scan, film);
    expect_clear_film(scan, film);
}

TEST_F(FrameSearch, PerforationsAreNotClearFilm) {
    const FilmScan film{.perforations = true};
    const Scan scan = opened(film);
    expect_frame(scan, film);
    expect_clear_film(scan, film);
}

TEST_F(FrameSearch, NeighboursOnTheStripAreLeftOut) {
    const FilmScan film{.perforations = true, .neighbours = true};
    const Scan scan = opened(film);
    expect_frame(scan, film);
    expect_clear_film(scan, film);
}

TEST_F(FrameSearch, DustAndGrainAreOutvoted) {
    const FilmScan film{.perforations = true, .dust = true, .grain = 0.04};
    const Scan scan = opened(film);
    expect_frame(scan, film);
    expect_clear_film(scan, film);
}

TEST_F(FrameSearch, OneDegreeOfRotationKeepsOnlyPicture) {
    for (const double degrees : {1.0, -1.0}) {
        const FilmScan film{.degrees = degrees, .perforations = true, .dust = true};
        const Scan scan = opened(film, {.askew = ScanOptions::Askew::kept});
        expect_clear_film(scan, film);
        EXPECT_THAT(notes, Contains(HasSubstr("degrees askew")));
        // The largest upright rectangle gives away tan(1 degree) of the other side at either end.
        const Region frame = scan.frame();
        const double tan = std::tan(std::numbers::pi / 180);
        EXPECT_GE(frame.width, film.right - film.left - (film.bottom - film.top) * tan - 2 * kDrawnIn);
        EXPECT_GE(frame.height, film.bottom - film.top - (film.right - film.left) * tan - 2 * kDrawnIn);
        const double turn = -degrees * std::numbers::pi / 180;
        for (const int x : {frame.left, frame.left + frame.width})
            for (const int y : {frame.top, frame.top + frame.height}) {
                const double dx = x - (film.left + film.right) / 2, dy = y - (film.top + film.bottom) / 2;
                const double film_x =
                    (film.left + film.right) / 2 + dx * std::cos(turn) - dy * std::sin(turn);
                const double film_y =
                    (film.top + film.bottom) / 2 + dx * std::sin(turn) + dy * std::cos(turn);
                EXPECT_GE(film_x, film.left - 0.5);
                EXPECT_LE(film_x, film.right + 0.5);
                EXPECT_GE(film_y, film.top - 0.5);
                EXPECT_LE(film_y, film.bottom + 0.5);
            }
    }
}

TEST_F(FrameSearch, MaskedFrameWithoutClearEdgeIsFoundButGivesNoReference) {
    const FilmScan film{.holder = 120, .left = 100, .top = 100, .right = 1340, .bottom = 900};
    const Scan scan = opened(film);
    const Region frame = scan.frame();
    EXPECT_GE(frame.left, 120);
    EXPECT_LE(frame.left, 120 + kDrawnIn);
    EXPECT_LE(frame.top + frame.height, 880);
    EXPECT_GE(frame.top + frame.height, 880 - kDrawnIn);
    EXPECT_FALSE(scan.has_clear_reference());
    EXPECT_THAT(notes, Contains(HasSubstr("full scale of the scan is taken as density 0")));
}

TEST_F(FrameSearch, SideHiddenByShadowIsSaidSo) {
    // The lower third of the picture is as clear as the film, but for one object that reaches down into it.
    FilmScan film;
    film.picture_law = [](double u, double v) {
        const bool object = u > 0.4 && u < 0.5 && v < 0.9;
        return object || v < 0.6 + 0.05 * std::sin(20 * u) ? 0.7 + 0.2 * std::sin(9 * u + 4 * v) : 0.0;
    };
    const Scan scan = opened(film);
    EXPECT_THAT(notes, Contains(HasSubstr("cannot be told from clear film")));
    expect_clear_film(scan, film);
    EXPECT_GE(scan.frame().left, film.left);
    EXPECT_LE(scan.frame().left, film.left + kDrawnIn);
    EXPECT_LE(scan.frame().top + scan.frame().height, film.bottom);
}

TEST_F(FrameSearch, SubjectBeforeABackdropAsClearAsFilmIsNotCropped) {
    FilmScan film;
    film.picture_law = [](double u, double v) {
        return std::hypot(u - 0.5, (v - 0.5) * 0.7) < 0.25 ? 0.9 + 0.3 * std::sin(8 * u) : 0.0;
    };
    const Scan scan = opened(film);
    EXPECT_THAT(notes, Contains(HasSubstr("cannot be told from clear film")));
    expect_clear_film(scan, film);
    EXPECT_LE(scan.frame().left, film.left);
    EXPECT_GE(scan.frame().left, film.holder);
    EXPECT_GE(scan.frame().top + scan.frame().height, film.bottom);
}

/// Shadows as clear as film reach ragged into three fifths of the right edge.
double shadow_on_the_right(double u, double v) {
    const double deep = 0.05 + 0.04 * std::sin(60 * v) + 0.03 * std::sin(137 * v);
    return std::fmod(5 * v, 1.0) < 0.6 && u > 1 - deep ? 0.0 : 0.7 + 0.2 * std::sin(9 * u + 4 * v);
}

TEST_F(FrameSearch, ThinHolderIsNoPicture) {
    for (const double density : {0.9, 1.4, 1.8, 2.3}) {
        FilmScan film{.holder = 60, .holder_density = density};
        film.picture_law = shadow_on_the_right;
        const Scan scan = opened(film);
        SCOPED_TRACE(density);
        expect_frame(scan, film);
        expect_clear_film(scan, film);
        EXPECT_THAT(scan.warnings(), Each(Not(HasSubstr("tone of the holder"))));
    }
}

TEST_F(FrameSearch, ThinHolderWithDustOnTheClearEdgeIsNoPicture) {
    FilmScan film{.holder = 60, .holder_density = 1.4, .perforations = true, .dust = true};
    film.picture_law = shadow_on_the_right;
    const Scan scan = opened(film);
    expect_frame(scan, film);
    expect_clear_film(scan, film);
}

TEST_F(FrameSearch, PictureAsDenseAsItsHolderIsPicture) {
    FilmScan film{.holder = 60, .holder_density = 2.1};
    film.picture_law = [](double u, double v) { return 1.8 + 0.08 * std::sin(9 * u + 4 * v); };
    const Scan scan = opened(film);
    expect_frame(scan, film);
    expect_clear_film(scan, film);
}

TEST_F(FrameSearch, SideThatCannotBeToldLeavesTheHolderOut) {
    FilmScan film{.holder = 60};
    film.picture_law = [](double u, double v) {
        const double edge = 0.78 + 0.1 * std::sin(7 * v) + 0.04 * std::sin(31 * v);
        return u < edge && std::abs(v - 0.5) < 0.44 ? 0.0 : 0.7 + 0.2 * std::sin(9 * u + 4 * v);
    };
    const Scan scan = opened(film);
    EXPECT_THAT(notes, Contains(HasSubstr("cannot be told from clear film")));
    expect_clear_film(scan, film);
    EXPECT_GE(scan.frame().left, film.holder);
    EXPECT_LE(scan.frame().top, film.top + kDrawnIn);
}

TEST_F(FrameSearch, FrameThatRunsIntoTheHolderIsWarnedOf) {
    // The holder lies on the upper edge of the frame, and nothing but its tone tells it from the picture.
    const FilmScan film{.holder = 40, .holder_density = 1.5, .top = 30};
    EXPECT_THAT(opened(film).warnings(), Contains(HasSubstr("rim of the scan (top)")));
    const ScanOptions told{.frame = Region{160, 40, 1120, 810}};
    EXPECT_THAT(opened(film, told).warnings(), Each(Not(HasSubstr("tone of the holder"))));
    EXPECT_THAT(opened(film, {.whole = true}).warnings(), Each(Not(HasSubstr("tone of the holder"))));
    EXPECT_THAT(opened(FilmScan{}).warnings(), Each(Not(HasSubstr("tone of the holder"))));
}

TEST_F(FrameSearch, CroppedScanIsAllFrame) {
    const FilmScan film{.holder = 0, .left = -40, .top = -40, .right = 1480, .bottom = 1040};
    const Scan scan = opened(film);
    EXPECT_EQ(scan.frame().width, film.width);
    EXPECT_EQ(scan.frame().height, film.height);
    EXPECT_THAT(notes, Contains(HasSubstr("no edge of a frame was found")));
    EXPECT_FALSE(scan.has_clear_reference());
}

TEST_F(FrameSearch, FrameTooSmallToJudgeIsNotTaken) {
    const FilmScan film{
        .width = 40, .height = 40, .holder = 0, .left = 12, .top = 12, .right = 28, .bottom = 28};
    EXPECT_EQ(opened(film).frame().width, 40);
    EXPECT_THAT(notes, Contains(HasSubstr("no edge of a frame was found")));
}

TEST_F(FrameSearch, WholeScanIsTakenOnRequest) {
    const Scan scan = opened(FilmScan{}, {.whole = true});
    EXPECT_EQ(scan.frame().width, 1440);
}

TEST_F(FrameSearch, GivenFrameStandsAndClearFilmIsStillFound) {
    const FilmScan film;
    const Scan scan = opened(film, {.frame = Region{300, 250, 500, 400}});
    EXPECT_EQ(scan.frame().left, 300);
    EXPECT_EQ(scan.frame().height, 400);
    expect_clear_film(scan, film);
}

TEST_F(FrameSearch, ClearEdgeIsPrintedOnRequestButDoesNotCount) {
    for (const bool perforations : {false, true}) {
        const FilmScan film{.perforations = perforations};
        const Scan plain = opened(film), edged = opened(film, {.clear_edge = true});
        EXPECT_EQ(edged.histogram(), plain.histogram());
        EXPECT_GT(edged.width(), plain.width() + 60);
        EXPECT_GT(edged.height(), plain.height() + 40);
        // Nothing but clear film in the outermost line: neither holder nor perforation.
        const auto codes = codes_of(edged);
        ASSERT_EQ(codes.size(), std::size_t(edged.width()) * std::size_t(edged.height()));
        for (int x = 0; x < edged.width(); ++x)
            ASSERT_NEAR(edged.scale()[codes[std::size_t(x)]].value, 0.0, 6 * film.grain) << x;
    }
}

TEST_F(FrameSearch, ClearEdgeAroundAGivenFrame) {
    const FilmScan film;
    const Scan scan = opened(film, {.frame = Region{160, 150, 1120, 700}, .clear_edge = true});
    EXPECT_EQ(scan.frame().width, 1120);
    EXPECT_GT(scan.width(), 1180);
}

TEST_F(FrameSearch, MissingClearEdgeIsRefusedWhenItIsToBePrinted) {
    const FilmScan film{.holder = 120, .left = 100, .top = 100, .right = 1340, .bottom = 900};
    try {
        (void)opened(film, {.clear_edge = true});
        FAIL() << "not refused";
    } catch (const Error& error) {
        EXPECT_EQ(error.fault(), Fault::data);
    }
}

}  // namespace
}  // namespace fogproof::tests
