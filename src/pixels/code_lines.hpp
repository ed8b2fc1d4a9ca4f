// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A part of a TIFF as lines of codes, one a pixel.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <utility>

#include "base/region.hpp"
#include "fogproof/rooms.hpp"
#include "pixels/code_source.hpp"
#include "pixels/tiff_scan.hpp"

namespace fogproof::pixels {

/// Turns the samples of some pixels into 16-bit codes. Called by several workers at once.
using CodeLaw = std::function<void(const void* samples, std::uint16_t* codes, std::size_t pixels)>;

class CodeLines : public CodeSource {
  public:
    /// A region of the picture as stored; reversed where its lines are. Without a law the first
    /// sample of each pixel is its code.
    CodeLines(TiffScan scan, Region region, LineOrder order = LineOrder::as_scanned, CodeLaw law = {})
        : scan_(std::move(scan)), region_(region), order_(order), law_(std::move(law)) {}

    [[nodiscard]] const TiffScan& scan() const { return scan_; }
    [[nodiscard]] std::string name() const override { return scan_.path().string(); }
    [[nodiscard]] int width() const override { return region_.width; }
    [[nodiscard]] int height() const override { return region_.height; }
    [[nodiscard]] std::size_t codes() const override {
        return law_ || scan_.facts().bits == 16 ? 65536 : 256;
    }
    [[nodiscard]] std::size_t line_bytes() const override;
    [[nodiscard]] int lines_together() const override { return scan_.lines_together(); }
    [[nodiscard]] int lines_above() const override { return region_.top; }
    [[nodiscard]] bool in_order() const override { return false; }
    [[nodiscard]] std::unique_ptr<CodeReader> reader() const override;
    void require_unchanged() const override { scan_.require_unchanged(); }

  private:
    TiffScan scan_;
    Region region_;
    LineOrder order_;
    CodeLaw law_;
};

}  // namespace fogproof::pixels
