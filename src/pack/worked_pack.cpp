// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/worked_pack.hpp"

#include <utility>

#include "fogproof/base/error.hpp"
#include "system/threads.hpp"

namespace fogproof::pack {
namespace {

// A grade that a pack does not have is none of its grades.
std::optional<Filter> filter_if_any(const FilterSet& filters, double grade,
                                    const std::optional<Filter>& about) {
    try {
        return filters.at(grade, about);
    } catch (const Error&) {
        return std::nullopt;
    }
}

// All that filters depend on: the threshold of the grains moves their light as a whole.
bool has_filters_of(const Pack& pack, const Pack& other) {
    return pack.contrast == other.contrast && pack.iso_range == other.iso_range &&
           pack.filter_set == other.filter_set && pack.filters == other.filters &&
           pack.sheet == other.sheet && pack.black_density == other.black_density &&
           same_population(pack.grains, other.grains);
}

}  // namespace

WorkedPack::WorkedPack(const Pack& pack)
    : pack_(pack),
      paper_(layered_paper(pack)),
      table_(std::make_shared<const ShareTable>(grains())),
      population_(grains(), table_),
      filters_(std::make_shared<const FilterSet>(pack, paper(), table_)),
      grades_(grades_of(pack, paper())) {
    for (const double grade : grades_) filter_.push_back(filter_if_any(*filters_, grade, std::nullopt));
}

WorkedPack::WorkedPack(Pack pack, const WorkedPack& other)
    : pack_(std::move(pack)),
      paper_(layered_paper(pack_, other.pack_, other.paper_)),
      table_(other.table_->serves(grains()) ? other.table_ : std::make_shared<const ShareTable>(grains())),
      population_(same_population(grains(), other.grains()) ? other.population_
                                                            : GrainPopulation(grains(), table_)),
      grades_(other.grades_) {
    if (has_filters_of(pack_, other.pack_)) {
        filters_ = other.filters_;
        filter_ = other.filter_;
        return;
    }
    filters_ = std::make_shared<const FilterSet>(pack_, paper(), table_);
    for (std::size_t i = 0; i < grades_.size(); ++i)
        filter_.push_back(filter_if_any(*filters_, grades_[i], other.filter_[i]));
}

Developer WorkedPack::developer(const PaperModel& paper, double restrainer_ml_l) const {
    DevelopStep step = nominal_step(pack_.development);
    step.restrainer_ml_l = restrainer_ml_l;
    return {paper.emulsion, step, population_};
}

WorkedPacks::WorkedPacks(const Pack& pack)
    : moves_(pack), likeliest_(pack), less_(moves_.size()), more_(moves_.size()) {
    const auto worked = [&](std::size_t i, Moves::Way way) -> std::optional<WorkedPack> {
        try {
            return WorkedPack(moves_.pack(i, way), likeliest_);
        } catch (const Error&) {
            return std::nullopt;
        }
    };
    in_parallel(moves_.size(), [&](std::size_t i) {
        less_[i] = worked(i, Moves::Way::less);
        more_[i] = worked(i, Moves::Way::more);
    });
}

}  // namespace fogproof::pack
