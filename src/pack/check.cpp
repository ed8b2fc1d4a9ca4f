// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "base/markup.hpp"
#include "fogproof/base/error.hpp"
#include "pack/fit_record.hpp"
#include "pack/schema.hpp"
#include "pack/toml_file.hpp"

namespace fogproof::pack {
namespace {

template <class Owner>
void check_number(const NumberRow<Owner>& row, const Owner& owner, const std::string& place,
                  const std::string& name) {
    const Limits limits{row.minimum, row.maximum, row.unit};
    const double value = row.of(owner);
    if (!within(value, limits))
        throw Error(Fault::config, place, name + " = " + shortest(value), limits_in_words(limits));
}

// Text that the file could not give back.
void check_text(const std::string& text, const std::string& place, const std::string& key) {
    try {
        static_cast<void>(parsed_toml("text = " + toml_text(text), place));
    } catch (const Error&) {
        throw Error(Fault::config, place, key + " is not text", "UTF-8");
    }
}

}  // namespace

void check(const Pack& pack, const std::string& place) {
    check_text(pack.name, place, "name");
    check_text(pack.notes, place, "notes");
    check_text(pack.readings.text(), place, "readings");
    if (!is_plain_line(pack.name))
        throw Error(Fault::config, place, "name has control characters", "one line of text");
    for (const auto& row : pack_numbers()) check_number(row, pack, place, row.name());
    for (const auto& filter : pack.filters)
        for (const auto& row : filter_numbers())
            check_number(row, filter, place, filter_number_name(filter, row.key));
    for (std::size_t i = 1; i < pack.filters.size(); ++i)
        if (!(pack.filters[i].grade > pack.filters[i - 1].grade))
            throw Error(Fault::config, place,
                        "filter grade " + shortest(pack.filters[i].grade) + " follows grade " +
                            shortest(pack.filters[i - 1].grade),
                        "rising grades");
    if (pack.contrast == Contrast::graded && !pack.filters.empty())
        throw Error(Fault::config, place, "filters on graded paper", "filters with contrast = \"variable\"");
    check_fit(pack, place);
}

}  // namespace fogproof::pack
