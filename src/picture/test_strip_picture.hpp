// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A predicted test strip as a picture: its bands as they will come out, to lay the real strip beside.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "choose/strip_place.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/rooms.hpp"
#include "picture/local_print.hpp"
#include "picture/picture_options.hpp"
#include "picture/profile.hpp"
#include "scan/scan.hpp"

namespace fogproof::picture {

/// Longer side in pixels of the print that a strip is a piece of; a smaller scan has its own.
inline constexpr int kStripPrintPixels = 1000;

struct StripPrint {
    PrintModel print;
    std::optional<LocalPrint> local{};
};

struct StripOfBands {
    std::string heading;
    bool is_labelled = true;                 ///< else it goes by the labels of the strip before it
    std::vector<std::size_t> print_of_band;  ///< index into the sheet's prints
};

/// Everything on the sheet, words included.
struct TestStripSheet {
    std::string title;
    std::vector<std::string> subtitle;
    TestStripPlace place;
    std::vector<std::vector<std::string>> labels;  ///< lines of each band, the first in bold
    std::vector<StripPrint> prints;
    std::vector<StripOfBands> strips;
    std::vector<std::string> legend;
};

/// Draws and saves the sheet: strips beside each other as they lie on the picture. Pixels of a band are those
/// of its print made small to kStripPrintPixels.
void render_test_strip(const Scan&, const TestStripSheet&, Rendering, const OutputProfile&,
                       const PictureOptions&, const std::filesystem::path& target);

}  // namespace fogproof::picture
