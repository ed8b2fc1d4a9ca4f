// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/path_beside.hpp"

namespace fogproof::system {
namespace fs = std::filesystem;

fs::path path_beside(const fs::path& folder, const fs::path& told) {
    const fs::path path = folder / told;
    fs::path plain = path.lexically_normal();
    std::error_code unknown;
    const bool is_elsewhere = fs::exists(path, unknown) && !fs::equivalent(path, plain, unknown);
    return is_elsewhere ? path : plain;
}

}  // namespace fogproof::system
