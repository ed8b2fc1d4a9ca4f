// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What stands wherever chemicals are named.
#pragma once

#include <string>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"
#include "report/document.hpp"

namespace fogproof::report {

/// Of a toner; nothing for none.
[[nodiscard]] std::string toner_caution(Toner);

/// In one sentence, for pictures that name a bleach.
[[nodiscard]] std::string short_caution();

/// For developing, fixing and, where the work asks for it, bleaching with ferricyanide and toning.
[[nodiscard]] Caution cautions(bool bleach, RestrainerAgent, Toner = Toner::none);

}  // namespace fogproof::report
