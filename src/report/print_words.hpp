// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What is said and kept about one full-size print.
#pragma once

#include <filesystem>
#include <nlohmann/json_fwd.hpp>
#include <span>
#include <string>

#include "base/remarks.hpp"
#include "choose/printing.hpp"
#include "fogproof/rooms.hpp"
#include "picture/picture_options.hpp"
#include "pixels/level_grid.hpp"

namespace fogproof::report {

/// A warning of a print without a picture.
[[nodiscard]] std::vector<std::string> flat_warnings(const Proof&);

/// Throws Error(data), naming the scan, when of the prints worked out for it none has seconds that an
/// enlarger gives.
void require_exposable(const Printing&, std::span<const Proof>, const std::string& scan);
/// The recipe as it was worked out, in one line.
[[nodiscard]] std::string print_sentence(const Printing&, const Proof&);
/// What goes into the metadata of a picture in that folder beside the pack: the recipe with real seconds,
/// whole.
[[nodiscard]] Description print_description(const Printing&, const Proof&,
                                            const std::filesystem::path& folder = {});
/// One print as JSON, with the fog of its sheet's edges (null: none), and several of them as one answer.
[[nodiscard]] std::string print_json(const Printing&, const Proof&, std::span<const Touched>,
                                     const nlohmann::ordered_json& edge_fog, const std::string& scan,
                                     const std::string& picture, const Remarks&);
[[nodiscard]] std::string prints_as_json(std::span<const std::string>);
/// The promise of the table, as measured.
[[nodiscard]] std::string table_sentence(double worst_lightness_error);

}  // namespace fogproof::report
