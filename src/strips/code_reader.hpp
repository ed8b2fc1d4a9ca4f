// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One worker's way to lines of codes.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "fogproof/strips/code_lines.hpp"
#include "strips/line_reader.hpp"

namespace fogproof {

/// Lines of one width, `stride` codes apart.
template <class Code>
struct Codes {
    const Code* first;
    std::size_t stride;
    [[nodiscard]] const Code* line(int i) const { return first + std::size_t(i) * stride; }
};

template <class Code>  // std::uint8_t or std::uint16_t, as many as CodeLines has codes
class CodeReader {
  public:
    explicit CodeReader(const CodeLines&);
    /// Lines of the region; valid until the next call.
    [[nodiscard]] Codes<Code> lines(int top, int count);

  private:
    const CodeLines& wanted_;
    LineReader reader_;
    std::vector<Code> codes_;
};

}  // namespace fogproof
