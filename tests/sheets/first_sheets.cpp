// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How far first and second sheets miss what is wanted, on foreign papers and negatives of photographs, over
// the closest print that each paper can give at all. Run by tests/sheets.sh; never a test.
//   first_sheets FIRST COUNT LEAST_SCATTER MOST_SCATTER NEGATIVE...
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <fstream>

#include "fogproof/fit/pack_fit.hpp"
#include "sheets/evening.hpp"
#include "sheets/tally.hpp"

namespace fogproof::tests::sheets {
namespace {

Tones negative_of(const std::string& file) {
    std::ifstream in(file);
    std::vector<NegativeDensity> scale;
    Histogram counts;
    double density = 0;
    for (std::uint64_t count = 0; in >> density >> count;)
        scale.push_back({density}), counts.push_back(count);
    return Tones(counts, scale);
}

// One negative printed on one paper.
struct Job {
    Printing printing;
    Wanted wanted;
    double least;  // rms L* of the closest print
    TruePrints prints;
    std::vector<double> darker{0};  // sheets that stand for all; first one that is as the paper is as a rule

    Job(const Pack& pack, const foreign::Owner& owner, const Tones& frame, const Picture& picture)
        : printing(pack, frame),
          wanted(matched(printing, picture.tones)),
          least(picture.least),
          prints(owner, frame, gathered(wanted, kTones)) {
        for (const double deviations : kSheets) darker.push_back(owner.scatter * deviations);
    }
    [[nodiscard]] SearchBounds bounds() const { return usual_bounds(printing); }
    [[nodiscard]] StartingPoint start() const { return starting_points(printing, wanted, bounds()).best; }
    [[nodiscard]] ToldRecipe told(const StartingPoint& point) const { return as_told(point.found, printing); }
    [[nodiscard]] ToldRecipe chosen(const SearchBounds& within) const {
        return as_told(Choice(printing, wanted).best(within), printing);
    }
};

// By how much its sheets miss more than the closest print.
void add(Tally& tally, const std::string& name, Job& job, const ToldRecipe& told, double exposure_s) {
    for (std::size_t i = 1; i < job.darker.size(); ++i)
        tally.over(name, job.prints.off(told, exposure_s, job.darker[i]) - job.least);
}

void add_after_strip(Tally& tally, Job& job, const ToldRecipe& told, const StartingPoint& point) {
    const TestStrip strip = test_strip(point.exposure_s);
    const std::size_t sheets = kSheets.size();
    for (std::size_t i = 0; i < sheets; ++i) {
        const double of_strip = job.darker[1 + (2 * i + 1) % sheets];  // another sheet's
        const auto band = std::ranges::min(strip.exposures, {}, [&](Seconds seconds) {
            return job.prints.off(told, seconds.value, of_strip);
        });
        tally.over("first after a strip", job.prints.off(told, band.value, job.darker[1 + i]) - job.least);
    }
}

SearchBounds keeping_baths(SearchBounds bounds, const ToldRecipe& first) {
    bounds.restrainers = {first.restrainer_ml_l};
    bounds.develop_s = {first.develop_s};
    return bounds;
}

SearchBounds keeping_all(SearchBounds bounds, const ToldRecipe& first) {
    bounds = keeping_baths(bounds, first);
    bounds.softest = bounds.hardest = first.grade;
    bounds.bleach = first.bleach;
    return bounds;
}

void show(const char* name, TruePrints& prints, const ToldRecipe& told) {
    std::printf("   %-10s %.1f %.0f ml %.0f s, %.1f s, bleach %.0f s: off %.2f, right %.1f s %.2f\n", name,
                told.grade, told.restrainer_ml_l, told.develop_s, told.exposure.value, told.bleach.value,
                prints.off(told, told.exposure.value, 0), prints.right_s(told),
                prints.off(told, prints.right_s(told), 0));
}

// From slips and strips to a first sheet, and with its tones to a second.
void measured_pack(Tally& tally, unsigned seed, foreign::Owner owner, const Tones& frame) {
    const Pack pack = owner.measured();
    std::mt19937 random(seed + 70000);
    ClosestPrint search(owner);
    const Picture picture(owner, search, frame, random);
    Job first(pack, owner, frame, picture);
    const StartingPoint point = first.start();
    const ToldRecipe told = first.told(point);
    add(tally, "all known but the sheet", first, picture.closest, picture.closest.exposure.value);
    tally.add("closest print", first.least);
    add(tally, "first", first, told, told.exposure.value);
    add_after_strip(tally, first, told, point);
    tally.told("first: exposure", first.prints.right_s(told), point.exposure_s);
    for (std::size_t i = 1; i < first.darker.size(); ++i)
        tally.told("first: distance", first.prints.off(told, told.exposure.value, first.darker[i]),
                   point.lightness_error);

    const double own = owner.sheet();
    const auto rows = read_off(owner, first.prints, first.printing, told, "print", own);
    const Pack learnt = fitted_pack(pack, rows, "print").pack;
    Job second(learnt, owner, frame, picture);
    const StartingPoint again = second.start();
    const ToldRecipe next = second.told(again);
    add(tally, "second", second, next, next.exposure.value);
    add(tally, "second, its seconds right", second, next, second.prints.right_s(next));
    tally.over("second, its sheet without scatter",
               second.prints.off(next, next.exposure.value, 0) - second.least);
    const double in_its_baths = search.of(frame, picture.tones, keeping_baths(second.bounds(), next)).off;
    tally.add("closest print in the second's baths", in_its_baths);
    for (const double darker : second.darker)
        tally.over("second, over the closest in its baths",
                   second.prints.off(next, next.exposure.value, darker) - in_its_baths);
    tally.told("second: exposure", second.prints.right_s(next), again.exposure_s);
    for (std::size_t i = 1; i < second.darker.size(); ++i)
        tally.told("second: distance", second.prints.off(next, next.exposure.value, second.darker[i]),
                   again.lightness_error);
    const ToldRecipe same = second.chosen(keeping_all(second.bounds(), told));
    add(tally, "second, same recipe", second, same, same.exposure.value);
    add(tally, "second, same recipe, its seconds right", second, same, second.prints.right_s(same));
    if (!std::getenv("VERBOSE")) return;
    std::printf(
        "%u law %s scatter %.3f told %.2f, %.2f own %.3f learnt sheet %.3f law %.3f callier %.3f %.3f\n",
        seed, owner.paper.laws().c_str(), owner.scatter, point.lightness_error.value,
        again.lightness_error.value, own, learnt.sheet_scatter, learnt.law_scatter, owner.callier,
        learnt.darkroom.enlarger.callier);
    show("closest", first.prints, picture.closest);
    show("first", first.prints, told);
    show("second", second.prints, next);
    show("same", second.prints, same);
}

// From both halves of one print, off a flatbed beside a fixed slip that nobody measured.
void two_halves(Tally& tally, unsigned seed, foreign::Owner owner, const Tones& frame, const Tones& other) {
    std::mt19937 random(seed + 80000);
    owner.strips_s = owner.paper.black_seconds(foreign::Owner::kSoft, 0);
    ClosestPrint search(owner);
    const Picture picture(owner, search, frame, random), of_other(owner, search, other, random);
    const ToldRecipe made = made_by_eye(owner, frame, picture, random);
    Pack pack = foreign::Owner::unmeasured();
    {
        Job job(pack, owner, frame, picture);
        auto rows = read_off(owner, job.prints, job.printing, made, "print", owner.sheet());
        off_a_flatbed(rows, owner.paper, random);
        pack = fitted_pack(pack, rows, "print").pack;
    }
    const auto next = [&](const std::string& name, const Tones& negative, const Picture& wanted) {
        Job job(pack, owner, negative, wanted);
        const StartingPoint point = job.start();
        const ToldRecipe told = job.told(point);
        add(tally, name, job, told, told.exposure.value);
        add(tally, name + ", its seconds right", job, told, job.prints.right_s(told));
        tally.told(name + ": exposure", job.prints.right_s(told), point.exposure_s);
        for (std::size_t i = 1; i < job.darker.size(); ++i)
            tally.told(name + ": distance", job.prints.off(told, told.exposure.value, job.darker[i]),
                       point.lightness_error);
        if (!std::getenv("VERBOSE")) return;
        std::printf("%u law %s scatter %.3f halves, %s, told %.2f\n", seed, owner.paper.laws().c_str(),
                    owner.scatter, name.c_str(), point.lightness_error.value);
        show("made", job.prints, made);
        show("closest", job.prints, wanted.closest);
        show("told", job.prints, told);
    };
    next("halves, same negative", frame, picture);
    next("halves, another negative", other, of_other);
}

}  // namespace
}  // namespace fogproof::tests::sheets

int main(int count, char** words) {
    using namespace fogproof::tests;
    using namespace fogproof::tests::sheets;
    if (count < 6) {
        std::fprintf(stderr, "first_sheets FIRST COUNT LEAST_SCATTER MOST_SCATTER NEGATIVE...\n");
        return 64;
    }
    try {
        const auto from = unsigned(std::atoi(words[1])), papers = unsigned(std::atoi(words[2]));
        std::vector<fogproof::negative::Tones> negatives;
        for (int i = 5; i < count; ++i) negatives.push_back(negative_of(words[i]));
        Tally tally;
        for (unsigned seed = from; seed < from + papers; ++seed) {
            foreign::Owner owner(seed, std::atof(words[3]), std::atof(words[4]));
            if (std::getenv("MATCHED")) owner.paper.match_filters();
            const auto& negative = negatives[seed % negatives.size()];
            measured_pack(tally, seed, owner, negative);
            two_halves(tally, seed, owner, negative, negatives[(seed + 1 + seed % 5) % negatives.size()]);
            std::fflush(stdout);
        }
        tally.print();
    } catch (const std::exception& error) {
        std::fprintf(stderr, "first_sheets: %s\n", error.what());
        return 70;
    }
}
