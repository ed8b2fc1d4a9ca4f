// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "strips/code_reader.hpp"

#include <algorithm>
#include <type_traits>

#include "strips/tiff_layout.hpp"

namespace fogproof {

template <class Code>
CodeReader<Code>::CodeReader(const CodeLines& wanted) : wanted_(wanted), reader_(wanted.scan) {}

template <class Code>
Codes<Code> CodeReader<Code>::lines(int top, int count) {
    const TiffScan::Layout& layout = wanted_.scan.layout();
    const std::byte* stored = reader_.lines(wanted_.region.top + top, count) +
                              std::size_t(wanted_.region.left) * layout.pixel_bytes();
    const auto samples = std::size_t(layout.facts.samples);
    if (!wanted_.law && !wanted_.mirror && samples == 1)
        return {reinterpret_cast<const Code*>(stored), std::size_t(layout.facts.width)};

    const auto width = std::size_t(wanted_.region.width);
    codes_.resize(width * std::size_t(count));
    for (Code* line = codes_.data(); line != codes_.data() + codes_.size();
         line += width, stored += layout.line_bytes()) {
        if constexpr (std::is_same_v<Code, std::uint16_t>)
            if (wanted_.law) wanted_.law(stored, line, width);
        if (!wanted_.law)
            for (std::size_t x = 0; x < width; ++x)
                line[x] = reinterpret_cast<const Code*>(stored)[x * samples];
        if (wanted_.mirror) std::reverse(line, line + width);
    }
    return {codes_.data(), width};
}

template class CodeReader<std::uint8_t>;
template class CodeReader<std::uint16_t>;

}  // namespace fogproof
