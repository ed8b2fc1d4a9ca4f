// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/placed_codes.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace fogproof::pixels {
namespace {

constexpr std::size_t kMostPlacesCounted = 24;
constexpr std::array kStepsTried{20, 16, 12, 8, 6, 4, 3, 2, 1};
constexpr int kLooks = 256;     // across the masks, for the places there are
constexpr int kInOnePlace = 8;  // pixels of a line
// Eight local works and the fog of the edges in one key.
constexpr int kBitsOfStep = 7, kStepMask = 0x7f;

}  // namespace

PlacedCodes::PlacedCodes(std::unique_ptr<CodeSource> frame, std::shared_ptr<const Masks> masks)
    : frame_(std::move(frame)), masks_(std::move(masks)) {
    std::set<Key> keys;
    for (const int steps : kStepsTried) {
        steps_ = steps;
        keys = {0};
        for (int y = 0; y < kLooks; ++y) {
            std::vector<LevelLine> lines;
            for (const LevelGrid& mask : *masks_) lines.emplace_back(mask, y, kLooks);
            for (int x = 0; x < kLooks; ++x) keys.insert(key_of(lines, x, kLooks));
        }
        if (keys.size() <= kMostPlacesCounted) break;
    }
    for (const Key key : keys) {
        places_.emplace(key, levels_.size());
        std::vector<double> levels;
        for (std::size_t i = 0; i < masks_->size(); ++i)
            levels.push_back(double(key >> (kBitsOfStep * i) & kStepMask) / steps_);
        levels_.push_back(std::move(levels));
    }
}

PlacedCodes::Key PlacedCodes::key_part(float level, std::size_t mask) const {
    return Key(int(level * float(steps_) + 0.5f)) << (kBitsOfStep * mask);
}

PlacedCodes::Key PlacedCodes::key_of(const std::vector<LevelLine>& lines, int x, int width) const {
    Key key = 0;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        float level = 0;
        lines[i].levels(x, x + 1, width, &level);
        key |= key_part(level, i);
    }
    return key;
}

// Levels that no look has met lie beside some that one has.
std::size_t PlacedCodes::place_of(Key key) const {
    if (const auto found = places_.find(key); found != places_.end()) return found->second;
    std::size_t nearest = 0;
    double least = 1e9;
    for (std::size_t place = 0; place < levels_.size(); ++place) {
        double far = 0;
        for (std::size_t i = 0; i < masks_->size(); ++i)
            far += std::abs(double(key >> (kBitsOfStep * i) & kStepMask) / steps_ - levels_[place][i]);
        if (far < least) {
            least = far;
            nearest = place;
        }
    }
    return nearest;
}

std::vector<PlaceRun> PlacedCodes::runs(int line) const {
    const int parts = (width() + kInOnePlace - 1) / kInOnePlace;
    std::vector<Key> keys(std::size_t(parts), 0);
    std::vector<float> levels(keys.size());
    for (std::size_t i = 0; i < masks_->size(); ++i) {
        const LevelLine across((*masks_)[i], line, height());
        if (across.reach(0, parts, parts) == LevelLine::Reach::none) continue;
        across.levels(0, parts, parts, levels.data());
        for (std::size_t part = 0; part < keys.size(); ++part) keys[part] |= key_part(levels[part], i);
    }
    std::vector<PlaceRun> runs;
    for (int part = 0; part < parts; ++part) {
        const int end = std::min((part + 1) * kInOnePlace, width());
        const auto here = std::size_t(part);
        if (part > 0 && keys[here] == keys[here - 1])
            runs.back().end = end;
        else
            runs.push_back({end, place_of(keys[here])});
    }
    return runs;
}

}  // namespace fogproof::pixels
