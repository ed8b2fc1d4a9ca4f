// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A negative made ready for printing, in the steps that all verbs take: opened, put into the carrier, laid
// over a sheet of the pack and masked. What is said between the steps is each verb's own.
#pragma once

#include <memory>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "base/remarks.hpp"
#include "choose/printing.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/print/recipe.hpp"
#include "fogproof/rooms.hpp"
#include "picture/grid.hpp"
#include "picture/picture_options.hpp"
#include "pixels/local_painter.hpp"
#include "pixels/sheet_fog.hpp"
#include "scan/scan.hpp"

namespace fogproof::cli {

/// The name by which a negative goes on sheets, in grids and in reports.
[[nodiscard]] std::string negative_name(const std::string& file);

struct OpenedNegative {
    std::string file;
    Scan scan;
    Remarks remarks;  ///< on the scan; a verb adds what it says of the print

    void add(const std::vector<std::string>& warnings);
    /// Says them at once, too.
    void warn(const std::vector<std::string>& warnings);
};
/// Throws as Scan::open() does.
[[nodiscard]] OpenedNegative opened_negative(const std::string& file, const ScanOptions&);

struct PreparedNegative {
    Scan scan;
    Printing printing;
    std::shared_ptr<const SheetFog> fog{};  ///< where the pack tells such fog, once it is laid on a sheet
    std::shared_ptr<const Masks> masks{};   ///< of each local work, and behind them the fog

    /// In the carrier of the pack's enlarger.
    PreparedNegative(const Scan&, const Pack&, std::optional<double> fresh_grade = std::nullopt);

    /// Throws as fogged_sheet() does.
    void lay_on(const SheetLayout&, const Laying&);
    /// The longer side of the picture as it is laid on a sheet with fog of its edges.
    [[nodiscard]] std::optional<double> drawn_mm() const;
    /// Throws as local_masks() does.
    void mask(const Recipe&);
    /// From now on the printing counts the places that the masks tell apart, where there are any. One pass
    /// over the frame.
    void count_places();

    [[nodiscard]] LocalMasks masks_to_draw() const;
    /// What each mask touches.
    [[nodiscard]] std::vector<Touched> touched_places() const;
    /// How it lies on its sheet, for the metadata of a picture, and as numbers: empty and null where the
    /// sheet does not count.
    [[nodiscard]] Description sheet_described() const;
    [[nodiscard]] nlohmann::ordered_json sheet_json() const;
    /// The same as a sentence; nothing there.
    [[nodiscard]] std::optional<std::string> sheet_sentence() const;
};

}  // namespace fogproof::cli
