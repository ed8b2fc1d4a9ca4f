// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/packed_data.hpp"

#include <glib.h>
#include <libdeflate.h>

#include <memory>

#include "fogproof/base/error.hpp"

namespace fogproof::report {

std::string deflated_base64(std::string_view bytes) {
    constexpr int kLevel = 9;
    const std::unique_ptr<libdeflate_compressor, void (*)(libdeflate_compressor*)> compressor(
        libdeflate_alloc_compressor(kLevel), libdeflate_free_compressor);
    if (!compressor) throw Error(Fault::unavailable, "libdeflate", "has no memory");
    std::string packed(libdeflate_zlib_compress_bound(compressor.get(), bytes.size()), '\0');
    const std::size_t size =
        libdeflate_zlib_compress(compressor.get(), bytes.data(), bytes.size(), packed.data(), packed.size());
    const std::unique_ptr<gchar, void (*)(void*)> text(
        g_base64_encode(reinterpret_cast<const guchar*>(packed.data()), size), g_free);
    return text.get();
}

}  // namespace fogproof::report
