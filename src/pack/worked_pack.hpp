// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A pack with what most questions about it share, worked out once: its paper, its grains, a filter for every
// grade. Of many packs that a pack may be, each takes over what moving a number left alone.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include "fogproof/pack/grades.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"
#include "pack/doubted.hpp"
#include "pack/paper_model.hpp"
#include "system/threads.hpp"

namespace fogproof::pack {

class WorkedPack {
  public:
    /// With the grades that it offers.
    explicit WorkedPack(const Pack&);
    /// One that differs little from another, with the grades of that.
    WorkedPack(Pack, const WorkedPack& other);

    [[nodiscard]] const Pack& pack() const { return pack_; }
    [[nodiscard]] const PaperModel& paper() const { return paper_.model; }
    [[nodiscard]] const FilterSet& filters() const { return *filters_; }
    [[nodiscard]] const std::vector<double>& grades() const { return grades_; }
    /// The filter of one of the grades; nothing where this pack does not reach so far.
    [[nodiscard]] const std::optional<Filter>& filter(std::size_t grade) const { return filter_[grade]; }
    /// Development of its paper, or of that paper before_fog(): nominal, with so much restrainer.
    [[nodiscard]] Developer developer(const PaperModel&, double restrainer_ml_l) const;

  private:
    [[nodiscard]] const Grains& grains() const { return paper_.model.emulsion.grains; }

    Pack pack_;
    LayeredPaper paper_;
    std::shared_ptr<const ShareTable> table_;
    GrainPopulation population_;
    std::shared_ptr<const FilterSet> filters_;
    std::vector<double> grades_;
    std::vector<std::optional<Filter>> filter_;
};

/// A pack and all its Moves, worked out.
class WorkedPacks {
  public:
    explicit WorkedPacks(const Pack&);
    [[nodiscard]] const WorkedPack& likeliest() const { return likeliest_; }

    /// Asks all packs, several at once.
    template <class Ask>
    [[nodiscard]] auto asked(const Ask& ask) const {
        using Answer = decltype(ask(likeliest_));
        std::vector<std::optional<Answer>> less(moves_.size()), more(moves_.size());
        in_parallel(moves_.size(), [&](std::size_t i) {
            if (less_[i]) less[i] = ask(*less_[i]);
            if (more_[i]) more[i] = ask(*more_[i]);
        });
        return Doubted<Answer>(moves_, ask(likeliest_), [&](const Moves&, std::size_t i, Moves::Way way) {
            return std::move(way == Moves::Way::less ? less[i] : more[i]);
        });
    }

  private:
    Moves moves_;
    WorkedPack likeliest_;
    std::vector<std::optional<WorkedPack>> less_, more_;  // nothing for a pack that contradicts itself
};

}  // namespace fogproof::pack
