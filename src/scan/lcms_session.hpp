// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Little CMS with its own context: handles that close themselves, messages that become the text of an Error.
#pragma once

#include <lcms2.h>

#include <cstdint>
#include <memory>
#include <span>
#include <string>

#include "fogproof/rooms.hpp"

namespace fogproof::scan {

/// Without NOOPTIMIZE Little CMS may replace exact curves by 16-bit tables; NOCACHE makes a transform safe
/// for threads.
inline constexpr cmsUInt32Number kExact = cmsFLAGS_NOOPTIMIZE | cmsFLAGS_NOCACHE;

/// One context, used by one thread. Without an error handler of its own Little CMS fails without a word.
class LcmsSession {
  public:
    LcmsSession();
    ~LcmsSession();
    LcmsSession(const LcmsSession&) = delete;
    LcmsSession& operator=(const LcmsSession&) = delete;

    struct CloseProfile {
        void operator()(void* handle) const { cmsCloseProfile(handle); }
    };
    struct DeleteTransform {
        void operator()(void* handle) const { cmsDeleteTransform(handle); }
    };
    struct FreeCurve {
        void operator()(cmsToneCurve* curve) const { cmsFreeToneCurve(curve); }
    };
    using Profile = std::unique_ptr<void, CloseProfile>;
    using Transform = std::unique_ptr<void, DeleteTransform>;
    using Curve = std::unique_ptr<cmsToneCurve, FreeCurve>;

    [[nodiscard]] cmsContext context() const { return context_; }
    /// Empty when the bytes are no profile; message() then tells why.
    [[nodiscard]] Profile opened(std::span<const std::uint8_t> icc) const;
    /// Lab (D50) to a grey or RGB device and back, media-relative colorimetric, in doubles, neither optimised
    /// into a table (which errs by up to 2 %) nor cached. Empty when the profile does not allow it.
    [[nodiscard]] Transform to_device(const Profile& device, int channels) const;
    [[nodiscard]] Transform to_lab(const Profile& device, int channels) const;
    /// The last complaint, in one line.
    [[nodiscard]] const std::string& message() const { return *message_; }

  private:
    // On the heap and in front, so that the handler's pointer outlives every call.
    std::unique_ptr<std::string> message_ = std::make_unique<std::string>();
    cmsContext context_;
};

}  // namespace fogproof::scan
