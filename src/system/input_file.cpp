// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/input_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>

#include <cerrno>
#include <cstring>
#include <optional>
#include <string>
#include <vector>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"

namespace fogproof::system {
namespace fs = std::filesystem;
namespace {

constexpr char kAllowed[] = "a file that can be read";
constexpr std::size_t kMostNames = 10000;  // a larger folder is not looked through for a slip of the finger

std::optional<std::string> name_beside(const fs::path& missing) {
    const fs::path folder = missing.has_parent_path() ? missing.parent_path() : fs::path(".");
    std::vector<std::string> names;
    std::error_code fault;
    for (auto entry = fs::directory_iterator(folder, fault);
         !fault && entry != fs::directory_iterator() && names.size() < kMostNames; entry.increment(fault)) {
        std::error_code unknown;
        if (entry->is_regular_file(unknown)) names.push_back(entry->path().filename().string());
    }
    const auto nearest = nearest_word(missing.filename().string(), names);
    return nearest ? std::optional((missing.parent_path() / *nearest).string()) : std::nullopt;
}

}  // namespace

FileDescriptor opened_input(const fs::path& path) {
    if (path.empty()) throw Error(Fault::no_input, "input", "is a file without a name", kAllowed);
    FileDescriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
    if (file.number() < 0) {
        if (errno != ENOENT)
            throw Error(Fault::no_input, path.string(),
                        std::string("cannot be read: ") + std::strerror(errno), kAllowed);
        if (path == "-")
            throw Error(Fault::no_input, "-", "is no file; standard input is not read", kAllowed);
        const auto near = name_beside(path);
        throw Error(Fault::no_input, path.string(), "does not exist" + (near ? ", perhaps " + *near : ""),
                    kAllowed);
    }
    struct stat status {};
    if (::fstat(file.number(), &status) != 0 || !S_ISREG(status.st_mode))
        throw Error(Fault::no_input, path.string(), "is not a regular file", kAllowed);
    return file;
}

bool is_folder(const fs::path& path) {
    std::error_code unknown;
    return fs::is_directory(path, unknown);
}

}  // namespace fogproof::system
