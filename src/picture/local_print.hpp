// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A print with local work, ready to be drawn.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "choose/printing.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/rooms.hpp"
#include "picture/profile.hpp"
#include "pixels/local_painter.hpp"
#include "scan/scan.hpp"
#include "table/local_table.hpp"

namespace fogproof::picture {

struct LocalPrint {
    std::shared_ptr<const Masks> masks;
    std::shared_ptr<const LocalTable> table;
    PrintModel places;            ///< where no mask reaches, then where those of `full` are full
    std::vector<FullMasks> full;  ///< common enough for a table of their own

    LocalPrint(const Printing&, const PrintSteps&, std::shared_ptr<const Masks>,
               std::optional<BathLayer> bath = std::nullopt);
    /// For a scan, in codes of a profile.
    [[nodiscard]] std::shared_ptr<const LocalPainter> painter(const Scan&, const OutputProfile&, Rendering,
                                                              int bits) const;
};

}  // namespace fogproof::picture
