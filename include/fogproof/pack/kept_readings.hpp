// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The readings that a pack keeps: rows, and the text of a readings file that they stand in, comments
// included. The text is parsed once and written as it was.
#pragma once

#include <memory>
#include <span>
#include <string>
#include <vector>

#include "fogproof/pack/readings.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::pack {

class KeptReadings {
  public:
    /// None.
    KeptReadings() = default;
    /// Throws what parse_readings() throws; an empty text is none.
    KeptReadings(std::string text, const std::string& place);

    [[nodiscard]] bool empty() const { return kept_ == nullptr; }
    [[nodiscard]] const std::string& text() const;
    [[nodiscard]] const std::vector<Reading>& rows() const;
    /// These with further ones behind them, under a comment line of their origin.
    [[nodiscard]] KeptReadings with(std::span<const Reading> further, const std::string& origin) const;
    friend bool operator==(const KeptReadings& a, const KeptReadings& b) { return a.text() == b.text(); }

  private:
    struct Kept {
        std::string text;
        std::vector<Reading> rows;
    };
    std::shared_ptr<const Kept> kept_;
};

}  // namespace fogproof::pack
