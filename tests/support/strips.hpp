// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A TIFF of one layout after the other, read and printed by strips.
#pragma once

#include <fcntl.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>
#include <cmath>
#include <random>

#include "fogproof/base/error.hpp"
#include "pixels/code_lines.hpp"
#include "pixels/passes.hpp"
#include "pixels/tiff_print.hpp"
#include "support/film_scan.hpp"
#include "support/named_inputs.hpp"
#include "support/rooms.hpp"
#include "support/tiff_layouts.hpp"

namespace fogproof::tests {

using testing::HasSubstr;
using vips::VImage;

// Neither side a multiple of any unit.
inline constexpr int kWidth = 67, kHeight = 53;

// Every code may follow every other: nothing that a predictor or a wrong byte order would leave alone.
inline unsigned code_at(int x, int y, int sample) {
    return unsigned(y * kWidth + x) * 40503u * unsigned(sample + 1) + unsigned(sample);
}

inline std::vector<TiffForm> every_form() {
    std::vector<TiffForm> forms;
    for (const int bits : {8, 16})
        for (const auto coding : {COMPRESSION_NONE, COMPRESSION_LZW, COMPRESSION_ADOBE_DEFLATE,
                                  COMPRESSION_DEFLATE, COMPRESSION_PACKBITS})
            for (const int predictor : {1, 2})
                for (const bool tiled : {false, true})
                    for (const int unit : {1, 8, 19})
                        for (int way = 0; way < 8; ++way) {
                            const bool differs =
                                coding == COMPRESSION_LZW || coding == COMPRESSION_ADOBE_DEFLATE;
                            if ((predictor == 2 && !differs) || (tiled != (unit == 8))) continue;
                            forms.push_back({bits, std::uint16_t(coding), predictor, tiled, unit,
                                             (way & 1) != 0, (way & 2) != 0, (way & 4) != 0, 1});
                        }
    forms.push_back({16, COMPRESSION_NONE, 1, false, 64, false, false, false, 1});
    forms.push_back({16, COMPRESSION_LZW, 2, false, 64, true, false, false, 1});
    forms.push_back({8, COMPRESSION_NONE, 1, true, 40, false, false, false, 1});
    for (const int bits : {8, 16})
        for (const int samples : {2, 3, 4})
            for (const bool tiled : {false, true})
                for (const auto coding : {COMPRESSION_NONE, COMPRESSION_ADOBE_DEFLATE})
                    for (const bool big_endian : {false, true})
                        forms.push_back(
                            {bits, std::uint16_t(coding), 1, tiled, 16, big_endian, false, false, samples});
    return forms;
}

// A table in which every sample of every code is another.
template <class Sample>
std::vector<Sample> colours(std::size_t codes, int channels) {
    std::vector<Sample> table;
    for (std::size_t i = 0; i < codes * std::size_t(channels); ++i)
        table.push_back(Sample(i * 2654435761u >> 7));
    return table;
}

// As small as it gets: one line or one strip at a time.
inline constexpr std::size_t kTiny = 1;

class Strips : public testing::Test {
  protected:
    Strips() { vips_ready(); }
    [[nodiscard]] std::filesystem::path scan() const { return folder / "scan.tif"; }
    [[nodiscard]] CodeLines lines(Region region = {0, 0, kWidth, kHeight},
                                  LineOrder order = LineOrder::as_scanned) const {
        const auto opened = TiffScan::open(scan());
        if (!opened) throw std::runtime_error("the engine does not take it");
        return {*opened, region, order, {}};
    }
    /// A new file, open as long as this lives.
    class Target {
      public:
        explicit Target(const std::filesystem::path& path)
            : number_(::open(path.c_str(), O_RDWR | O_CREAT | O_TRUNC | O_CLOEXEC, 0600)) {}
        ~Target() { ::close(number_); }
        Target(const Target&) = delete;
        Target& operator=(const Target&) = delete;
        operator int() const { return number_; }

      private:
        int number_;
    };
    [[nodiscard]] Target target(const std::string& name) const { return Target(folder / name); }
    [[nodiscard]] static StripPrint print_of(PackedTable table, bool compress = false) {
        return {"print.tif", std::move(table), {}, 11.811, {1, 2, 3, 4, 5, 6, 7, 8, 9}, "", compress, true};
    }
    TestFolder folder;
};

}  // namespace fogproof::tests
