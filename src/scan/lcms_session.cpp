// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/lcms_session.hpp"

#include <lcms2_plugin.h>

#include <algorithm>
#include <cstdlib>

#include "fogproof/base/error.hpp"

namespace fogproof::scan {
namespace {

cmsUInt32Number device_format(int channels) {
    return channels == 1 ? TYPE_GRAY_DBL : TYPE_RGB_DBL;
}

void keep(cmsContext context, cmsUInt32Number, const char* text) {
    auto& message = *static_cast<std::string*>(cmsGetContextUserData(context));
    message = text;
    std::replace(message.begin(), message.end(), '\n', ' ');
}

// No part of a profile that is accepted needs more; Little CMS itself takes 512 MB at the word of a header.
constexpr cmsUInt32Number kLargestAllocation = 64u << 20;

void* allocated(cmsContext, cmsUInt32Number bytes) {
    return bytes <= kLargestAllocation ? std::malloc(bytes) : nullptr;
}

void* allocated_again(cmsContext, void* block, cmsUInt32Number bytes) {
    return bytes <= kLargestAllocation ? std::realloc(block, bytes) : nullptr;
}

void freed(cmsContext, void* block) {
    std::free(block);
}

cmsPluginMemHandler with_little_memory() {
    cmsPluginMemHandler memory{};
    memory.base.Magic = cmsPluginMagicNumber;
    memory.base.ExpectedVersion = 2060;
    memory.base.Type = cmsPluginMemHandlerSig;
    memory.MallocPtr = allocated;
    memory.FreePtr = freed;
    memory.ReallocPtr = allocated_again;
    return memory;
}

}  // namespace

LcmsSession::LcmsSession() {
    cmsPluginMemHandler memory = with_little_memory();
    context_ = cmsCreateContext(&memory, message_.get());
    if (context_ == nullptr) throw Error(Fault::unavailable, "Little CMS", "gave no context");
    cmsSetLogErrorHandlerTHR(context_, keep);
}

LcmsSession::~LcmsSession() {
    cmsDeleteContext(context_);
}

LcmsSession::Profile LcmsSession::opened(std::span<const std::uint8_t> icc) const {
    return Profile(cmsOpenProfileFromMemTHR(context_, icc.data(), cmsUInt32Number(icc.size())));
}

LcmsSession::Transform LcmsSession::to_device(const Profile& device, int channels) const {
    const Profile lab(cmsCreateLab4ProfileTHR(context_, nullptr));
    return Transform(cmsCreateTransformTHR(context_, lab.get(), TYPE_Lab_DBL, device.get(),
                                           device_format(channels), INTENT_RELATIVE_COLORIMETRIC, kExact));
}

LcmsSession::Transform LcmsSession::to_lab(const Profile& device, int channels) const {
    const Profile lab(cmsCreateLab4ProfileTHR(context_, nullptr));
    return Transform(cmsCreateTransformTHR(context_, device.get(), device_format(channels), lab.get(),
                                           TYPE_Lab_DBL, INTENT_RELATIVE_COLORIMETRIC, kExact));
}

}  // namespace fogproof::scan
