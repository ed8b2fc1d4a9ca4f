// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The files that tests of the command line type the names of.
#pragma once

#include <lcms2.h>

#include <cmath>
#include <limits>
#include <string>

#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/strip_scan.hpp"

namespace fogproof::tests {

/// Profiles that no picture is written in: of CMYK, of a device link, a good one cut in half.
void save_profiles(const Program& program);

/// A mask over a frame of that size, and pictures that are none.
void save_masks(const Program& program, int wide, int high);

/// Good files and spoilt ones, under the names by which the tests type them.
void make_typed_files(const Program& program);

}  // namespace fogproof::tests
