// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What never changes in one darkroom (enlarger, trays, scanner), kept in a file: what options are worth when
// the command line leaves them out.
#pragma once

#include <CLI/CLI.hpp>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::cli {

class DarkroomFile {
  public:
    /// $XDG_CONFIG_HOME/fogproof/darkroom.toml, else ~/.config/fogproof/darkroom.toml (XDG Base Directory
    /// Specification 0.8); empty where there is no home.
    [[nodiscard]] static std::filesystem::path usual_path();
    /// The file as it is made for a printer to fill in, every setting commented out.
    [[nodiscard]] static std::string blank();

    struct Setting {
        std::string section, key, value;  ///< "enlarger", "callier", "1.3"
        std::string place;                ///< "FILE:LINE"
    };

    /// A file that does not exist holds no settings. Throws Error(Fault::data) at the line of a fault.
    explicit DarkroomFile(const std::filesystem::path&);

    [[nodiscard]] const std::vector<Setting>& settings() const { return settings_; }
    /// Makes the settings the defaults of every verb that has these options. Throws Error(Fault::data) at the
    /// line of one that no verb takes.
    void serve(CLI::App& program) const;
    /// Where a complaint about an option of a verb belongs that the command line did not give.
    [[nodiscard]] std::optional<std::string> place_of(const std::string& option,
                                                      const std::string& verb) const;

  private:
    std::vector<Setting> settings_;
};

}  // namespace fogproof::cli
