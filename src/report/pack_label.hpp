// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What a picture says about the pack it was made for.
#pragma once

#include <string_view>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"
#include "picture/picture_options.hpp"

namespace fogproof::report {

/// The pack's numbers and name as a pack file without notes, readings and the record of the fit, which may
/// be longer than the picture; and the SHA-256 (FIPS 180-4) of the file as it stood, which tells whose
/// readings they were.
[[nodiscard]] Description pack_label(const Pack&, std::string_view file);

}  // namespace fogproof::report
