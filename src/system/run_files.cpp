// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/run_files.hpp"

#include <sys/stat.h>

#include "fogproof/base/error.hpp"

namespace fogproof::system {
namespace fs = std::filesystem;

RunFiles::Identity RunFiles::identity_of(const fs::path& path) {
    struct stat facts {};
    if (::stat(path.c_str(), &facts) == 0) return {facts.st_dev, facts.st_ino, {}};
    const fs::path folder = path.has_parent_path() ? path.parent_path() : fs::path(".");
    if (::stat(folder.c_str(), &facts) == 0) return {facts.st_dev, facts.st_ino, path.filename().string()};
    return {0, 0, path.lexically_normal().string()};
}

void RunFiles::reads(const fs::path& path) {
    // What is not there can be read no more than overwritten.
    if (std::error_code unknown; path.empty() || !fs::exists(path, unknown)) return;
    inputs_.try_emplace(identity_of(path), path);
}

void RunFiles::writes(const fs::path& path, const std::string& of) {
    if (path.empty()) return;
    // Elsewhere it means standard output; nobody means a file of that name.
    if (path == "-")
        throw Error(Fault::usage, "-", "is no name for " + of, Advice{"give a file a name; ./- is one"});
    const Identity identity = identity_of(path);
    if (const auto input = inputs_.find(identity); input != inputs_.end()) {
        const bool same_name = input->second.lexically_normal() == path.lexically_normal();
        throw Error(Fault::usage, path.string(),
                    "is the input itself" + (same_name ? std::string() : ", " + input->second.string()),
                    Advice{"inputs are never touched; give another name"});
    }
    const auto [output, is_new] = outputs_.try_emplace(identity, Output{path, of});
    if (is_new) return;
    const auto& [first, of_first] = output->second;
    throw Error(Fault::usage, path.string(),
                "would be written for " + of_first + " and again for " + of +
                    (first == path ? std::string() : ", there as " + first.string()),
                "files of different names");
}

}  // namespace fogproof::system
