// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One step of least squares towards a warp: what its blocks say, what keypoints say, and that taper and lens
// are slight.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <span>

#include "fogproof/rooms.hpp"
#include "registration/block_pull.hpp"
#include "registration/coarse_place.hpp"
#include "registration/frame_warp.hpp"
#include "registration/seen_frame.hpp"

namespace fogproof::registration {

struct KnownMatches {
    std::span<const Match> matches;  ///< on pixels of the finest scan
    double doubt;                    ///< of each, in these pixels
};

class WarpEquations {
  public:
    using Numbers = Eigen::Matrix<double, FrameWarp::kNumbers, 1>;
    using Covariance = Eigen::Matrix<double, FrameWarp::kNumbers, FrameWarp::kNumbers>;

    /// About a warp to a scan whose pixels are `pitch` of the finest.
    WarpEquations(const FrameWarp&, const KnownMatches&, double pitch);
    void add(const FramePlace& middle, const BlockPull&, double weight);

    struct Solved {
        FrameWarp warp;
        Covariance covariance;
    };
    /// Nothing where the blocks contradict each other.
    [[nodiscard]] std::optional<Solved> solved() const;

  private:
    FrameWarp warp_;
    Covariance normal_, hold_;
    Numbers right_;
};

/// Standard deviation of the worst corner, pixels of the scan.
[[nodiscard]] double corner_doubt(const WarpEquations::Solved&, const FrameGrid&);
/// How far the worst corner lies from where another warp has it, in pixels of the scan.
[[nodiscard]] double farthest_corner_move(const FrameWarp&, const FrameWarp& other, const FrameGrid&);

}  // namespace fogproof::registration
