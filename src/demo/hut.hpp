// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A hut of dark logs under a heavy roof of snow; one window is lit.
#pragma once

#include "demo/landscape.hpp"
#include "demo/solid.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::demo {

class Hut : public Solid {
  public:
    explicit Hut(const Landscape&);
    [[nodiscard]] double distance(Vec) const override;
    [[nodiscard]] Finish finish(Vec) const override;

  private:
    struct Parts {
        double walls, boards, snow, chimney, trim;
    };
    [[nodiscard]] Vec local(Vec) const;
    [[nodiscard]] Parts parts(Vec local) const;
    HutPlace place_;
    double floor_, cos_, sin_;
};

}  // namespace fogproof::demo
