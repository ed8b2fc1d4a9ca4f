// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The ICC profile embedded in a scan, asked for one thing only: the light (Y, profile white = 1) of its
// samples.
#pragma once

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::scan {

class ScanProfile {
  public:
    struct Found;
    /// The profile in these bytes for samples of 1 (grey) or 3 (RGB) channels.
    [[nodiscard]] static Found found_in(std::span<const unsigned char> icc, int channels);

    [[nodiscard]] const std::string& name() const { return name_; }
    [[nodiscard]] int channels() const { return channels_; }
    /// Light of samples from 0 to 1, channels() of them a pixel.
    [[nodiscard]] std::vector<double> light(std::span<const double> samples) const;
    void light(std::span<const float> samples, std::span<float> light) const;
    /// Light of every code when all channels carry it.
    [[nodiscard]] std::vector<double> neutral_light(std::size_t codes) const;
    /// What every code of one channel adds to the light of a pixel. Channels of wide colour spaces lie
    /// outside of what is seen, and may take light away.
    [[nodiscard]] std::vector<double> channel_light(int channel, std::size_t codes) const;
    /// The same as share of what the channel's full scale adds; empty where that is nothing at all.
    [[nodiscard]] std::vector<double> channel_curve(int channel, std::size_t codes) const;
    /// True when the light of a pixel is the sum of the lights of its channels (curves and a matrix).
    [[nodiscard]] bool additive() const { return additive_; }

  private:
    struct Transforms;
    [[nodiscard]] std::vector<double> xyz(std::span<const double> samples) const;
    [[nodiscard]] std::vector<double> channel_xyz(int channel, std::size_t codes) const;
    std::shared_ptr<const Transforms> transforms_;
    std::string name_;
    int channels_ = 1;
    bool additive_ = false;
};

/// A profile, or why the bytes are none for such samples.
struct ScanProfile::Found {
    std::optional<ScanProfile> profile;
    std::string why_not;
};

}  // namespace fogproof::scan
