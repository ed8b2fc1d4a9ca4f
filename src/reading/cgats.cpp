// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/cgats.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>

#include "base/decimal_comma.hpp"
#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/sheet/colour.hpp"
#include "scan/lcms_session.hpp"

namespace fogproof::reading {
namespace {

constexpr double kThinnest = -0.05, kDensest = 4.0;
constexpr int kMostSamples = 20000;

using Table = std::unique_ptr<void, void (*)(cmsHANDLE)>;

struct Column {
    const char* name;
    const char* note;
    std::optional<double> (*density)(double);
};

std::optional<double> itself(double value) {
    return value;
}
std::optional<double> of_luminance(double y) {
    return y > 0 ? std::optional(-std::log10(y / 100)) : std::nullopt;
}
std::optional<double> of_lightness(double l) {
    return of_luminance(100 * xyz(Lab{l, 0, 0}).y);
}

// In the order of preference.
constexpr Column kColumns[] = {
    {"D_VIS", "", itself},
    {"DENSITY", "the column DENSITY is taken as visual reflection density", itself},
    {"XYZ_Y", "density is computed from XYZ_Y, which differs a little from visual density (ISO 5-3)",
     of_luminance},
    {"LAB_L", "density is computed from LAB_L, which differs a little from visual density (ISO 5-3)",
     of_lightness},
};

std::string upper_case(std::string_view text) {
    std::string upper(text);
    for (char& c : upper)
        if (c >= 'a' && c <= 'z') c = char(c - 'a' + 'A');
    return upper;
}

std::vector<std::size_t> places_of(std::string_view word, std::string_view text) {
    std::vector<std::size_t> places;
    for (auto at = text.find(word); at != std::string_view::npos; at = text.find(word, at + word.size()))
        places.push_back(at);
    return places;
}

// The first table of a file, in the only order that Little CMS 2.14 is safe with: told a number of fields
// anew, or after their names, it reads behind the end of its list; and it would open other files for
// .INCLUDE. Words count wherever they stand, in quotes and comments too, so that no reading of them differs
// from its own.
std::string_view sound_table(std::string_view text, const std::string& place) {
    const auto refuse = [&](const std::string& found, const std::string& allowed) {
        throw Error(Fault::data, place, "is a damaged CGATS file (" + found + ")", allowed);
    };
    const std::string words = upper_case(text);
    std::size_t end = std::string::npos;
    for (const auto at : places_of("END_DATA", words))
        if (!words.substr(at).starts_with("END_DATA_FORMAT")) {
            end = at + 8;
            break;
        }
    const std::string_view table = std::string_view(words).substr(0, end);
    if (!places_of("INCLUDE", table).empty()) refuse("it includes another file", "one file that holds all");
    const auto place_once = [&](const char* word) {
        auto places = places_of(word, table);
        if (std::string_view(word) == "BEGIN_DATA") std::erase(places, table.find("BEGIN_DATA_FORMAT"));
        if (places.size() != 1)
            refuse(std::string(word) + (places.empty() ? " is missing" : " is told more than once"),
                   "NUMBER_OF_FIELDS, NUMBER_OF_SETS, BEGIN_DATA_FORMAT and BEGIN_DATA, once each");
        return places.front();
    };
    const auto fields = place_once("NUMBER_OF_FIELDS"), names = place_once("BEGIN_DATA_FORMAT"),
               sets = place_once("NUMBER_OF_SETS"), rows = place_once("BEGIN_DATA");
    if (!(fields < names && names < rows && sets < rows))
        refuse("its parts are out of order", "NUMBER_OF_FIELDS, the names, NUMBER_OF_SETS, the data");
    return text.substr(0, end);
}

}  // namespace

bool is_cgats(std::string_view text) {
    return text.find("BEGIN_DATA_FORMAT") != std::string_view::npos &&
           text.find("BEGIN_DATA", text.find("END_DATA_FORMAT")) != std::string_view::npos;
}

InstrumentReadings cgats_readings(std::string_view text, const std::string& place) {
    const LcmsSession session;
    const std::string first(sound_table(text, place));
    const Table table(cmsIT8LoadFromMem(session.context(), first.data(), cmsUInt32Number(first.size())),
                      cmsIT8Free);
    if (!table)
        throw Error(Fault::data, place, "is a damaged CGATS file (" + session.message() + ")",
                    "a table as in ISO 28178");
    char** names = nullptr;
    const int count = cmsIT8EnumDataFormat(table.get(), &names);
    // A file may promise more columns than it names, or name none at all.
    std::vector<std::string> present;
    for (int field = 0; names != nullptr && field < count; ++field)
        present.emplace_back(names[field] != nullptr ? names[field] : "");
    const auto column = std::ranges::find_if(
        kColumns, [&](const Column& each) { return std::ranges::find(present, each.name) != present.end(); });
    if (column == std::end(kColumns))
        throw Error(Fault::data, place, "has the columns " + listed(present).substr(0, 200),
                    "one of D_VIS, DENSITY, XYZ_Y, LAB_L");
    const double sets = cmsIT8GetPropertyDbl(table.get(), "NUMBER_OF_SETS");
    if (!(sets >= 1 && sets <= kMostSamples))
        throw Error(Fault::data, place, decimal(sets, 0) + " samples",
                    "1 to " + std::to_string(kMostSamples));
    InstrumentReadings read;
    if (*column->note != '\0') read.notes.emplace_back(column->note);
    const std::string words = upper_case(text);
    if (const auto tables = places_of("BEGIN_DATA_FORMAT", words).size(); tables > 1)
        read.notes.push_back("the file holds " + std::to_string(tables) + " tables; the first one is used");
    const int at = int(std::ranges::find(present, column->name) - present.begin());
    const auto id = std::ranges::find_if(
        present, [](const std::string& name) { return name == "SAMPLE_NAME" || name == "SAMPLE_ID"; });
    double largest = 0;
    for (int row = 0; row < int(sets); ++row) {
        const char* cell = cmsIT8GetDataRowCol(table.get(), row, at);
        const auto value = cell != nullptr ? number_in(cell) : std::nullopt;
        const auto density = value ? column->density(*value) : std::nullopt;
        if (!density && has_decimal_comma(first))
            throw Error(Fault::data, place, "has numbers with a decimal comma", "a point, as in 0.35");
        if (!density || !(*density >= kThinnest && *density <= kDensest))
            throw Error(Fault::data, place,
                        std::string(column->name) + " of sample " + std::to_string(row + 1) + " is \"" +
                            (cell != nullptr ? cell : "") + "\"",
                        "a density from -0.05 to 4, or what gives one");
        largest = std::max(largest, *value);
        const char* sample =
            id != present.end() ? cmsIT8GetDataRowCol(table.get(), row, int(id - present.begin())) : nullptr;
        read.rows.push_back({sample != nullptr ? sample : "", {*density}});
    }
    // Nothing photographic is all blacker than 1 %: such a file counts its Y to 1.
    if (column->density == of_luminance && largest <= 1)
        throw Error(Fault::data, place, "no XYZ_Y is above " + decimal(largest, 3),
                    "Y on the scale 0 to 100");
    return read;
}

}  // namespace fogproof::reading
