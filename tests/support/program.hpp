// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The program run as a user runs it, in a folder of its own.
#pragma once

#include <sys/wait.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <string>

#include "film_scan.hpp"

namespace fogproof {

inline std::string content_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

class Program {
  public:
    struct Answer {
        int code;  ///< exit code; 128 and the signal's number after a crash
        std::string out, err;
    };

    /// What a shell makes of "fogproof WORDS" in the folder, with variables of the environment set before it.
    [[nodiscard]] Answer run(const std::string& words, const std::string& variables = {}) const {
        const std::string out = (said_ / "out").string(), err = (said_ / "err").string();
        const std::string line = "cd '" + (folder_ / "").string() + "' && " + variables +
                                 " '" FOGPROOF_PROGRAM "' " + words + " >'" + out + "' 2>'" + err +
                                 "' </dev/null";
        const int status = std::system(line.c_str());
        return {WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status), content_of(out),
                content_of(err)};
    }
    [[nodiscard]] std::filesystem::path operator/(const std::string& name) const { return folder_ / name; }
    void write(const std::string& name, const std::string& text) const {
        std::ofstream(folder_ / name, std::ios::binary) << text;
    }
    /// Every file of the folder with its content; folders end in a slash.
    [[nodiscard]] std::map<std::string, std::string> files() const {
        std::map<std::string, std::string> all;
        for (const auto& entry : std::filesystem::recursive_directory_iterator(folder_ / "")) {
            const std::string name = std::filesystem::relative(entry.path(), folder_ / "").string();
            if (entry.is_directory())
                all[name + "/"];
            else
                all[name] = content_of(entry.path());
        }
        return all;
    }

  private:
    TestFolder folder_, said_;
};

}  // namespace fogproof
