// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One pack of paper, as its owner would describe it: what was measured, what is merely assumed.
// The numbers are those of the pack file; paper_model() turns them into the constants of the rooms.
#pragma once

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "fogproof/bleach/bleach.hpp"
#include "fogproof/emulsion/emulsion.hpp"
#include "fogproof/enlarger/enlarger.hpp"
#include "fogproof/pack/kept_readings.hpp"
#include "fogproof/redevelop/redevelop.hpp"
#include "fogproof/rooms.hpp"
#include "fogproof/sheet/sheet.hpp"

namespace fogproof::pack {

/// Where a number comes from.
enum class Origin {
    assumed,          ///< a default of this program, or taken over without a measurement
    given,            ///< stated by the pack's owner, a label or a data sheet
    measured,         ///< read off this pack
    partly_measured,  ///< a default that readings of this pack moved or narrowed, without settling it
};

struct Knowledge {
    Origin origin = Origin::assumed;
    std::optional<double> deviation;  ///< one standard deviation, in the unit of the value
    friend bool operator==(const Knowledge&, const Knowledge&) = default;
};

enum class Contrast { graded, variable };
enum class Surface { gloss, semi_matt, matt };
/// What the stock of restrainer holds. Where nobody says, its effect is doubted more.
enum class RestrainerAgent { unknown, bromide, benzotriazole };
/// How the head lights the negative, which decides the Callier factor. Where nobody says, that is doubted
/// more.
enum class Head { unknown, diffuser, condenser };

/// A calibrated filter of this pack.
struct PackFilter {
    double grade = 2.0;
    double balance = 0.0;  ///< log10 of green over blue light let through
    double speed =
        0.0;  ///< log10 exposure by which the 0.60 speed point is faster than without the filter's correction
    friend bool operator==(const PackFilter&, const PackFilter&) = default;
};

/// How far filters that nobody measured lie from the standard's table of ranges. Sets are made even, so these
/// say it for all of them.
struct FilterSetHabits {
    double shift = 0.0;  ///< log10 of green over blue, common to all
    double slope = 0.0;  ///< the same for each grade above kMiddleGrade
    double loss = 0.0;   ///< log10 exposure lost for each grade above kMiddleGrade
    /// log10 exposure lost besides by filters 4 and harder. Filters that are matched in speed want twice the
    /// time from there on, others little more (common practice, no source). Half of that is assumed.
    double hard_loss = 0.15;
    static constexpr double kMiddleGrade = 2.5;
    static constexpr double kLastMatched = 3.5, kFirstHard = 4;
    /// Of a grade, added to what the table says.
    [[nodiscard]] double balance(double grade) const { return shift + slope * (grade - kMiddleGrade); }
    [[nodiscard]] double speed(double grade) const {
        return -loss * (grade - kMiddleGrade) - hard_loss * hard_share(grade);
    }
    /// 0 to kLastMatched, 1 from kFirstHard.
    [[nodiscard]] static double hard_share(double grade) {
        return std::clamp((grade - kLastMatched) / (kFirstHard - kLastMatched), 0.0, 1.0);
    }
    friend bool operator==(const FilterSetHabits&, const FilterSetHabits&) = default;
};

/// What a fit leaves behind beside its values: how they err together, and what they were before, so that the
/// next fit starts there again and no reading counts twice.
struct FitRecord {
    struct Number {
        std::string name;  ///< as in Pack::knowledge
        double prior;
        Knowledge prior_knowledge;
        friend bool operator==(const Number&, const Number&) = default;
    };
    std::vector<Number> numbers;
    /// Correlations of the numbers, row by row below the diagonal: (1,0), (2,0), (2,1), ...
    std::vector<double> correlation;
    bool prior_anchored = false;

    [[nodiscard]] double correlated(std::size_t a, std::size_t b) const;
    friend bool operator==(const FitRecord&, const FitRecord&) = default;
};

/// What a pack is used under, none of it the paper's own: the light path with its anchor, and the baths as
/// mixed.
struct Darkroom {
    Enlarger enlarger;
    Head head = Head::unknown;
    bool anchored = false;    ///< seconds mean something: the head setting of speed_log_s is known
    double anchor_lux = 0.0;  ///< at the easel through the anchor's carrier; 0: never measured
    BleachBath bath;
    RestrainerAgent restrainer_agent = RestrainerAgent::unknown;
    double restrainer_stock_percent = 10.0;  ///< of the agent in the restrainer stock, g per 100 ml
    friend bool operator==(const Darkroom&, const Darkroom&) = default;
};

/// Fog that came in from the edges of the sheets, over that of their middle.
struct EdgeFog {
    double density = 0.0;    ///< visual, at the very edge over the blank's, developed as the blank; 0: none
    double reach_mm = 15.0;  ///< from the edge to where a tenth of it is left; judgement
    std::string map;  ///< in place of the reach: picture of one sheet, white where its fog is the edge's
    [[nodiscard]] bool is_there() const { return density > 0 && (reach_mm > 0 || !map.empty()); }
    friend bool operator==(const EdgeFog&, const EdgeFog&) = default;
};

struct Pack {
    std::string name = "unnamed pack";
    std::string notes;

    Contrast contrast = Contrast::variable;
    Surface surface = Surface::gloss;
    double iso_range = 100.0;     ///< of a graded paper, without fog
    double black_density = 2.05;  ///< visual, every grain developed, nominal development
    double blank_density = 0.08;  ///< visual, developed unexposed slip, nominal development, no restrainer
    double speed_log_s =
        0.5;  ///< log10 seconds at the anchor, through its carrier, for 0.60 above white, fog-free

    SheetConstants sheet;
    Grains grains;  ///< spread and green_spread; threshold and maximum follow from the densities above
    double fog_time_exponent = 0.7;
    EdgeFog edge_fog;
    Restrainer restrainer;
    Development development;
    BleachRate bleach;
    Redevelopment redevelop;

    FilterSetHabits filter_set;  ///< of a variable-contrast pack without filters of its own

    /// Visual density, one standard deviation; both learnt by a fit.
    double law_scatter = 0.0;  ///< by which this paper does not obey the laws; 0 until then
    /// From one sheet to the next, of a sheet as a whole. Until a fit what timers, temperatures and coatings
    /// that err by two or three hundredths leave of it. Judgement.
    double sheet_scatter = 0.02;

    KeptReadings readings;  ///< all of them
    FitRecord fit;

    std::vector<PackFilter> filters;  ///< empty: grades go through the standard's table of ranges
    /// The filters are the standard's as a fit moved them, although the fit is no longer at hand.
    bool has_moved_standard_filters = false;
    /// The grade on the box of a graded paper whose range is no longer what the box says.
    std::optional<double> box_grade;

    Darkroom darkroom;

    /// By "section.key" of the pack file; a key that is missing is assumed.
    std::map<std::string, Knowledge> knowledge;

    [[nodiscard]] Knowledge known(const std::string& key) const;
    friend bool operator==(const Pack&, const Pack&) = default;
};

/// The constants of every room for one pack, plus its optics.
struct PaperModel {
    Emulsion emulsion;
    BleachRate bleach;
    Redevelopment redevelop;
    Sheet sheet;
};

/// Derives the rooms' constants: A0 from the black, f0 from the blank, the grain threshold from the speed
/// point, the spread of a graded paper from its ISO range. Throws Error(Fault::config) when the densities
/// contradict each other (blank below white, black not above blank, black beyond what the surface allows).
[[nodiscard]] PaperModel paper_model(const Pack&);
/// The same paper before it fogged.
[[nodiscard]] PaperModel before_fog(PaperModel);

}  // namespace fogproof::pack
