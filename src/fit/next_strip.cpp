// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fit/next_strip.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <tuple>
#include <utility>
#include <vector>

#include "base/interpolation.hpp"
#include "base/symmetric_system.hpp"
#include "base/words.hpp"
#include "fogproof/print/silver_path.hpp"
#include "pack/grade_words.hpp"
#include "pack/uncertainty.hpp"
#include "print/clearing.hpp"
#include "system/threads.hpp"

namespace fogproof::fit {
namespace {

constexpr double kReadingError = 0.01;  // D; common practice, no source
constexpr std::size_t kPatches = 7;     // every third half-stop of a wedge: enough to weigh a strip by
// log10 of exposure from patch to patch, by kind: bands of doubled times; tones of a usual negative, 1.2 from
// the thinnest to the densest (common practice, no source).
constexpr std::array kStepOf{0.45, 0.301, 0.2};
constexpr double kRestrained = 15;  // ml/L of a strip with restrainer

struct Way {
    NextStrip::Kind kind;
    std::size_t grade;  // of those the pack offers
    double restrainer_ml_l, bleach_s;
    [[nodiscard]] double step() const { return kStepOf.at(std::size_t(kind)); }
};

using Wedge = std::array<double, kPatches>;
constexpr double kNoDensity = std::numeric_limits<double>::quiet_NaN();

// log10 of exposure from the clear end of the longest wedge to its last patch.
constexpr double kLongest = kStepOf[0] * double(kPatches - 1);

// Wedges, clear ends black, on one of the packs that a pack may be. What they share is tabulated: the light
// of a filter, the silver of a bath.
class Wedges {
  public:
    Wedges(const WorkedPack& worked, double clear_log_h) : worked_(worked), clear_log_h_(clear_log_h) {}

    [[nodiscard]] Wedge through(const Way& way) {
        Wedge wedge;
        const auto& filter = worked_.filter(way.grade);
        if (!filter) {
            wedge.fill(kNoDensity);
            return wedge;
        }
        const Developer& developer = developer_with(way.restrainer_ml_l);
        const MonotoneCurve& share = behind(*filter, way.grade);
        const MonotoneCurve& shown = shown_after(way.bleach_s);
        for (std::size_t step = 0; step < kPatches; ++step) {
            const double log_h = clear_log_h_ - way.step() * double(step) - developer.log_threshold();
            wedge[step] = shown(developer.with_share(share(log_h)).density.value);
        }
        return wedge;
    }

  private:
    const Developer& developer_with(double restrainer_ml_l) {
        return kept(developer_, restrainer_ml_l,
                    [&] { return worked_.developer(worked_.paper(), restrainer_ml_l); });
    }

    // Share of grains that light over the threshold makes developable.
    const MonotoneCurve& behind(const Filter& filter, std::size_t grade) {
        return kept(share_, grade, [&] {
            constexpr std::size_t kPoints = 24;
            const auto [quick, slow] =
                std::minmax({developer_with(0).log_threshold(), developer_with(kRestrained).log_threshold()});
            const double least = clear_log_h_ - kLongest - slow, most = clear_log_h_ - quick;
            const FilteredGrains grains(developer_with(0).population(), filter);
            return tabulated(kPoints, [&](double place) {
                const double log_h = std::lerp(least, most, place);
                return std::pair{log_h, grains.developable(log_h)};
            });
        });
    }

    // What developed silver shows after so long in the bath, whatever the light that made it was.
    const MonotoneCurve& shown_after(double bleach_s) {
        return kept(shown_, bleach_s, [&] {
            constexpr std::size_t kPoints = 32;
            const PaperModel& paper = worked_.paper();
            const double dose = bleach_dose(paper.bleach, worked_.pack().darkroom.bath, Seconds{bleach_s});
            const double blackest = developer_with(0).with_share(1).density.value;
            return tabulated(kPoints, [&](double place) {
                const double silver =
                    blackest * place * place;  // closer by the white, which bleach bends most
                const FinishedSilver left = finished(paper, {{silver}}, {dose, Seconds{0}});
                return std::pair{silver, paper.sheet.quick_density(left).value};
            });
        });
    }

    template <class Map, class Make>
    static const typename Map::mapped_type& kept(Map& map, const typename Map::key_type& key,
                                                 const Make& make) {
        auto at = map.find(key);
        if (at == map.end()) at = map.emplace(key, make()).first;
        return at->second;
    }

    // A curve through so many points, told their places from 0 to 1.
    template <class Point>
    static MonotoneCurve tabulated(std::size_t points, const Point& point) {
        std::vector<double> x(points), y(points);
        for (std::size_t i = 0; i < points; ++i) std::tie(x[i], y[i]) = point(double(i) / double(points - 1));
        return {std::move(x), std::move(y)};
    }

    const WorkedPack& worked_;
    double clear_log_h_;
    std::map<double, Developer> developer_;       // by restrainer
    std::map<std::size_t, MonotoneCurve> share_;  // by grade
    std::map<double, MonotoneCurve> shown_;       // by seconds in the bath
};

// What one pack says: the next print, and every strip that may be made first.
struct Answer {
    Wedge print;
    std::vector<Wedge> strips;
};

std::vector<Way> candidates(std::size_t grades, double clearing_s) {
    std::vector<Way> ways;
    using Kind = NextStrip::Kind;
    for (const Kind kind : {Kind::wedge, Kind::test_strip, Kind::print})
        for (std::size_t grade = 0; grade < grades; ++grade)
            for (const double restrainer : {0.0, kRestrained})
                for (const double share : {0.0, 0.5, 1.0})
                    ways.push_back({kind, grade, restrainer, std::round(share * clearing_s)});
    return ways;
}

// What lies on one sheet: a wedge under one way; of the others the unbleached half stands before the
// bleached.
std::vector<std::size_t> patches_on_sheet(const std::vector<Way>& ways, std::size_t bleached) {
    const Way& way = ways[bleached];
    if (way.kind == NextStrip::Kind::wedge) return {bleached};
    if (way.bleach_s == 0) return {};
    for (std::size_t i = bleached; i-- > 0;)
        if (ways[i].bleach_s == 0) return {i, bleached};
    return {};
}

double half_width(const Eigen::MatrixXd& covariance) {
    return kWithin95Percent * std::sqrt(std::max(0.0, covariance.trace() / double(covariance.rows())));
}

}  // namespace

std::string NextStrip::in_words() const {
    constexpr std::array kPiece{"a wedge", "a test strip in bands of doubled times",
                                "a print of any negative"};
    std::string words =
        kPiece.at(std::size_t(kind)) + (grade ? " through grade " + grade_name(*grade) : std::string());
    words += ", restrainer " + decimal(restrainer_ml_l, 0) + " ml/L";
    // A print whose halves still hang together is not read.
    if (kind == Kind::print) words += ", cut in two";
    if (kind != Kind::wedge) return words + ", one half bleached " + decimal(bleach_s, 0) + " s";
    return words + (bleach_s > 0 ? ", bleached " + decimal(bleach_s, 0) + " s" : ", not bleached");
}

std::vector<NextStrip> next_pieces(const WorkedPacks& worked) {
    const Pack& pack = worked.likeliest().pack();
    const PaperModel& paper = worked.likeliest().paper();
    const auto& grades = worked.likeliest().grades();
    const auto clearing = clearing_dose(paper, nominal_step(pack.development));
    const double clearing_s = bleach_time(paper.bleach, pack.darkroom.bath, clearing.value_or(0)).value;
    const Way print{NextStrip::Kind::wedge, grades.size() / 2, 0, clearing_s};
    const auto ways = candidates(grades.size(), clearing_s);
    constexpr double kBlack = 1.3;  // log10 exposure over the speed point
    const double clear_log_h = pack.speed_log_s + kBlack;

    // One pass over the pack's doubts serves the print and all strips.
    const auto asked = worked.asked([&](const WorkedPack& moved) {
        Wedges wedges(moved, clear_log_h);
        Answer answer{wedges.through(print), {}};
        answer.strips.reserve(ways.size());
        for (const Way& way : ways) answer.strips.push_back(wedges.through(way));
        return answer;
    });
    const auto doubts = Eigen::Index(asked.moves().size()), size = Eigen::Index(kPatches);
    if (doubts == 0) return {};
    Eigen::MatrixXd correlated(doubts, doubts);
    for (Eigen::Index j = 0; j < doubts; ++j)
        for (Eigen::Index k = 0; k < doubts; ++k)
            correlated(j, k) = asked.moves().correlation(std::size_t(j), std::size_t(k));
    const auto effect_on = [&](const auto& wedge) {
        Eigen::MatrixXd effect(size, doubts);
        for (std::size_t i = 0; i < kPatches; ++i) {
            const auto changes = asked.changes([&](const Answer& answer) { return wedge(answer)[i]; });
            for (Eigen::Index j = 0; j < doubts; ++j) effect(Eigen::Index(i), j) = changes[std::size_t(j)];
        }
        return effect;
    };
    const Eigen::MatrixXd wanted = effect_on(std::mem_fn(&Answer::print)), spread = wanted * correlated;
    const Eigen::MatrixXd now = spread * wanted.transpose();
    const double doubt_now = half_width(now);
    std::vector<Eigen::MatrixXd> effects(ways.size());
    in_parallel(ways.size(), [&](std::size_t c) {
        effects[c] = effect_on([&](const Answer& answer) -> const Wedge& { return answer.strips[c]; });
    });
    std::vector<NextStrip> best;
    for (std::size_t c = 0; c < ways.size(); ++c) {
        const auto sheet = patches_on_sheet(ways, c);
        if (sheet.empty()) continue;
        Eigen::MatrixXd piece(size * Eigen::Index(sheet.size()), doubts);
        for (std::size_t half = 0; half < sheet.size(); ++half)
            piece.middleRows(size * Eigen::Index(half), size) = effects[sheet[half]];
        Eigen::MatrixXd read = piece * correlated * piece.transpose();
        read.array() += pack.sheet_scatter * pack.sheet_scatter;  // of the sheet as a whole
        read.diagonal().array() += kReadingError * kReadingError;
        const Eigen::MatrixXd across = spread * piece.transpose();
        const double then = half_width(now - across * solved(read, across.transpose()));
        const NextStrip offer{
            ways[c].kind,
            pack.contrast == Contrast::graded ? std::nullopt : std::optional(grades[ways[c].grade]),
            ways[c].restrainer_ml_l,
            ways[c].bleach_s,
            grades[print.grade],
            doubt_now,
            then};
        const auto known = std::ranges::find(best, offer.kind, &NextStrip::kind);
        if (known == best.end())
            best.push_back(offer);
        else if (then < known->doubt_then)
            *known = offer;
    }
    std::ranges::stable_sort(best, {}, &NextStrip::doubt_then);
    return best;
}

std::optional<NextStrip> next_strip(const WorkedPacks& worked) {
    const auto pieces = next_pieces(worked);
    const auto wedge = std::ranges::find(pieces, NextStrip::Kind::wedge, &NextStrip::kind);
    return wedge == pieces.end() ? std::nullopt : std::optional(*wedge);
}

}  // namespace fogproof::fit
