// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The one way to the pixels of a scan: lines of codes, whoever reads them, and the places of the frame that
// local work tells apart. They are counted and averaged (passes.hpp), and drawn through a table; both go by
// entries, which are all codes of the first place, then all of the next.
#pragma once

#include <algorithm>
#include <cstddef>
#include <memory>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::pixels {

/// Lines of one width, `stride` codes apart, of 8 or of 16 bits as their source has them.
struct CodeBand {
    const void* first;
    std::size_t stride;
    template <class Code>
    [[nodiscard]] const Code* line(int i) const {
        return static_cast<const Code*>(first) + std::size_t(i) * stride;
    }
};

/// One worker's way to the lines.
class CodeReader {
  public:
    virtual ~CodeReader() = default;
    /// Lines from `top` on; valid until the next call. Throws Error(Fault::data) for what cannot be read.
    [[nodiscard]] virtual CodeBand lines(int top, int count) = 0;
};

/// Pixels of a line up to `end` that lie in one place.
struct PlaceRun {
    int end;
    std::size_t place;
};

/// From left to right as scanned, or reversed.
enum class LineOrder { as_scanned, reversed };

class CodeSource {
  public:
    virtual ~CodeSource() = default;
    /// The file's path, for faults and progress.
    [[nodiscard]] virtual std::string name() const = 0;
    [[nodiscard]] virtual int width() const = 0;
    [[nodiscard]] virtual int height() const = 0;
    /// 256 where they have 8 bits, 65536 where they have 16.
    [[nodiscard]] virtual std::size_t codes() const = 0;
    /// How many places are told apart; one where nothing is local.
    [[nodiscard]] virtual std::size_t places() const { return 1; }
    /// A line's places from left to right, for several workers at once.
    [[nodiscard]] virtual std::vector<PlaceRun> runs(int /*line*/) const { return {{width(), 0}}; }
    [[nodiscard]] std::size_t entries() const { return places() * codes(); }
    /// Bytes of one line as it is read, and lines that must be read together.
    [[nodiscard]] virtual std::size_t line_bytes() const = 0;
    [[nodiscard]] virtual int lines_together() const { return 1; }
    /// Lines of what is stored that stand above the first.
    [[nodiscard]] virtual int lines_above() const { return 0; }
    /// True where there may be one reader at a time, which asks from top to bottom.
    [[nodiscard]] virtual bool in_order() const = 0;
    [[nodiscard]] virtual std::unique_ptr<CodeReader> reader() const = 0;
    /// Throws Error(Fault::data) when the file is known to be another one than was opened.
    virtual void require_unchanged() const {}
};

/// Calls act(begin, end, first entry of their place) for all parts of a line between two pixels.
template <class Act>
void for_each_run(const CodeSource& source, int line, int left, int right, const Act& act) {
    int begin = left;
    for (const PlaceRun& run : source.runs(line)) {
        const int end = std::min(run.end, right);
        if (begin < end) act(begin, end, run.place * source.codes());
        begin = std::max(begin, end);
    }
}

}  // namespace fogproof::pixels
