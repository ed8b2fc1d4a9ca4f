// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Work on a part of the print: burning, dodging, bleach that is brushed on. Where it is done is told by a
// mask: a picture over the frame as it is printed, white for full and black for none, or a shape.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "fogproof/base/quantity.hpp"
#include "fogproof/print/told_amounts.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::print {

/// A grey picture of the frame's proportions.
struct MaskPicture {
    std::string path;
    friend bool operator==(const MaskPicture&, const MaskPicture&) = default;
};

/// An outline with a soft rim, which is full inside, half on the outline and nil outside.
struct MaskShape {
    enum class Kind { top, bottom, left, right, oval, polygon };
    Kind kind = Kind::top;
    /// In percent of the frame's width and height, from the top left: how far it reaches from its edge (one
    /// number, 0 to 200); the oval's middle and its two radii (four); or the corners, x and y by turns (6 to
    /// 400 of -100 to 200).
    std::vector<double> at;
    double soft = 0;  ///< width of the rim, half of it inside, 0 to 200 percent of the frame's longer side
    friend bool operator==(const MaskShape&, const MaskShape&) = default;
};

/// One work. A level of the mask in between stands for that share of the amount.
struct LocalWork {
    enum class Kind { burn, dodge, bleach };
    Kind kind = Kind::burn;
    std::string name;  ///< may be empty
    std::variant<MaskPicture, MaskShape> where = MaskPicture{};
    /// Stops or seconds of a burn or a dodge, seconds or percent of a bleach. Stops are of all exposures
    /// through the negative together, and so are seconds without a grade: a burn of one stop doubles them.
    /// 0 to 10 stops, 0 to 3600 s of light, 0 to 7200 s or 0 to 1000 % of bleach; check() of a recipe asks.
    std::variant<Stops, Seconds, ClearingPercent> amount = Stops{};
    std::optional<double> grade;  ///< -1 (00) to 6, of a burn through another filter
    friend bool operator==(const LocalWork&, const LocalWork&) = default;
};

/// "burn", "dodge" or "bleach".
[[nodiscard]] std::string name_of(LocalWork::Kind);
/// How a work is called: by its name if it has one, else by its kind.
[[nodiscard]] std::string called(const LocalWork&);

}  // namespace fogproof::print
