// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Standard input, output and error in whatever state the program is handed them.
#pragma once

#include "fogproof/rooms.hpp"

namespace fogproof::cli {

/// A stream that is closed gets a place of its own, so that no file opened later takes its number and is
/// written into by mistake. A file grown to the limit of its size becomes an error instead of an end.
void make_standard_streams_safe();
/// Throws Error(Fault::io) when something said on standard output did not get there.
void require_answer_delivered();

}  // namespace fogproof::cli
