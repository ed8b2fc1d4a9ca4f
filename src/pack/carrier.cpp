// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/carrier.hpp"

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "pack/toml_file.hpp"

namespace fogproof::pack {

Carrier carrier_in(std::string_view text, const std::string& place) {
    const std::string_view word = trimmed(text);
    if (word == "empty") return Carrier::of(0);
    if (word == "clear-film" || word == "clear film") return {Carrier::Held::clear_film, 0};
    const auto density = number_in(word);
    if (!density || !(*density >= 0 && *density <= kDensestCarrier))
        throw Error(Fault::usage, place, "\"" + std::string(text) + "\"", kCarrierAllowed);
    return Carrier::of(*density);
}

double carrier_density_in(std::string_view text, const std::string& place) {
    const Carrier carrier = carrier_in(text, place);
    if (carrier.held != Carrier::Held::density)
        throw Error(Fault::usage, place, "\"" + std::string(text) + "\" has no density",
                    "empty, or the density of the film in the carrier, as 0.25");
    return carrier.density;
}

std::string carrier_entry(const Carrier& carrier) {
    switch (carrier.held) {
        case Carrier::Held::untold:
            return {};
        case Carrier::Held::clear_film:
            return toml_text("clear film");
        case Carrier::Held::density:
            return carrier.density == 0 ? toml_text("empty") : shortest(carrier.density);
    }
    return {};
}

std::string in_words(const Carrier& carrier) {
    if (carrier.held != Carrier::Held::density) return "clear film in the carrier";
    return carrier.density == 0 ? "an empty carrier"
                                : "film of density " + decimal(carrier.density, 2) + " in the carrier";
}

}  // namespace fogproof::pack
