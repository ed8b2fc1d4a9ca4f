// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The colours of a print made small: the full-size print seen from afar, since the eye, too, adds up light.
#pragma once

#include <vector>

#include "fogproof/print/print_model.hpp"
#include "fogproof/rooms.hpp"
#include "fogproof/sheet/colour.hpp"
#include "picture/local_print.hpp"
#include "scan/area_means.hpp"

namespace fogproof::picture {

/// Row by row, the mean of the light that the full-size print reflects; with its local work, where it has
/// some. One pass over the scan for each of X, Y and Z, or one in all with local work.
[[nodiscard]] std::vector<Lab> small_colours(const Scan&, const PrintModel&, PictureSize,
                                             const LocalPrint* local = nullptr);

}  // namespace fogproof::picture
