// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/piece_labels.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <utility>

#include "base/shortest.hpp"
#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "pack/csv_cells.hpp"

namespace fogproof::reading {
namespace {

constexpr std::array kKinds{"patch", "strip", "print", "skip"};
// Columns before those of a readings file.
enum class Own : std::size_t {
    piece,
    kind,
    left,
    top,
    width,
    height,
    strip,
    known,
    steps,
    wedge,
    exposures,
    halves,
    negative,
    callier,
    flare,
    count
};
constexpr auto kOwnColumns = std::size_t(Own::count);
constexpr std::array kOwn{"piece", "kind",  "left",      "top",    "width",    "height",  "strip", "known",
                          "steps", "wedge", "exposures", "halves", "negative", "callier", "flare"};
static_assert(kOwn.size() == kOwnColumns);
constexpr int kMostPieces = 999, kMostPixels = 1000000;
constexpr char kHalvesAllowed[] = "yes or no, or left, right, upper or lower: the bleached half of a print";

bool is_of_labels(const ReadingColumn& column) {
    constexpr std::array kOfReadings{"density",    "density_error", "common_error",
                                     "dark_error", "instrument",    "callier"};
    return std::ranges::find(kOfReadings, std::string_view(column.name)) == kOfReadings.end();
}

std::vector<const ReadingColumn*> treatment_columns() {
    std::vector<const ReadingColumn*> columns;
    for (const ReadingColumn& column : reading_columns())
        if (is_of_labels(column)) columns.push_back(&column);
    return columns;
}

std::vector<std::string> column_names() {
    std::vector<std::string> names(kOwn.begin(), kOwn.end());
    for (const ReadingColumn* column : treatment_columns()) names.emplace_back(column->name);
    return names;
}

// One line of the file, its cells by their columns.
class LabelLine {
  public:
    LabelLine(const CsvRow& row, const std::vector<std::size_t>& columns, CsvFaults& faults)
        : line_(row.line), faults_(faults), cells_(column_names().size()) {
        for (std::size_t i = 0; i < columns.size(); ++i)
            cells_[columns[i]] = std::string(trimmed(row.cells[i]));
    }

    PieceLabels labels() {
        PieceLabels told;
        told.line = line_;
        told.piece = whole(Own::piece, 1, kMostPieces);
        take_kind(told);
        take_place(told);
        if (!cell(Own::known).empty()) {
            told.known = known_density_in(cell(Own::known));
            if (!told.known) refuse(Own::known, known_densities_allowed());
        }
        told.steps = whole(Own::steps, 1, kMostSteps);
        told.bleached = half_side_in(cell(Own::halves));
        told.halves = told.bleached || is_yes(Own::halves, kHalvesAllowed);
        take_text(told.strip.common.strip, cell(Own::strip), "strip", line_, faults_);
        take_text(told.negative, cell(Own::negative), "negative", line_, faults_);
        told.callier = number(Own::callier, 1, 2), told.flare = number(Own::flare, 0, 0.3);
        take_steps(told);
        const auto columns = treatment_columns();
        for (std::size_t i = 0; i < columns.size(); ++i)
            take_number(told.strip.common, *columns[i], cells_[kOwnColumns + i], line_, faults_);
        hold_together(told);
        return told;
    }

  private:
    [[nodiscard]] const std::string& cell(Own column) const { return cells_[std::size_t(column)]; }

    void refuse(Own column, const std::string& allowed) {
        faults_.add(line_, std::string(kOwn.at(std::size_t(column))) + " = " + shown_cell(cell(column)),
                    allowed);
    }

    std::optional<double> number(Own column, double least, double most) {
        if (cell(column).empty()) return std::nullopt;
        const auto value = number_in(cell(column));
        if (value && *value >= least && *value <= most) return value;
        refuse(column, decimal(least, 2) + " to " + decimal(most, 2));
        return std::nullopt;
    }

    std::optional<int> whole(Own column, int least, int most) {
        const auto value = number(column, least, most);
        if (!value) return std::nullopt;
        if (*value == int(*value)) return int(*value);
        refuse(column, "a whole number");
        return std::nullopt;
    }

    bool is_yes(Own column, const char* allowed) {
        const std::string& text = cell(column);
        if (text == "yes") return true;
        if (!text.empty() && text != "no") refuse(column, allowed);
        return false;
    }

    void take_kind(PieceLabels& told) {
        const std::string& text = cell(Own::kind);
        if (text.empty()) {
            told.kind = cell(Own::negative).empty() ? PieceRequest::Kind::strip : PieceRequest::Kind::print;
            return;
        }
        const auto found = std::ranges::find(kKinds, text);
        if (found == kKinds.end())
            refuse(Own::kind, "patch, strip, print, or skip for what is not to be read");
        else
            told.kind = PieceRequest::Kind(found - kKinds.begin());
    }

    void take_place(PieceLabels& told) {
        const auto x = whole(Own::left, -kMostPixels, kMostPixels),
                   y = whole(Own::top, -kMostPixels, kMostPixels), wide = whole(Own::width, 1, kMostPixels),
                   high = whole(Own::height, 1, kMostPixels);
        if (x && y && wide && high) told.place = Region{*x, *y, *wide, *high};
    }

    void take_steps(PieceLabels& told) {
        if (!cell(Own::wedge).empty()) {
            told.strip.wedge = step_wedge_in(cell(Own::wedge));
            if (!told.strip.wedge) refuse(Own::wedge, "START INCREMENT STEPS, such as 0.05 0.15 21");
        }
        if (!cell(Own::exposures).empty()) {
            const auto seconds = band_seconds_in(cell(Own::exposures));
            if (seconds)
                told.strip.exposures = *seconds;
            else
                refuse(Own::exposures, "seconds of 2 or more bands, such as 2 4 8 16");
        }
    }

    // What single cells cannot tell.
    void hold_together(PieceLabels& told) {
        using Kind = PieceRequest::Kind;
        const Reading& row = told.strip.common;
        const auto need = [&](bool holds, const std::string& found, const std::string& allowed) {
            if (!holds) faults_.add(line_, found, allowed);
        };
        const bool has_bands = told.strip.wedge || !told.strip.exposures.empty();
        need(told.kind == Kind::strip || !has_bands, "wedge or exposures of a " + kind_word(told.kind),
             "kind strip, or empty cells");
        need(!told.strip.wedge || told.strip.exposures.empty(), "wedge and exposures", "give one of them");
        need(told.strip.exposures.empty() || !row.exposure_s, "exposure_s and exposures", "give one of them");
        need(!told.halves || told.kind == Kind::strip || told.kind == Kind::print,
             "halves of a " + kind_word(told.kind), "kind strip or print");
        need(!told.bleached || told.kind == Kind::print, "the side of the bleached half of a strip",
             "yes; a strip's steps tell");
        need(!told.halves || row.bleach_s > 0, "halves without bleach_s",
             "the seconds that one half was bleached");
        need(told.kind == Kind::print || told.negative.empty(), "negative of a " + kind_word(told.kind),
             "kind print, or an empty cell");
        need(!cell(Own::piece).empty() || (told.kind == Kind::print && !told.known), "no piece",
             "its number on --picture; only a print that has the scan to itself needs none");
        const int implied = told.strip.wedge ? told.strip.wedge->steps : int(told.strip.exposures.size());
        if (implied > 0) {
            need(told.steps.value_or(implied) == implied, "steps = " + std::to_string(told.steps.value_or(0)),
                 std::to_string(implied) + ", as wedge or exposures tell");
            told.steps = implied;
        }
    }

    static std::string kind_word(PieceRequest::Kind kind) { return kKinds.at(std::size_t(kind)); }

    int line_;
    CsvFaults& faults_;
    std::vector<std::string> cells_;
};

void refuse_doubles(std::span<const PieceLabels> all, CsvFaults& faults) {
    std::map<int, int> line_of;
    for (const PieceLabels& told : all)
        if (told.piece && !line_of.emplace(*told.piece, told.line).second)
            faults.add(told.line, "piece " + std::to_string(*told.piece) + " twice",
                       "one line a piece; line " + std::to_string(line_of[*told.piece]) + " has it too");
        else if (!told.piece && all.size() > 1)
            faults.add(told.line, "no piece", "its number on --picture, where a file has several lines");
}

std::string spaced(const std::vector<double>& numbers) {
    std::string text;
    for (const double number : numbers) text.append(text.empty() ? "" : " ").append(shortest(number));
    return text;
}

std::string row_text(const PieceLabels& told) {
    std::array<std::string, kOwnColumns> own;
    const auto at = [&](Own column) -> std::string& { return own.at(std::size_t(column)); };
    const auto put = [&](Own column, const auto& value) {
        if (value) at(column) = shortest(double(*value));
    };
    put(Own::piece, told.piece), put(Own::steps, told.steps);
    put(Own::callier, told.callier), put(Own::flare, told.flare);
    at(Own::kind) = kKinds.at(std::size_t(told.kind));
    if (const auto& place = told.place) {
        at(Own::left) = std::to_string(place->left), at(Own::top) = std::to_string(place->top);
        at(Own::width) = std::to_string(place->width), at(Own::height) = std::to_string(place->height);
    }
    at(Own::strip) = csv_cell(told.strip.common.strip), at(Own::negative) = csv_cell(told.negative);
    if (told.known)
        at(Own::known) = told.known->what.empty() ? shortest(told.known->density) : told.known->what;
    if (const auto& w = told.strip.wedge)
        at(Own::wedge) = spaced({w->start, w->increment, double(w->steps)}), at(Own::steps).clear();
    if (!told.strip.exposures.empty())
        at(Own::exposures) = spaced(told.strip.exposures), at(Own::steps).clear();
    if (told.halves) at(Own::halves) = told.bleached ? word_of(*told.bleached) : "yes";
    std::string text;
    for (std::size_t i = 0; i < own.size(); ++i) text.append(i > 0 ? "," : "").append(own.at(i));
    for (const ReadingColumn* column : treatment_columns()) {
        text += ",";
        if (fills(told.strip.common, *column)) text += shortest(*column->get(told.strip.common));
    }
    return text + "\n";
}

}  // namespace

std::vector<PieceLabels> parse_labels(std::string_view text, const std::string& place) {
    const auto rows = csv_rows(text);
    if (rows.empty())
        throw Error(Fault::data, place, "has no rows", "a line of column names and a line a piece");
    const auto columns = csv_columns(rows.front(), column_names(), "piece", place);
    if (rows.size() < 2) throw Error(Fault::data, place, "has no pieces", "a line for each piece");
    if (rows.size() > std::size_t(kMostPieces) + 1)
        throw Error(Fault::data, place, std::to_string(rows.size() - 1) + " pieces",
                    "up to " + std::to_string(kMostPieces));
    CsvFaults faults(place);
    std::vector<PieceLabels> all;
    for (std::size_t i = 1; i < rows.size(); ++i)
        if (is_whole_row(rows[i], columns.size(), faults))
            all.push_back(LabelLine(rows[i], columns, faults).labels());
    refuse_doubles(all, faults);
    faults.refuse();
    return all;
}

std::string labels_text(std::span<const PieceLabels> all, std::span<const std::string> comments) {
    std::string text;
    for (const std::string& comment : comments) text += "# " + comment + "\n";
    const auto names = column_names();
    for (std::size_t i = 0; i < names.size(); ++i) text.append(i > 0 ? "," : "").append(names[i]);
    text += "\n";
    for (const PieceLabels& told : all) text += row_text(told);
    return text;
}

void ask_for_pieces(StripRequest& request, std::span<const PieceLabels> all, const std::string& place) {
    for (const PieceLabels& told : all) {
        if (!told.piece) continue;
        const std::string from = place + ":" + std::to_string(told.line);
        PieceRequest piece{*told.piece, told.kind, told.steps, told.halves, told.bleached, told.place, from};
        if (told.known) {
            KnownPatch known = *told.known;
            known.piece = *told.piece;
            request.known.push_back(std::move(known));
            piece.kind = PieceRequest::Kind::skipped;
        }
        request.pieces.push_back(std::move(piece));
    }
}

const PieceLabels* only_print(std::span<const PieceLabels> all) {
    return all.size() == 1 && !all[0].piece ? all.data() : nullptr;
}

}  // namespace fogproof::reading
