// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/beside_program.hpp"

namespace fogproof::system {

namespace fs = std::filesystem;

fs::path beside_program(const fs::path& name) {
    std::error_code unknown;
    const fs::path program = fs::read_symlink("/proc/self/exe", unknown);
    if (unknown) return {};
    return program.parent_path().parent_path() / "share" / "fogproof" / name;
}

}  // namespace fogproof::system
