// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/doubles.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <tuple>
#include <vector>

#include "fogproof/base/error.hpp"
#include "pack/reading_columns.hpp"

namespace fogproof::pack {
namespace {

constexpr const char* kRepeats =
    "a patch measured again stands directly below its first reading or has a strip label of its own";

/// Every cell of a row.
using Cells = std::tuple<std::string, std::vector<std::optional<double>>>;

Cells cells_of(const Reading& reading) {
    std::vector<std::optional<double>> numbers;
    std::string texts = reading.strip;
    for (const auto& column : reading_columns()) {
        numbers.push_back(column.get(reading));
        if (column.text) texts.append("\n").append(reading.*column.text);
    }
    return {std::move(texts), std::move(numbers)};
}

/// Rows first to last, the same one after the other as those from `as` on.
struct Run {
    std::size_t first, last, as;
};

// "PLACE:3 to 17"; no line where rows come from no text.
std::string lines(const PlacedReadings& readings, std::size_t first, std::size_t last) {
    const int from = readings.rows[first].line, to = readings.rows[last].line;
    if (from <= 0) return readings.place;
    return readings.place + ":" + std::to_string(from) + (to > from ? " to " + std::to_string(to) : "");
}

// One line of message a run.
class Doubles {
  public:
    void add(std::size_t row, std::size_t as) {
        if (!runs_.empty() && runs_.back().last + 1 == row &&
            runs_.back().as + row - runs_.back().first == as)
            runs_.back().last = row;
        else
            runs_.push_back({row, row, as});
    }
    /// A single row that stands among the readings of its own strip: a patch of it read again.
    void allow_repeats(const PlacedReadings& readings) {
        std::erase_if(runs_, [&](const Run& run) {
            const std::string& strip = readings.rows[run.first].strip;
            const auto between = readings.rows.subspan(run.as, run.first - run.as);
            return run.first == run.last && !strip.empty() &&
                   std::ranges::all_of(between, [&](const Reading& row) { return row.strip == strip; });
        });
    }
    void refuse(const PlacedReadings& earlier, const PlacedReadings& later, const std::string& mend) const {
        std::string text;
        for (const Run& run : runs_) {
            const std::size_t count = run.last - run.first + 1;
            if (!text.empty()) text += "\n";
            text += lines(later, run.first, run.last) + ": " + std::to_string(count) +
                    (count == 1 ? " reading stands" : " readings stand") + " already in " +
                    lines(earlier, run.as, run.as + count - 1) + "; expected: each once; " + mend + "; " +
                    kRepeats;
        }
        if (!text.empty()) throw Error(Fault::data, "", text);
    }

  private:
    std::vector<Run> runs_;
};

bool directly_below(const Reading& above, const Reading& below) {
    return below.line == above.line || below.line == above.line + 1;
}

}  // namespace

void refuse_doubles(const PlacedReadings& readings) {
    std::map<Cells, std::size_t> seen;
    Doubles doubles;
    for (std::size_t i = 0; i < readings.rows.size(); ++i) {
        const auto [at, is_new] = seen.emplace(cells_of(readings.rows[i]), i);
        if (is_new) continue;
        const bool is_repeat =
            at->second + 1 == i && directly_below(readings.rows[at->second], readings.rows[i]);
        if (is_repeat)
            at->second = i;
        else
            doubles.add(i, at->second);
    }
    doubles.allow_repeats(readings);
    doubles.refuse(readings, readings, "delete these rows");
}

void refuse_doubles(const PlacedReadings& earlier, const PlacedReadings& later, const std::string& mend) {
    std::map<Cells, std::size_t> seen;
    for (std::size_t i = 0; i < earlier.rows.size(); ++i) seen.emplace(cells_of(earlier.rows[i]), i);
    Doubles doubles;
    for (std::size_t i = 0; i < later.rows.size(); ++i)
        if (const auto at = seen.find(cells_of(later.rows[i])); at != seen.end()) doubles.add(i, at->second);
    doubles.refuse(earlier, later, mend);
}

}  // namespace fogproof::pack
