// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The print model frozen into one entry per place and code value, with a stated worst error.
#pragma once

#include <span>
#include <vector>

#include "fogproof/base/quantity.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::table {

/// Lab of every code, for one place of the projection after the other. Evaluated at equal steps of negative
/// density and interpolated between them with a monotone cubic; codes outside the steps cannot occur.
class PrintTable {
  public:
    PrintTable(const PrintModel&, std::span<const NegativeDensity> scale);
    [[nodiscard]] const std::vector<Lab>& lab() const { return lab_; }

  private:
    std::vector<Lab> lab_;
};

/// Largest distance in L* between a table and its model over all codes (slow: asks the model for every one).
[[nodiscard]] double worst_lightness_error(const PrintTable&, const PrintModel&,
                                           std::span<const NegativeDensity> scale);

}  // namespace fogproof::table
