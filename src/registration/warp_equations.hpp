// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One step of least squares towards a warp, and the blurs beside it: what its blocks say, what keypoints say,
// and that taper, lens and blurs are slight.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <span>

#include "fogproof/rooms.hpp"
#include "registration/block_pull.hpp"
#include "registration/blur_pull.hpp"
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
    using Covariance = Eigen::Matrix<double, FrameWarp::kNumbers, FrameWarp::kNumbers>;

    /// About a warp to a scan whose pixels are `pitch` of the finest, and blurs that blocks were looked at
    /// with.
    WarpEquations(const FrameWarp&, const KnownMatches&, double pitch, const Blurs& = Blurs::Zero());
    void add(const FramePlace& middle, const BlockPull&, double weight);
    /// A block that is asked for the blurs, too.
    void add(const FramePlace& middle, const BlockPull&, const BlurPull&, double weight);

    struct Solved {
        FrameWarp warp;
        Blurs blurs;
        Covariance covariance;  ///< of the warp, whatever the blurs are
    };
    /// Nothing where the blocks contradict each other.
    [[nodiscard]] std::optional<Solved> solved() const;

  private:
    static constexpr int kUnknowns = FrameWarp::kNumbers + kBlurs;
    using Unknowns = Eigen::Matrix<double, kUnknowns, 1>;
    using Products = Eigen::Matrix<double, kUnknowns, kUnknowns>;

    FrameWarp warp_;
    Blurs blurs_;
    Products normal_, hold_;
    Unknowns right_;  ///< of steps back
};

/// Standard deviation of the worst of some places, or of the frame's corners, pixels of the scan.
[[nodiscard]] double worst_doubt(const WarpEquations::Solved&, std::span<const FramePlace>);
[[nodiscard]] double corner_doubt(const WarpEquations::Solved&, const FrameGrid&);
/// How far the worst corner lies from where another warp has it, in pixels of the scan.
[[nodiscard]] double farthest_corner_move(const FrameWarp&, const FrameWarp& other, const FrameGrid&);

}  // namespace fogproof::registration
