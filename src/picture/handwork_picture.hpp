// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The handwork of a print as pictures: a mask that a recipe can take, and one to look at.
#pragma once

#include <string>

#include "fogproof/rooms.hpp"
#include "reading/handwork_map.hpp"
#include "system/whole_file.hpp"

namespace fogproof::picture {

enum class MaskOf { added_light, held_back_light };

/// A 16-bit grey mask over the frame, in the format of the file's suffix: white where the most was done,
/// black where nothing was, in proportion to stops between.
void save_handwork_mask(const HandworkMap&, MaskOf, WholeFile&);
/// The print in its frame with the works outlined and labelled; 8 bit, sRGB.
void save_handwork_picture(const HandworkMap&, const PrintReading&, const ReflectionImage&,
                           const std::string& title, WholeFile&);

}  // namespace fogproof::picture
