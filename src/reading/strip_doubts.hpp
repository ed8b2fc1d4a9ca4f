// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What may shift the steps of a strip against its labels, said of the strip by its name and labels.
#pragma once

#include <string>

#include "base/remarks.hpp"
#include "fogproof/rooms.hpp"
#include "reading/strip_labels.hpp"
#include "reading/strip_reading.hpp"

namespace fogproof::reading {

/// A note for steps that were told apart by length alone, and a warning where bands at the other end may have
/// merged instead; warnings for steps that may be no paper, and for paper that may be a step more than told.
[[nodiscard]] Remarks strip_doubts(const StripReading&, const StripLabels&);

}  // namespace fogproof::reading
