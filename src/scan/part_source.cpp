// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/part_source.hpp"

#include <algorithm>
#include <cstdio>

namespace fogproof::scan {
namespace {

struct Parts {
    BytesAt bytes;
    std::vector<FilePart> parts;
    std::int64_t size = 0, at = 0;
};

gint64 read(VipsSourceCustom*, void* buffer, gint64 most, Parts* of) noexcept {
    std::int64_t begin = 0;
    for (const FilePart& part : of->parts) {
        const std::int64_t inside = of->at - begin, size = std::int64_t(part.size);
        begin += size;
        if (inside >= size) continue;
        const auto count = std::min<std::int64_t>(most, size - inside);
        if (!of->bytes(part.from + std::uint64_t(inside),
                       std::span(static_cast<std::byte*>(buffer), std::size_t(count))))
            return -1;
        of->at += count;
        return count;
    }
    return 0;
}

gint64 seek(VipsSourceCustom*, gint64 offset, int whence, Parts* of) noexcept {
    const std::int64_t from = whence == SEEK_SET ? 0 : whence == SEEK_CUR ? of->at : of->size;
    if (from + offset < 0) return -1;
    return of->at = from + offset;
}

void forget(gpointer parts, GClosure*) {
    delete static_cast<Parts*>(parts);
}

}  // namespace

vips::VSource part_source(const std::filesystem::path& path, std::vector<FilePart> parts) {
    auto made = std::make_unique<Parts>(Parts{bytes_of(path), std::move(parts)});
    for (const FilePart& part : made->parts) made->size += std::int64_t(part.size);
    VipsSourceCustom* const source = vips_source_custom_new();
    Parts* const kept = made.release();
    g_signal_connect(source, "seek", G_CALLBACK(seek), kept);
    g_signal_connect_data(source, "read", G_CALLBACK(read), kept, forget, GConnectFlags(0));
    return vips::VSource(VIPS_SOURCE(source));
}

}  // namespace fogproof::scan
