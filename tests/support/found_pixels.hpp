// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A piece of one picture looked for in another, sample by sample.
#pragma once

#include <cstdint>
#include <cstring>
#include <string>
#include <vips/vips8>

namespace fogproof::tests {

/// The first band of a picture of 16 bits, in memory.
class Samples {
  public:
    explicit Samples(const std::string& path)
        : held_(vips::VImage::new_from_file(path.c_str())
                    .extract_band(0)
                    .cast(VIPS_FORMAT_USHORT)
                    .copy_memory()) {}

    [[nodiscard]] int width() const { return held_.width(); }
    [[nodiscard]] int height() const { return held_.height(); }
    [[nodiscard]] const std::uint16_t* at(int x, int y) const {
        return reinterpret_cast<const std::uint16_t*>(VIPS_IMAGE_ADDR(held_.get_image(), x, y));
    }
    /// How often a region of another picture stands in this one, sample for sample.
    [[nodiscard]] int count(const Samples& other, int left, int top, int wide, int high) const {
        int found = 0;
        for (int y = 0; y + high <= height(); ++y)
            for (int x = 0; x + wide <= width(); ++x) {
                int line = 0;
                while (line < high && std::memcmp(at(x, y + line), other.at(left, top + line),
                                                  std::size_t(wide) * sizeof(std::uint16_t)) == 0)
                    ++line;
                found += line == high ? 1 : 0;
            }
        return found;
    }

  private:
    vips::VImage held_;
};

}  // namespace fogproof::tests
