// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What is said and kept about one full-size print.
#pragma once

#include <span>
#include <string>

#include "choose/printing.hpp"
#include "fogproof/rooms.hpp"
#include "picture/picture_options.hpp"

namespace fogproof::report {

/// Throws Error(data), naming the scan, when of the prints worked out for it none has seconds that an
/// enlarger gives.
void require_exposable(const Printing&, std::span<const Proof>, const std::string& scan);
/// The recipe as it was worked out, in one line.
[[nodiscard]] std::string print_sentence(const Printing&, const Proof&);
/// What goes into the picture's metadata beside the pack: the recipe with real seconds, whole.
[[nodiscard]] Description print_description(const Printing&, const Proof&);
/// The promise of the table, as measured.
[[nodiscard]] std::string table_sentence(double worst_lightness_error);

}  // namespace fogproof::report
