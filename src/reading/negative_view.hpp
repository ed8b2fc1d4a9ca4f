// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scanned negative as a print of it is held against it.
#pragma once

#include "fogproof/rooms.hpp"
#include "registration/placing.hpp"
#include "scan/scan.hpp"

namespace fogproof::reading {

/// A frame that was found is seen with a little of the clear film around it, so that its corners are where
/// the picture ends; one that was told is taken as told.
[[nodiscard]] NegativeView negative_view(const Scan&, const ScanOptions&);

}  // namespace fogproof::reading
