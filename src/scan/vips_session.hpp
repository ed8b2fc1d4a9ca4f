// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// libvips made ready once for the whole program, and a watch over what it only mentions in passing.
#pragma once

#include <string>
#include <string_view>

#include "fogproof/rooms.hpp"

namespace vips {
class VImage;
}

namespace fogproof::scan {

/// Opens and starts libvips on first use, the same for every caller: one worker, no operation cache, none of
/// the loaders that its authors call unsafe for files of unknown origin. Throws Error(Fault::unavailable).
/// Nothing of libvips may be called before.
///
/// One worker, because with more of them libvips 8.14 may report success for a file that is damaged near its
/// end (its thread pool asks for errors before the last workers have finished); it costs no speed worth
/// having here.
void vips_ready();

/// What the system said, out of what libvips and libtiff wrapped around it.
[[nodiscard]] std::string in_few_words(const std::string& complaint);

/// Reports the progress of reading such an image, under these words.
void tell_progress_of(const vips::VImage&, const std::string& work);

/// A stretch of libvips work. A call that returns normally may still have left a complaint behind, and then
/// the pixels cannot be trusted: ask after every evaluation. One thread at a time works. A watch within
/// another, as when a scan is read while a picture is written, keeps to what is said during its own time.
class VipsWatch {
  public:
    VipsWatch();
    ~VipsWatch();
    VipsWatch(const VipsWatch&) = delete;
    VipsWatch& operator=(const VipsWatch&) = delete;
    /// What libvips has complained about since the watch began, as one line; empty when nothing.
    [[nodiscard]] std::string complaint() const;
    /// Throws Error(Fault::data, place, "cannot be read to its end (...)", "a complete file") on a complaint.
    void require_clean(std::string_view place) const;

  private:
    std::size_t known_ = 0;  // bytes of complaints from before
};

}  // namespace fogproof::scan
