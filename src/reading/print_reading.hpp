// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scan of a print against its negative, as readings: what each tone of the negative became on the paper.
//
// Not modelled: flare of the scanner that depends on a tone's surroundings, adjacency effects, and handwork
// that follows the picture so closely that no tone of it is left unworked.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"
#include "reading/even_ground.hpp"
#include "reading/print_curve.hpp"
#include "reading/strip_reading.hpp"
#include "registration/placing.hpp"

namespace fogproof::reading {

/// A print, or one half of one.
struct PrintPiece {
    PlacedFrame frame;
    EvenGround ground;
    PrintCurve curve;
    std::optional<double> border;  ///< density of its unexposed border
};

struct PrintReading {
    std::vector<PrintPiece> pieces;  ///< one; of two halves the unbleached one first
    std::vector<std::string> notes;  ///< guesses taken and things left aside
    std::vector<KnownPlace> known{};
    FlatbedDoubt doubt{};
    std::vector<ScanPiece> on_lid{};      ///< all that lies on the scan, by numbers
    std::vector<std::string> warnings{};  ///< of the scan as a whole
};

/// Share of its even ground that departs from its tone curve and is left out.
[[nodiscard]] double left_out(const PrintPiece&);

/// Throws Error(Fault::data) for a print that is not of this negative, cannot be placed or holds too little
/// even ground. With StripRequest::halves two pieces are looked for.
[[nodiscard]] PrintReading print_read(const ReflectionImage&, const StripRequest&, const NegativeView&,
                                      const FilmOverPaper&);

/// The same of one piece of a scan on which other things lie too. Notes and warnings are of the print alone.
[[nodiscard]] PrintReading print_piece_read(const ReflectionImage&, const StripRequest&, int piece,
                                            const NegativeView&, const FilmOverPaper&);

/// Rows of one piece; `common` is what was done to it, its density counts for nothing. The border is a row of
/// no exposure. Halves take the labels of labelled() for strips.
[[nodiscard]] std::vector<Reading> labelled(const PrintReading&, const Reading& common);

}  // namespace fogproof::reading
