// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Turned codes against the formula of cubic convolution, and what they do at the ends of scale and sheet.
#include "scan/turned_codes.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/film_scan.hpp"
#include "support/rooms.hpp"
#include "support/variable.hpp"

namespace fogproof::tests {
namespace {

using CodeAt = std::function<double(int, int, int)>;

/// A picture in memory as lines of codes.
template <class Code>
class DrawnCodes : public CodeSource {
  public:
    DrawnCodes(int width, int height, const CodeAt& at, bool in_order = false)
        : width_(width), height_(height), in_order_(in_order) {
        for (int y = 0; y < height; ++y)
            for (int x = 0; x < width; ++x) codes_.push_back(Code(at(x, y, 0)));
    }
    [[nodiscard]] std::string name() const override { return "drawn"; }
    [[nodiscard]] int width() const override { return width_; }
    [[nodiscard]] int height() const override { return height_; }
    [[nodiscard]] std::size_t codes() const override { return std::size_t(1) << 8 * sizeof(Code); }
    [[nodiscard]] std::size_t line_bytes() const override { return std::size_t(width_) * sizeof(Code); }
    [[nodiscard]] bool in_order() const override { return in_order_; }
    [[nodiscard]] std::unique_ptr<CodeReader> reader() const override {
        class Reader : public CodeReader {
          public:
            explicit Reader(const DrawnCodes& drawn) : drawn_(drawn) {}
            CodeBand lines(int top, int count) override {
                EXPECT_GE(top, 0);
                EXPECT_LE(top + count, drawn_.height_);
                if (drawn_.in_order_) {
                    EXPECT_EQ(top, next_) << "lines are asked for once, from top to bottom";
                }
                next_ = top + count;
                return {drawn_.codes_.data() + std::size_t(top) * std::size_t(drawn_.width_),
                        std::size_t(drawn_.width_)};
            }

          private:
            const DrawnCodes& drawn_;
            int next_ = 0;
        };
        return std::make_unique<Reader>(*this);
    }

  private:
    int width_, height_;
    bool in_order_;
    std::vector<Code> codes_;
};

template <class Code>
std::vector<Code> codes_turned(const TurnedCodes& turned) {
    const int width = turned.turning().width(), height = turned.turning().height();
    std::vector<Code> codes(std::size_t(width) * std::size_t(height));
    for (int y = 0; y < height; ++y)
        turned.read(y, 0, width,
                    reinterpret_cast<std::byte*>(codes.data() + std::size_t(y) * std::size_t(width)));
    return codes;
}

// Keys, "Cubic convolution interpolation for digital image processing", IEEE Trans. ASSP 29 (1981), eq. 15:
// the weight of a pixel at a distance.
double keys(double distance) {
    const double s = std::abs(distance);
    return s < 1 ? (1.5 * s - 2.5) * s * s + 1 : s < 2 ? ((-0.5 * s + 2.5) * s - 4) * s + 2 : 0;
}

/// The same by the formula, in doubles, where the places are as Turning tells them.
double by_formula(const CodeAt& at, int width, int height, const Turning& turning, int x, int y) {
    const PixelPlace there = turning.place_lying({x + 0.5, y + 0.5});
    const double middle_x = there.x - 0.5, middle_y = there.y - 0.5;
    double sum = 0;
    for (int j = int(std::floor(middle_y)) - 1; j <= std::floor(middle_y) + 2; ++j)
        for (int i = int(std::floor(middle_x)) - 1; i <= std::floor(middle_x) + 2; ++i)
            sum += at(std::clamp(i, 0, width - 1), std::clamp(j, 0, height - 1), 0) * keys(i - middle_x) *
                   keys(j - middle_y);
    return sum;
}

/// `steepest` codes a pixel is the most the picture climbs in either direction.
template <class Code>
void expect_by_formula(const CodeAt& at, double steepest, double median_allowed) {
    constexpr int kWidth = 331, kHeight = 220;
    for (const double degrees : {-4.0, -1.3, 0.5, 3.0}) {
        const Turning turning(degrees, kWidth, kHeight);
        const auto codes = codes_turned<Code>(TurnedCodes(DrawnCodes<Code>(kWidth, kHeight, at), turning));
        // Places are taken to 1/64 of a pixel: half of that off in both directions, and codes are rounded.
        const double allowed = 2 * steepest / 128 + 0.5;
        std::vector<double> off;
        for (int y = 0; y < turning.height(); ++y)
            for (int x = 0; x < turning.width(); ++x) {
                const double code = codes[std::size_t(y) * std::size_t(turning.width()) + std::size_t(x)];
                off.push_back(std::abs(code - by_formula(at, kWidth, kHeight, turning, x, y)));
                ASSERT_LE(off.back(), allowed) << degrees << " at " << x << ", " << y;
            }
        std::sort(off.begin(), off.end());
        testing::Test::RecordProperty("median_at_" + std::to_string(degrees),
                                      std::to_string(off[off.size() / 2]));
        testing::Test::RecordProperty("worst_at_" + std::to_string(degrees), std::to_string(off.back()));
        EXPECT_LE(off[off.size() / 2], median_allowed) << degrees;
    }
}

double waves(int x, int y, double middle, double size) {
    return std::round(middle + size * std::sin(0.13 * x + 0.05 * y) * std::cos(0.09 * y));
}

TEST(TurnedCodes, AreThoseOfTheFormulaInSixteenBits) {
    expect_by_formula<std::uint16_t>([](int x, int y, int) { return waves(x, y, 32000, 30000); },
                                     30000 * 0.13, 12);
}

TEST(TurnedCodes, AreThoseOfTheFormulaInEightBits) {
    expect_by_formula<std::uint8_t>([](int x, int y, int) { return waves(x, y, 128, 120); }, 120 * 0.13, 0.3);
}

TEST(TurnedCodes, NothingRunsOverAtTheEndsOfTheScale) {
    // Black and white squares. From half a pixel beside an edge on the cubic is at the last code or over it.
    const auto squares = [](int x, int y, int) { return (x / 9 + y / 9) % 2 == 0 ? 0.0 : 65535.0; };
    const DrawnCodes<std::uint16_t> drawn(300, 200, squares);
    const Turning turning(2, 300, 200);
    const auto codes = codes_turned<std::uint16_t>(TurnedCodes(drawn, turning));
    int black = 0, white = 0;
    for (int y = 0; y < turning.height(); ++y)
        for (int x = 0; x < turning.width(); ++x) {
            const PixelPlace at = turning.place_lying({x + 0.5, y + 0.5});
            const double in_x = std::fmod(at.x, 9), in_y = std::fmod(at.y, 9);
            const bool is_middle = std::min(in_x, in_y) > 0.6 && std::max(in_x, in_y) < 8.4 && at.x > 0 &&
                                   at.y > 0 && at.x < 297 && at.y < 198;
            const auto code = codes[std::size_t(y) * std::size_t(turning.width()) + std::size_t(x)];
            if (!is_middle) continue;
            const bool is_black = (int(at.x / 9) + int(at.y / 9)) % 2 == 0;
            ASSERT_EQ(code, is_black ? 0 : 65535) << x << ", " << y;
            ++(is_black ? black : white);
        }
    EXPECT_GT(black, 5000);
    EXPECT_GT(white, 5000);
}

TEST(TurnedCodes, NoTurnChangesNothing) {
    const auto at = [](int x, int y, int) { return double((x * 7919 + y * 104729) % 65536); };
    const DrawnCodes<std::uint16_t> drawn(97, 61, at);
    const auto codes = codes_turned<std::uint16_t>(TurnedCodes(drawn, Turning(0, 97, 61)));
    for (int y = 0; y < 61; ++y)
        for (int x = 0; x < 97; ++x) ASSERT_EQ(codes[std::size_t(y * 97 + x)], at(x, y, 0));
}

TEST(TurnedCodes, OutermostPixelsGoOnBeyondTheScan) {
    const DrawnCodes<std::uint16_t> drawn(200, 100, [](int, int y, int) { return y < 50 ? 500.0 : 900.0; });
    const auto codes = codes_turned<std::uint16_t>(TurnedCodes(drawn, Turning(5, 200, 100)));
    EXPECT_EQ(codes.front(), 500);
    EXPECT_EQ(codes.back(), 900);
}

TEST(TurnedCodes, AreTheSameForAnyNumberOfWorkersAndWhereverTheyLie) {
    const auto at = [](int x, int y, int) { return waves(x, y, 32000, 30000); };
    const DrawnCodes<std::uint16_t> drawn(700, 900, at), streamed(700, 900, at, true);
    const Turning turning(-3.3, 700, 900);
    const auto alone = codes_turned<std::uint16_t>(TurnedCodes(drawn, turning, {1}));
    for (const unsigned threads : {2u, 5u})
        EXPECT_TRUE(codes_turned<std::uint16_t>(TurnedCodes(drawn, turning, {threads})) == alone);
    EXPECT_TRUE(codes_turned<std::uint16_t>(TurnedCodes(streamed, turning)) == alone);
    const Variable nowhere("TMPDIR", "/nonexistent");
    EXPECT_TRUE(codes_turned<std::uint16_t>(TurnedCodes(drawn, turning)) == alone) << "in memory";
}

TEST(TurnedCodes, APartIsReadFromEitherSide) {
    const DrawnCodes<std::uint8_t> drawn(120, 90, [](int x, int y, int) { return waves(x, y, 128, 120); });
    const auto turned = std::make_shared<const TurnedCodes>(drawn, Turning(2, 120, 90));
    const auto all = codes_turned<std::uint8_t>(*turned);
    const Region region{11, 23, 40, 30};
    for (const LineOrder order : {LineOrder::as_scanned, LineOrder::reversed}) {
        const auto part = TurnedCodes::part(turned, region, order, {});
        EXPECT_EQ(part->codes(), 256u);
        const auto reader = part->reader();
        const CodeBand band = reader->lines(5, 20);
        for (int y = 0; y < 20; ++y)
            for (int x = 0; x < 40; ++x) {
                const int from = 11 + (order == LineOrder::reversed ? 39 - x : x);
                ASSERT_EQ(band.line<std::uint8_t>(y)[x],
                          all[std::size_t(23 + 5 + y) * std::size_t(turned->turning().width()) +
                              std::size_t(from)]);
            }
    }
}

TEST(TurnedCodes, LeaveNothingBehind) {
    const TestFolder folder;
    const Variable here("TMPDIR", (folder / "").string());
    const DrawnCodes<std::uint16_t> drawn(120, 90,
                                          [](int x, int y, int) { return waves(x, y, 32000, 9000); });
    const TurnedCodes turned(drawn, Turning(2, 120, 90));
    EXPECT_TRUE(std::filesystem::is_empty(folder / ""));
}

}  // namespace
}  // namespace fogproof::tests
