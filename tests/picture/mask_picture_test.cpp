// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A worksheet's picture of a mask: dark where the work is done, and the print faint under it everywhere, the
// right way up.
#include <gtest/gtest.h>

#include <vips/vips8>

#include "picture/mask_picture.hpp"
#include "scan/vips_session.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

constexpr int kSide = 80;
constexpr double kJpegError = 6;  // codes of 8 bits at a middle of an even area

// White above, black below; the right half is worked on.
TEST(MaskPicture, ShowsTheMaskOverItsPrint) {
    vips_ready();
    LevelGrid mask{kSide, kSide, {}};
    for (int i = 0; i < kSide * kSide; ++i) mask.level.push_back(i % kSide < kSide / 2 ? 0 : 65535);
    const FaintPicture under{1, 2, {1.0F, 0.0F}};
    const SmallPicture small = mask_jpeg(mask, kSide, under);
    const auto drawn = vips::VImage::new_from_buffer(small.jpeg.data(), small.jpeg.size(), "").copy_memory();
    const auto code = [&](double x, double y) { return drawn(int(x * kSide), int(y * kSide))[0]; };
    const double white = code(0.25, 0.25), black = code(0.25, 0.75), worked_white = code(0.75, 0.25),
                 worked_black = code(0.75, 0.75);
    // The work is the darkest thing there is, wherever it lies.
    EXPECT_LT(worked_white, black - 40);
    EXPECT_LT(worked_black, worked_white - kJpegError);
    EXPECT_LT(black, white - 40);
    EXPECT_GT(white, 230);
}

// The frame is the right half of what is printed, which is black; the left is clear edge.
TEST(MaskPicture, TakesTheFrameAloneOfWhatIsPrinted) {
    vips_ready();
    const LevelGrid mask{kSide, kSide, std::vector<std::uint16_t>(std::size_t(kSide) * kSide, 0)};
    FaintPicture under{4, 1, {1.0F, 1.0F, 0.0F, 0.0F}};
    under.left = 0.5;
    const SmallPicture small = mask_jpeg(mask, kSide, under);
    const auto drawn = vips::VImage::new_from_buffer(small.jpeg.data(), small.jpeg.size(), "").copy_memory();
    EXPECT_LT(drawn.max() - drawn.min(), kJpegError);
    EXPECT_LT(drawn.max(), 200);
}

}  // namespace
}  // namespace fogproof::tests
