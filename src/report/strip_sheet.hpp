// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A predicted test strip as it is drawn: headings, labels and legend around its bands.
#pragma once

#include <memory>
#include <string>

#include "fogproof/rooms.hpp"
#include "picture/picture_options.hpp"
#include "picture/test_strip_picture.hpp"
#include "proof/predicted_strip.hpp"

namespace fogproof::report {

/// Its bands, and beside each state of them the whole strip at the told exposure. Masks may be none.
[[nodiscard]] TestStripSheet strip_sheet(const Printing&, const PredictedStrip&, const std::string& negative,
                                         const std::shared_ptr<const Masks>&, std::optional<BathLayer>,
                                         Rendering);
/// What goes into the picture's metadata beside the pack: recipe, negative, times of the bands and place.
[[nodiscard]] Description strip_description(const Printing&, const PredictedStrip&,
                                            const std::string& negative, const std::filesystem::path& folder);
/// Seconds of a band, or on a pack without an anchor its stops from the told exposure.
[[nodiscard]] std::string band_words(const Printing&, const TestStrip&, std::size_t band);

}  // namespace fogproof::report
