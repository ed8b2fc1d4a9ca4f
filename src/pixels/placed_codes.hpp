// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Lines of codes with masks over them, told apart in places: what is counted, and not what is drawn.
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <vector>

#include "fogproof/rooms.hpp"
#include "pixels/code_source.hpp"
#include "pixels/local_painter.hpp"

namespace fogproof::pixels {

/// Places stand for levels of all masks, in steps that leave some dozens of them; the first is where no mask
/// reaches.
class PlacedCodes : public CodeSource {
  public:
    PlacedCodes(std::unique_ptr<CodeSource> frame, std::shared_ptr<const Masks>);

    /// Of each place the level of every mask.
    [[nodiscard]] const std::vector<std::vector<double>>& levels() const { return levels_; }

    [[nodiscard]] std::string name() const override { return frame_->name(); }
    [[nodiscard]] int width() const override { return frame_->width(); }
    [[nodiscard]] int height() const override { return frame_->height(); }
    [[nodiscard]] std::size_t codes() const override { return frame_->codes(); }
    [[nodiscard]] std::size_t places() const override { return levels_.size(); }
    [[nodiscard]] std::vector<PlaceRun> runs(int line) const override;
    [[nodiscard]] std::size_t line_bytes() const override { return frame_->line_bytes(); }
    [[nodiscard]] int lines_together() const override { return frame_->lines_together(); }
    [[nodiscard]] int lines_above() const override { return frame_->lines_above(); }
    [[nodiscard]] bool in_order() const override { return frame_->in_order(); }
    [[nodiscard]] std::unique_ptr<CodeReader> reader() const override { return frame_->reader(); }
    void require_unchanged() const override { frame_->require_unchanged(); }

  private:
    using Key = std::uint64_t;  // steps of all masks
    [[nodiscard]] Key key_part(float level, std::size_t mask) const;
    [[nodiscard]] Key key_of(const std::vector<LevelLine>&, int x, int width) const;
    [[nodiscard]] std::size_t place_of(Key) const;

    std::unique_ptr<CodeSource> frame_;
    std::shared_ptr<const Masks> masks_;
    int steps_ = 1;
    std::map<Key, std::size_t> places_;
    std::vector<std::vector<double>> levels_;
};

}  // namespace fogproof::pixels
