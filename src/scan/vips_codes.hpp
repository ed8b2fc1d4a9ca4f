// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A part of a scan that libvips reads, as lines of codes.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <vips/vips8>

#include "base/region.hpp"
#include "fogproof/rooms.hpp"
#include "pixels/code_source.hpp"

namespace fogproof::scan {

class VipsCodes : public CodeSource {
  public:
    /// `opened` gives the codes of the whole upright picture, one band of 8 or 16 bits, read anew each time.
    VipsCodes(std::filesystem::path, std::function<vips::VImage()> opened, std::size_t codes, Region,
              LineOrder);

    [[nodiscard]] std::string name() const override { return path_.string(); }
    [[nodiscard]] int width() const override { return region_.width; }
    [[nodiscard]] int height() const override { return region_.height; }
    [[nodiscard]] std::size_t codes() const override { return codes_; }
    [[nodiscard]] std::size_t line_bytes() const override;
    [[nodiscard]] bool in_order() const override { return true; }
    [[nodiscard]] std::unique_ptr<CodeReader> reader() const override;

  private:
    std::filesystem::path path_;
    std::function<vips::VImage()> opened_;
    std::size_t codes_;
    Region region_;
};

}  // namespace fogproof::scan
