// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The search for a negative's frame on a scan, up to places that the picture holds: whether one of them is to
// be believed is asked by others. Rough places come of keypoints that look alike; each is then fitted.
#pragma once

#include <array>
#include <cstddef>
#include <map>
#include <optional>
#include <vector>

#include "fogproof/rooms.hpp"
#include "registration/agreement.hpp"
#include "registration/coarse_place.hpp"
#include "registration/film_grain.hpp"
#include "registration/fine_place.hpp"
#include "registration/placing.hpp"
#include "registration/seen_frame.hpp"

namespace fogproof::registration {

/// A place that the picture holds.
struct HeldFrame {
    FinePlace fine;
    FrameGrid grid;
    SmallNegative negative;          ///< at this grid; mirrored if the print is
    bool is_mirrored;                ///< print and negative are mirror images of each other
    SeenFrame seen;                  ///< the scan at this place
    GreyImage scan;                  ///< as fine as the grid
    Agreement agreement;             ///< of the whole frame
    std::optional<ScanNoise> noise;  ///< of the negative's scan

    /// Of what the print shows within a part of the frame; all of it where nobody can tell grain from noise.
    [[nodiscard]] GrainShown grain(const FramePart&) const;
};

/// What is looked for, one after the other, until a place of one holds.
struct SearchAttempt {
    std::size_t agreeing;  ///< matches on a place
    bool is_mirrored;
};
inline constexpr std::array<SearchAttempt, 3> kSearchAttempts{
    {{kUsuallyAgreeing, false}, {kUsuallyAgreeing, true}, {kFewAgreeing, false}}};

/// How a piece of a print lies beside another.
enum class PieceLies { alike, upside_down };
/// What it is taken to show: the frame to its end, or as much as the other one, as of a cropped print.
enum class PieceShows { rest, as_much };

class FrameSearch {
  public:
    /// Both must outlive the search.
    FrameSearch(const ReflectionImage& print, const NegativeView&);

    /// Rough places of the negative or of its mirror image, most agreed on first; of two that are one print,
    /// what agrees with a place that is known already is left aside.
    [[nodiscard]] std::vector<CoarsePlace> places(bool is_mirrored, const CoarseSearch&,
                                                  const FrameWarp* besides = nullptr);
    /// Rough places of what is missing of a print, of which a place shows a piece: by its picture, where it
    /// has too few keypoints.
    [[nodiscard]] std::vector<CoarsePlace> places_beside(const HeldFrame&, PieceLies,
                                                         PieceShows = PieceShows::rest) const;
    /// Nothing where too little of the picture holds it. On the grid of a place that was held before, or one
    /// pixel of it about one of the scan.
    [[nodiscard]] std::optional<HeldFrame> held(const CoarsePlace&, bool is_mirrored,
                                                const FrameGrid* grid = nullptr) const;
    /// Holds it once more, of a print that was cut, by what lies on its own side of the cut alone, of which
    /// the print shows `part`.
    void hold_on_side(HeldFrame&, const CoarsePlace&, const FramePart& part, const FramePart& side) const;

  private:
    const NegativeView& view_;
    SmallNegative small_;  ///< as keypoints are looked for
    GreyImage scan_;
    std::vector<Keypoint> points_;                ///< of the scan, in its pixels
    double pitch_;                                ///< of the scan's pixels, as they were looked for
    std::map<bool, std::vector<Match>> matches_;  ///< by whether the negative was mirrored
};

/// As a frame of the upright negative. `shown`: what the print shows, on the grid.
[[nodiscard]] PlacedFrame placed(HeldFrame, const FramePart& shown, const FilmEdges&, bool is_own_grain);

}  // namespace fogproof::registration
