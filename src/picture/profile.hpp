// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Output colour: Lab (D50) to the code values of an ICC profile, by Little CMS in double precision.
#pragma once

#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "fogproof/sheet/colour.hpp"

namespace fogproof::picture {

enum class Rendering {
    absolute,  ///< white of the picture is the perfect diffuser: paper tint, fog and cream stay visible
    relative,  ///< white of the picture is the paper's own fixed-only white
};

class OutputProfile {
  public:
    /// One of builtin_profile_names(), or the path of an ICC file (grey or RGB, at most 4 MB).
    /// Throws Error naming what is allowed.
    static OutputProfile named(const std::string& name);

    [[nodiscard]] const std::string& description() const { return description_; }
    [[nodiscard]] const std::vector<std::uint8_t>& icc() const { return icc_; }
    [[nodiscard]] int channels() const { return channels_; }
    /// Code values 0 to 65535 for each colour, channels() of them a colour; colours outside the gamut are
    /// clipped. With Rendering::relative every colour is first taken relative to `paper_white`.
    [[nodiscard]] std::vector<std::uint16_t> encode(std::span<const Lab>, Rendering,
                                                    const Lab& paper_white) const;
    /// Code values 0 to 255. Of the codes around each colour the one that looks nearest: rounding every
    /// channel for itself can miss by twice as much and tint a grey.
    [[nodiscard]] std::vector<std::uint8_t> encode_8bit(std::span<const Lab>, Rendering,
                                                        const Lab& paper_white) const;
    /// The way back, for checks: Lab of 16-bit code values.
    [[nodiscard]] std::vector<Lab> decode(std::span<const std::uint16_t>) const;

  private:
    struct Transforms;
    std::shared_ptr<const Transforms> transforms_;  // made once; used by any number of threads
    std::string description_;
    std::vector<std::uint8_t> icc_;
    int channels_ = 3;
};

}  // namespace fogproof::picture
