// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A libtiff handle with its own error text, so that several can be at work at once.
#pragma once

#include <tiffio.h>

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

#include "fogproof/rooms.hpp"

namespace fogproof::pixels {

/// True for a complaint of libtiff that is about turning, resolution or an empty profile alone, which have no
/// say in the pixels.
[[nodiscard]] bool spares_pixels(std::string_view complaint);

class TiffHandle {
  public:
    /// Null inside when libtiff cannot make sense of the file.
    explicit TiffHandle(const std::filesystem::path&);

    [[nodiscard]] explicit operator bool() const { return bool(tiff_); }
    [[nodiscard]] TIFF* get() const { return tiff_.get(); }
    /// The first thing libtiff complained about that concerns the pixels; empty when nothing.
    [[nodiscard]] const std::string& complaint() const { return *complaint_; }

    template <class Value>
    [[nodiscard]] Value field(std::uint32_t tag, Value otherwise) const {
        Value value{};
        return TIFFGetFieldDefaulted(get(), tag, &value) == 1 ? value : otherwise;
    }

  private:
    struct Close {
        void operator()(TIFF* tiff) const { TIFFClose(tiff); }
    };
    std::unique_ptr<std::string> complaint_;  // stays where libtiff was told it is
    std::unique_ptr<TIFF, Close> tiff_;
};

}  // namespace fogproof::pixels
