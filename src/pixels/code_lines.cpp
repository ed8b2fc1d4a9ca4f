// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/code_lines.hpp"

#include <algorithm>
#include <type_traits>
#include <vector>

#include "pixels/line_reader.hpp"
#include "pixels/tiff_layout.hpp"

namespace fogproof::pixels {
namespace {

template <class Code>
class TiffCodeReader : public CodeReader {
  public:
    TiffCodeReader(const TiffScan& scan, const Region& region, LineOrder order, const CodeLaw& law)
        : layout_(scan.layout()),
          region_(region),
          is_reversed_(order == LineOrder::reversed),
          law_(law),
          reader_(scan) {}

    CodeBand lines(int top, int count) override {
        const std::byte* stored =
            reader_.lines(region_.top + top, count) + std::size_t(region_.left) * layout_.pixel_bytes();
        const auto samples = std::size_t(layout_.facts.samples);
        if (!law_ && !is_reversed_ && samples == 1) return {stored, std::size_t(layout_.facts.width)};

        const auto width = std::size_t(region_.width);
        codes_.resize(width * std::size_t(count));
        for (Code* line = codes_.data(); line != codes_.data() + codes_.size();
             line += width, stored += layout_.line_bytes()) {
            if constexpr (std::is_same_v<Code, std::uint16_t>)
                if (law_) law_(stored, line, width);
            if (!law_)
                for (std::size_t x = 0; x < width; ++x)
                    line[x] = reinterpret_cast<const Code*>(stored)[x * samples];
            if (is_reversed_) std::reverse(line, line + width);
        }
        return {codes_.data(), width};
    }

  private:
    const TiffScan::Layout& layout_;
    Region region_;
    bool is_reversed_;
    const CodeLaw& law_;
    LineReader reader_;
    std::vector<Code> codes_;
};

}  // namespace

std::size_t CodeLines::line_bytes() const {
    return scan_.layout().line_bytes();
}

std::unique_ptr<CodeReader> CodeLines::reader() const {
    if (codes() == 256) return std::make_unique<TiffCodeReader<std::uint8_t>>(scan_, region_, order_, law_);
    return std::make_unique<TiffCodeReader<std::uint16_t>>(scan_, region_, order_, law_);
}

}  // namespace fogproof::pixels
