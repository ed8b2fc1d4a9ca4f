// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// `read SCAN --sheet-of PACK`: the fog of a sheet's edges as a map beside a pack.
#pragma once

#include "cli/console.hpp"
#include "cli/read_print.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::cli {

void read_sheet(const ReadRequest&, const Console&);

}  // namespace fogproof::cli
