// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Every number of a pack, once: what it is called in the file, its unit, its range, what it means and where
// it lives. Reading, checking, writing, showing and fitting all go by these rows.
#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>

#include "fogproof/pack/pack.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::pack {

/// One number of a pack (or, with Owner = PackFilter, of one of its filters).
template <class Owner>
struct NumberRow {
    std::string_view section, key, unit;
    double minimum, maximum;
    std::string_view description;  ///< a sentence without its full stop
    /// How far a default that nobody measured may be off, one standard deviation; 0 for what the owner sets
    /// and knows. Above 0 the default is a judgement, and so is the doubt.
    double doubt;
    double& (*in)(Owner&);
    double (*of)(const Owner&);

    /// "section.key", as Pack::knowledge has it.
    [[nodiscard]] std::string name() const { return std::string(section) + "." + std::string(key); }
};
using PackNumber = NumberRow<Pack>;
using FilterNumber = NumberRow<PackFilter>;

/// A section of the pack file and the sentence it opens with.
struct PackSection {
    std::string_view name, description;
};

/// In the order of the file.
[[nodiscard]] std::span<const PackSection> pack_sections();
[[nodiscard]] std::span<const PackNumber> pack_numbers();
[[nodiscard]] std::span<const FilterNumber> filter_numbers();
/// The row called "section.key"; null if there is none.
[[nodiscard]] const PackNumber* pack_number(std::string_view name);

/// Name of a filter's number in Pack::knowledge: "filter.GRADE.key".
[[nodiscard]] std::string filter_number_name(const PackFilter&, std::string_view key);

/// The section of filters that nobody measured.
inline constexpr std::string_view kFilterSetSection = "filter_set";
/// The section of the coefficients by which a paper departs from the laws.
inline constexpr std::string_view kDepartureSection = "departure";
/// Its rows: shown together, never one by one.
[[nodiscard]] bool is_departure(const PackNumber&);
/// The section of fog that came in from the sheets' edges.
inline constexpr std::string_view kEdgeFogSection = "edge_fog";
/// The sections of the toners, in the order of Toner.
inline constexpr std::array<std::string_view, kToners> kTonerSections{"sulphide", "thiourea", "selenium"};
[[nodiscard]] bool is_of_toner(const PackNumber&);
/// False for fog of the edges and for toners where nothing is told of them: such rows are in no file and no
/// list but those of the assumed toners.
[[nodiscard]] bool is_listed(const Pack&, const PackNumber&);
/// False where a paper of this kind has no use for the number.
[[nodiscard]] bool applies(const Pack&, const PackNumber&);

/// True for numbers that are doubted by a factor rather than by a difference: amounts that cannot be nil.
[[nodiscard]] bool goes_by_factor(const PackNumber&);

/// Words of the file for the kinds of paper and for where a number comes from, in the order of their enums.
[[nodiscard]] std::span<const std::string> contrast_words();
[[nodiscard]] std::span<const std::string> surface_words();
[[nodiscard]] std::span<const std::string> origin_words();
[[nodiscard]] std::optional<Origin> origin_of(std::string_view word);
[[nodiscard]] std::span<const std::string> agent_words();
[[nodiscard]] std::span<const std::string> head_words();

/// First-surface light of a surface and the black it leaves to one and the same silver. Judgement.
struct SurfaceDefaults {
    double light, black_density;
};
[[nodiscard]] SurfaceDefaults surface_defaults(Surface);
/// The same light where the black is known: no surface throws more into the eye than the blackest print does,
/// all but a tenth of whose light comes from it at most. Judgement.
[[nodiscard]] double surface_light_over(Surface, double black_density);

/// Strength of an agent's stock and the amount of it that halves the fog. Potassium bromide is kept at 10 %
/// (Barnet Book; Practical Photography); benzotriazole at 1 %, of which 5 to 20 ml/L are usual, 50 for bad
/// fog (common practice, no source). What halves the fog is judgement.
struct RestrainerDefaults {
    double stock_percent, half_ml_l;
};
[[nodiscard]] RestrainerDefaults restrainer_defaults(RestrainerAgent);

/// Callier factor and its doubt: 1.0 to 1.05 for diffuse heads, 1.2 to 1.5 for condensers (from memory). A
/// head that nobody names counts as diffuse, as heads for contrast filters are, in a doubt that reaches to
/// condensers.
struct HeadDefaults {
    double callier, doubt;
};
[[nodiscard]] HeadDefaults head_defaults(Head);

/// Refuses (Fault::config, "place: section.key = found; expected: ...") a number outside its range, text
/// that is not UTF-8, filters out of order and filters on graded paper.
void check(const Pack&, const std::string& place);

}  // namespace fogproof::pack
