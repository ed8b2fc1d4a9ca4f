// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a pack of paper can do, in words and numbers: its whites and how to come by them, its contrast with
// and without fog, and which of its numbers anybody measured.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"
#include "proof/curves.hpp"

namespace fogproof::report {

/// Whether the pack's own numbers follow, one by one.
enum class Numbers { counted, listed };

/// A page of text, lines of at most 100 columns: a verdict first.
[[nodiscard]] std::string pack_text(const Pack&, Numbers = Numbers::counted);
/// The same as JSON, with the curves and what is to be warned of.
[[nodiscard]] std::string pack_json(const Pack&, std::span<const LabelledCurve>,
                                    const std::vector<std::string>& warnings = {});

}  // namespace fogproof::report
