// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/pack_label.hpp"

#include <glib.h>

#include <memory>

#include "fogproof/pack/file.hpp"

namespace fogproof::report {

Description pack_label(const Pack& pack, std::string_view file) {
    Pack numbers = pack;
    numbers.notes.clear();
    numbers.readings = {};
    numbers.fit = {};
    const std::unique_ptr<gchar, void (*)(gpointer)> hash(
        g_compute_checksum_for_data(G_CHECKSUM_SHA256, reinterpret_cast<const guchar*>(file.data()),
                                    file.size()),
        g_free);
    return {{"pack", written(numbers)}, {"pack-sha256", hash.get()}};
}

}  // namespace fogproof::report
