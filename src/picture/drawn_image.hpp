// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scan drawn through a table of colours, as an image that libvips saves: line by line, nothing held.
#pragma once

#include <exception>
#include <memory>
#include <vips/vips8>

#include "fogproof/rooms.hpp"
#include "pixels/code_source.hpp"
#include "pixels/local_painter.hpp"
#include "pixels/packed_table.hpp"
#include "pixels/print_border.hpp"

namespace fogproof::picture {

class DrawnImage {
  public:
    /// With a painter of local work, that draws, and the table says of what kind the pixels are.
    DrawnImage(std::unique_ptr<CodeSource>, PackedTable, std::shared_ptr<const LocalPainter> = {},
               PrintBorder = {});

    /// To be evaluated once, from top to bottom.
    [[nodiscard]] vips::VImage image() const;
    /// Throws what went wrong with the scan, where something did while the image was evaluated: libvips
    /// passes on that it failed, and nothing else.
    void rethrow() const;

  private:
    struct State;
    std::shared_ptr<State> state_;
};

}  // namespace fogproof::picture
