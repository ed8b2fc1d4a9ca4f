// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/output_folder.hpp"

#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <string>

#include "fogproof/base/error.hpp"
#include "system/input_file.hpp"

namespace fogproof::system {
namespace fs = std::filesystem;
namespace {

constexpr char kFolderAllowed[] = "a folder, or a place where one can be made";

}  // namespace

void require_folder_can_be(const fs::path& folder) {
    fs::path nearest = folder;
    std::error_code unknown;
    while (!fs::exists(nearest, unknown)) {
        if (unknown && unknown != std::errc::not_a_directory)
            throw Error(Fault::cannot_create, nearest.string(), "cannot be reached: " + unknown.message(),
                        kFolderAllowed);
        nearest = nearest.has_parent_path() && nearest != nearest.parent_path() ? nearest.parent_path()
                                                                                : fs::path(".");
    }
    if (!is_folder(nearest))
        throw Error(Fault::cannot_create, folder.string(), nearest.string() + " is no folder",
                    kFolderAllowed);
    if (nearest != folder && ::access(nearest.c_str(), W_OK | X_OK) != 0)
        throw Error(Fault::cannot_create, folder.string(),
                    std::string("cannot be made: ") + std::strerror(errno), kFolderAllowed);
}

void make_folder(const fs::path& folder) {
    std::error_code fault;
    fs::create_directories(folder, fault);
    if (fault && !is_folder(folder))
        throw Error(Fault::cannot_create, folder.string(), "cannot be made: " + fault.message(),
                    kFolderAllowed);
}

}  // namespace fogproof::system
