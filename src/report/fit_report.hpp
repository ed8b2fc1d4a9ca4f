// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a fit found, in words and numbers.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "fogproof/fit/pack_fit.hpp"
#include "fogproof/rooms.hpp"
#include "report/pack_report.hpp"
#include "report/surer_report.hpp"

namespace fogproof::report {

/// A page of text, lines of at most 100 columns where labels are short.
[[nodiscard]] std::string fit_text(const PackFit&, std::span<const NegativeOnPack> = {},
                                   Numbers = Numbers::counted);
[[nodiscard]] std::string fit_json(const PackFit&, const std::vector<std::string>& warnings = {},
                                   std::span<const NegativeOnPack> = {});

}  // namespace fogproof::report
