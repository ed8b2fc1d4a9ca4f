// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a session mixes, and how far it goes.
#pragma once

#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "proof/work_plan.hpp"
#include "report/document.hpp"

namespace fogproof::report {

/// "1+50".
[[nodiscard]] std::string one_plus(double parts);

/// Whether bleach is brushed onto any of the prints.
[[nodiscard]] bool brush_bleach(const std::vector<SessionPrint>&);

/// Developers and bleaches for the trays.
[[nodiscard]] Listing mixtures(const std::vector<SessionPrint>&, const Session&, const WorkTerms&);

/// What they are made of, and when a bleach is renewed.
[[nodiscard]] std::vector<Block> bath_words(const std::vector<SessionPrint>&, const Session&, const Pack&,
                                            const WorkTerms&);

}  // namespace fogproof::report
