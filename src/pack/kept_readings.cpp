// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/pack/kept_readings.hpp"

#include <utility>

namespace fogproof::pack {

KeptReadings::KeptReadings(std::string text, const std::string& place) {
    if (text.empty()) return;
    auto rows = parse_readings(text, place);
    kept_ = std::make_shared<const Kept>(Kept{std::move(text), std::move(rows)});
}

const std::string& KeptReadings::text() const {
    static const std::string none;
    return kept_ ? kept_->text : none;
}

const std::vector<Reading>& KeptReadings::rows() const {
    static const std::vector<Reading> none;
    return kept_ ? kept_->rows : none;
}

KeptReadings KeptReadings::with(std::span<const Reading> further, const std::string& origin) const {
    if (further.empty()) return *this;
    return {joined_readings(text(), further, origin), origin};
}

}  // namespace fogproof::pack
