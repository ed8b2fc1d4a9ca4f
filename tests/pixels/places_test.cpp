// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scan whose frame is told apart into places: each pixel counts and is printed by its code and its place.
#include <gtest/gtest.h>

#include <cstring>

#include "pixels/passes.hpp"
#include "support/strips.hpp"

namespace fogproof::tests {
namespace {

// Two places: a disc and what lies around it, and within it a column that belongs to the surround again.
std::size_t place_at(int x, int y) {
    const int across = x - kWidth / 2, down = y - kHeight / 3;
    return across * across + down * down < kHeight * kHeight / 9 && x != kWidth / 2 ? 1 : 0;
}

class Masked : public CodeSource {
  public:
    explicit Masked(const CodeSource& scan) : scan_(scan) {}
    [[nodiscard]] std::string name() const override { return scan_.name(); }
    [[nodiscard]] int width() const override { return scan_.width(); }
    [[nodiscard]] int height() const override { return scan_.height(); }
    [[nodiscard]] std::size_t codes() const override { return scan_.codes(); }
    [[nodiscard]] std::size_t places() const override { return 2; }
    [[nodiscard]] std::vector<PlaceRun> runs(int line) const override {
        std::vector<PlaceRun> all;
        for (int x = 0; x < width(); ++x)
            if (!all.empty() && all.back().place == place_at(x, line))
                all.back().end = x + 1;
            else
                all.push_back({x + 1, place_at(x, line)});
        return all;
    }
    [[nodiscard]] std::size_t line_bytes() const override { return scan_.line_bytes(); }
    [[nodiscard]] int lines_together() const override { return scan_.lines_together(); }
    [[nodiscard]] int lines_above() const override { return scan_.lines_above(); }
    [[nodiscard]] bool in_order() const override { return scan_.in_order(); }
    [[nodiscard]] std::unique_ptr<CodeReader> reader() const override { return scan_.reader(); }

  private:
    const CodeSource& scan_;
};

std::vector<std::uint16_t> codes_of(const CodeSource& source) {
    std::vector<std::uint16_t> codes;
    const auto reader = source.reader();
    const CodeBand band = reader->lines(0, source.height());
    for (int y = 0; y < source.height(); ++y) {
        const auto* const line = band.line<std::uint16_t>(y);
        codes.insert(codes.end(), line, line + source.width());
    }
    return codes;
}

TEST_F(Strips, PixelsCountByTheirPlaceWhateverReadsThem) {
    for (const TiffForm& form : every_form()) {
        if (form.bits != 16 || form.samples != 1) continue;
        write_tiff(scan(), form, kWidth, kHeight, code_at);
        const CodeLines whole = lines();
        const Masked masked(whole);
        Histogram wanted(2 * masked.codes());
        std::size_t i = 0;
        for (const auto code : codes_of(whole)) {
            ++wanted[place_at(int(i) % kWidth, int(i) / kWidth) * masked.codes() + code];
            ++i;
        }
        for (const unsigned threads : {1u, 3u})
            ASSERT_TRUE(counted(masked, {threads, kTiny}) == wanted) << testing::PrintToString(form);
        // Where nothing is told apart, the same pixels count together.
        const Histogram together = counted(whole);
        for (std::size_t code = 0; code < masked.codes(); ++code)
            ASSERT_EQ(together[code], wanted[code] + wanted[masked.codes() + code]);
    }
}

TEST_F(Strips, PixelsArePrintedByTheTableOfTheirPlace) {
    write_tiff(scan(), {16, COMPRESSION_NONE, 1, false, 8}, kWidth, kHeight, code_at);
    const CodeLines whole = lines();
    const Masked masked(whole);
    const auto table = colours<std::uint16_t>(masked.entries(), 3);
    StripPrint print = print_of(PackedTable(table, 3));
    const Histogram counts = counted(masked);
    print_strips(masked, print, target("print.tif"), &counts, {3, kTiny});
    const auto picture = vips::VImage::new_from_file((folder / "print.tif").c_str());
    std::size_t size = 0;
    const auto* const samples = static_cast<const std::uint16_t*>(picture.write_to_memory(&size));
    const auto codes = codes_of(whole);
    ASSERT_EQ(size, codes.size() * 3 * sizeof(std::uint16_t));
    for (std::size_t i = 0; i < codes.size(); ++i) {
        const std::size_t entry = place_at(int(i) % kWidth, int(i) / kWidth) * masked.codes() + codes[i];
        ASSERT_EQ(std::memcmp(samples + 3 * i, table.data() + 3 * entry, 3 * sizeof(std::uint16_t)), 0) << i;
    }
    g_free(const_cast<std::uint16_t*>(samples));
    // A table of one place is none for two.
    EXPECT_THROW(print_strips(masked, print_of(PackedTable(colours<std::uint16_t>(masked.codes(), 3), 3)),
                              target("other.tif"), nullptr),
                 Error);
}

}  // namespace
}  // namespace fogproof::tests
