// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Roughly where a negative's frame lies on a scan, out of keypoints that look alike in both.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "fogproof/rooms.hpp"
#include "registration/frame_warp.hpp"
#include "registration/keypoints.hpp"

namespace fogproof::registration {

/// A pair of keypoints that may be one place: in the frame and on the scan.
struct Match {
    FramePlace frame;
    ScanPlace scan;
    double turn;       ///< direction on the scan less direction in the frame, radians
    double growth;     ///< size on the scan over size in the frame, pixels a half diagonal
    double ambiguity;  ///< distance of looks over that of the next best; the less the more distinct
};

/// For each keypoint of the scan the one of the negative that looks most like it, if it stands out from the
/// next best; the most distinct first. `width`, `height`: of the image that the negative's keypoints are of.
[[nodiscard]] std::vector<Match> matches(std::span<const Keypoint> negative, int width, int height,
                                         std::span<const Keypoint> scan);

/// A keypoint of the print is good to this many of the pixels it was found on, about 1500 along the scan.
inline constexpr double kMatchDoubt = 1.5;

struct CoarsePlace {
    FrameWarp warp;
    std::vector<Match> agreeing;
    double doubt = kMatchDoubt;  ///< of each match, in such pixels
};

/// What another piece of the same print tells of a place: fewer matches will do.
struct CoarseHint {
    double growth;  ///< pixels of the scan a half diagonal
    double turn;    ///< radians
    [[nodiscard]] static CoarseHint of(const FrameWarp&);
};

/// Matches that agree on a place, where nothing else tells of it; and where no place has so many.
inline constexpr std::size_t kUsuallyAgreeing = 7, kFewAgreeing = 5;

/// How places are looked for.
struct CoarseSearch {
    std::size_t most;    ///< so many places at most
    double near = 0.02;  ///< half diagonals by which a keypoint may lie off: taper, lens
    double bend = 0.06;  ///< part of its size by which a place may be stretched or sheared: taper, wavy paper
    std::optional<CoarseHint> hint{};
    std::size_t fewest = kUsuallyAgreeing;  ///< matches that agree, where there is no hint
};
/// Two halves that lie side by side are nearly one print that is a little wider; asked more strictly they are
/// two.
inline constexpr double kNearOnHalves = 0.007, kBendOnHalves = 0.02;

/// Places on which many matches agree, most first. Turns other than by about a right angle or none are left
/// aside.
[[nodiscard]] std::vector<CoarsePlace> coarse_places(std::span<const Match>, const CoarseSearch&);

}  // namespace fogproof::registration
