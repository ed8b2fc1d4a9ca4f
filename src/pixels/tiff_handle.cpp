// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/tiff_handle.hpp"

#include <algorithm>
#include <array>
#include <cstdarg>
#include <cstdio>

namespace fogproof::pixels {
namespace {

// No strip or tile that is accepted needs more, coded or decoded.
constexpr tmsize_t kLargestAllocation = 256 << 20;

int keep_first(TIFF*, void* complaint, const char*, const char* format, std::va_list values) {
    auto& text = *static_cast<std::string*>(complaint);
    std::array<char, 500> line{};
    std::vsnprintf(line.data(), line.size(), format, values);
    if (text.empty() && !spares_pixels(line.data())) text = line.data();
    return 1;
}

int ignore(TIFF*, void*, const char*, const char*, std::va_list) {
    return 1;
}

}  // namespace

// As libtiff 4 words them; a complaint that is worded otherwise counts.
bool spares_pixels(std::string_view complaint) {
    using namespace std::string_view_literals;
    if (complaint.find("Null count for \"ICC Profile\""sv) != complaint.npos) return true;
    if (complaint.find("Bad value "sv) == complaint.npos) return false;
    constexpr std::array kAside{"\"Orientation\" tag"sv, "\"XResolution\" tag"sv, "\"YResolution\" tag"sv,
                                "\"ResolutionUnit\" tag"sv};
    return std::ranges::any_of(kAside, [&](auto tag) { return complaint.ends_with(tag); });
}

TiffHandle::TiffHandle(const std::filesystem::path& path) : complaint_(std::make_unique<std::string>()) {
    const std::unique_ptr<TIFFOpenOptions, void (*)(TIFFOpenOptions*)> options(TIFFOpenOptionsAlloc(),
                                                                               TIFFOpenOptionsFree);
    TIFFOpenOptionsSetErrorHandlerExtR(options.get(), keep_first, complaint_.get());
    TIFFOpenOptionsSetWarningHandlerExtR(options.get(), ignore, nullptr);
    TIFFOpenOptionsSetMaxSingleMemAlloc(options.get(), kLargestAllocation);
    // Not mapped into memory, where a file that shrinks would be a crash; strips as they are, not cut up.
    tiff_.reset(TIFFOpenExt(path.c_str(), "rmc", options.get()));
}

}  // namespace fogproof::pixels
