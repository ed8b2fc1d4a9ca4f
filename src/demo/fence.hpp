// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A crooked fence of posts and two rails, with snow lying on it.
#pragma once

#include <vector>

#include "demo/landscape.hpp"
#include "demo/solid.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::demo {

class Fence : public Solid {
  public:
    explicit Fence(const Landscape&);
    [[nodiscard]] double distance(Vec) const override;
    [[nodiscard]] Finish finish(Vec) const override;

  private:
    struct Post {
        Vec foot, top;
    };
    struct Parts {
        double wood, snow;
    };
    [[nodiscard]] Parts parts(Vec) const;
    std::vector<Post> posts_;
};

}  // namespace fogproof::demo
