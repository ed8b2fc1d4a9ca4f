// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The codes of a scan turned by some degrees: resampled once, kept for every pass over them.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>

#include "base/region.hpp"
#include "fogproof/rooms.hpp"
#include "pixels/code_source.hpp"
#include "pixels/kept_sheet.hpp"
#include "pixels/pace.hpp"
#include "pixels/turning.hpp"

namespace fogproof::scan {

/// Each code is interpolated by libvips between 4 x 4 of the scan's, by cubic convolution (Catmull-Rom) in
/// floats of the codes as they are, then rounded and kept within what a code can be. libvips takes places to
/// the nearest 1/64 of a pixel. Beyond the scan its outermost pixels go on. The turned codes lie in a file
/// without a name: on the disk, or in memory where the disk has little room. While the scan is being turned,
/// a second such file holds it as it lies.
class TurnedCodes {
  public:
    /// `lying` gives the whole scan as it lies. The same codes for any pace. Throws Error(Fault::data) for
    /// what cannot be read, Error(Fault::unavailable) or Error(Fault::io) where there is no room.
    TurnedCodes(const CodeSource& lying, const Turning&, Pace = {});

    [[nodiscard]] const Turning& turning() const { return turning_; }
    /// A part of it, after asking `require_unchanged` of the scan's own file where somebody asks for that.
    [[nodiscard]] static std::unique_ptr<CodeSource> part(std::shared_ptr<const TurnedCodes>, const Region&,
                                                          LineOrder, std::function<void()> require_unchanged);

    [[nodiscard]] const std::string& name() const { return sheet_.name(); }
    [[nodiscard]] std::size_t codes() const { return codes_; }
    [[nodiscard]] std::size_t code_bytes() const { return sheet_.code_bytes(); }
    /// Codes of a line from `left` on. Throws Error(Fault::io).
    void read(int line, int left, int count, std::byte* to) const { sheet_.read(line, left, count, to); }

  private:
    Turning turning_;
    std::size_t codes_;
    KeptSheet sheet_;
};

/// Bytes of memory that turning takes for a while, rather too many than too few, of a scan of so many codes.
[[nodiscard]] std::uint64_t memory_to_turn(int width, int height, std::size_t code_bytes);

}  // namespace fogproof::scan
