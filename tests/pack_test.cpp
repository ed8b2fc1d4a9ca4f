// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <random>
#include <set>

#include "fogproof/base/error.hpp"
#include "fogproof/emulsion/paper_numbers.hpp"
#include "fogproof/pack/file.hpp"
#include "fogproof/pack/from_slips.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/pack/schema.hpp"
#include "support/refusal.hpp"

namespace fogproof {
namespace {

using testing::HasSubstr;

// ISO range units; a hundredth of what a printed R shows, far above the root finders' 1e-7.
constexpr double kRange = 0.01;
// log10 exposure; the promise of a constant speed point.
constexpr double kSpeed = 0.001;
// D; the sheet's own search for a layer density ends well below this.
constexpr double kDensity = 1e-6;

Error pack_refusal(const std::string& text) {
    return refusal([&] { static_cast<void>(parse_pack(text, "old.toml")); });
}

// Print density of the fog-free paper, nominal development, through a filter: drawn with the rooms
// themselves, so that it knows nothing of how the pack room solved for the filter.
class DrawnCurve {
  public:
    DrawnCurve(const Pack& pack, const PaperModel& model, Filter filter)
        : model_(model), filter_(filter), developer_(fogless(model.emulsion), nominal(pack)) {}

    double operator()(double log_h) const {
        const double h = std::pow(10.0, log_h);
        return model_.sheet.density(developer_.developed({h * filter_.blue, h * filter_.green})).value;
    }

    // Plain bisection.
    double exposure_for(double density) const {
        double low = -8, high = 8;
        for (int i = 0; i < 60; ++i) {
            const double middle = (low + high) / 2;
            ((*this)(middle) < density ? low : high) = middle;
        }
        return low;
    }

    double speed_point() const { return exposure_for((*this)(-30) + 0.60); }
    // T 0.04 above minimum and 90 % of maximum: Focal Encyclopedia of Photography, p. 679; on net density as
    // ISO 6846 has it, from memory.
    double iso_range() const {
        const double least = (*this)(-30), most = (*this)(30);
        return 100 * (exposure_for(least + 0.90 * (most - least)) - exposure_for(least + 0.04));
    }

  private:
    static Emulsion fogless(Emulsion emulsion) {
        emulsion.fog.share = 0;
        return emulsion;
    }
    static DevelopStep nominal(const Pack& pack) {
        return {0, pack.development.nominal_s, pack.development.nominal_c};
    }

    PaperModel model_;
    Filter filter_;
    Developer developer_;
};

TEST(Grades, TableEndsAreThoseOfTheStandard) {
    // LER 0.50 to 1.70 cut into six grades: Focal Encyclopedia of Photography, p. 679. Inner limits 0.65 and
    // 1.40: ANSI PH2.2-1966, from memory. The middle of the end grades follows.
    EXPECT_DOUBLE_EQ(iso_range_of_grade(0), 100 * (1.40 + 1.70) / 2);
    EXPECT_DOUBLE_EQ(iso_range_of_grade(5), 100 * (0.50 + 0.65) / 2);
}

TEST(Grades, MiddlesLieBetweenTheirLimits) {
    // ANSI PH2.2-1966, from memory.
    constexpr double kLimits[] = {170, 140, 115, 95, 80, 65, 50};
    for (int grade = 0; grade <= 5; ++grade) {
        EXPECT_DOUBLE_EQ(iso_range_of_grade(grade), (kLimits[grade] + kLimits[grade + 1]) / 2);
        for (const double range : {kLimits[grade] - 1, kLimits[grade + 1] + 1}) {
            Pack pack;
            pack.contrast = Contrast::graded;
            pack.iso_range = range;
            EXPECT_EQ(grades_of(pack, paper_model(pack)), std::vector<double>{double(grade)}) << range;
        }
    }
}

TEST(Grades, NumberAndRangeAreEachOthersInverse) {
    for (double grade = 0; grade <= 5; grade += 0.125)
        EXPECT_NEAR(grade_of_iso_range(iso_range_of_grade(grade)), grade, 1e-12);
    EXPECT_EQ(grade_of_iso_range(300), 0);
    EXPECT_EQ(grade_of_iso_range(10), 5);
}

TEST(Grades, DefaultPaperServesAllGrades) {
    for (const Surface surface : {Surface::gloss, Surface::semi_matt, Surface::matt}) {
        Slips slips{.white_density = 0.08, .blank_density = 0.2, .surface = surface};
        const Pack pack = pack_from_slips(slips);
        EXPECT_EQ(grades_of(pack, paper_model(pack)), (std::vector<double>{0, 1, 2, 3, 4, 5}))
            << surface_words()[std::size_t(surface)];
    }
}

TEST(Grades, FilterGivesTheRangeOfItsGradeOnADrawnCurve) {
    Pack pack;
    pack.blank_density = 0.45;  // fog must not disturb what a filter means
    const PaperModel model = paper_model(pack);
    for (double grade = 0; grade <= 5; grade += 0.5)
        EXPECT_NEAR(DrawnCurve(pack, model, filter_for(pack, model, grade)).iso_range(),
                    iso_range_of_grade(grade), kRange)
            << "grade " << grade;
}

TEST(Grades, SpeedPointStaysWhereThePackHasIt) {
    Pack pack;
    pack.speed_log_s = 0.9;
    const PaperModel model = paper_model(pack);
    for (double grade = 0; grade <= 5; grade += 0.5)
        EXPECT_NEAR(DrawnCurve(pack, model, filter_for(pack, model, grade)).speed_point(), 0.9, kSpeed)
            << "grade " << grade;
}

TEST(Grades, HarderGradesPassRelativelyLessGreen) {
    const Pack pack;
    const PaperModel model = paper_model(pack);
    double before = std::numeric_limits<double>::infinity();
    for (double grade = 0; grade <= 5; grade += 0.25) {
        const Filter filter = filter_for(pack, model, grade);
        EXPECT_LT(filter.green / filter.blue, before) << "grade " << grade;
        before = filter.green / filter.blue;
    }
}

TEST(Grades, PackFiltersAreUsedAsMeasuredAndInterpolated) {
    Pack pack;
    pack.filters = {{1, 0.5, 0.0}, {2, 0.0, 0.1}, {4, -1.0, -0.2}};
    const PaperModel model = paper_model(pack);
    EXPECT_EQ(grades_of(pack, model), (std::vector<double>{1, 2, 4}));
    for (const auto& [grade, balance, speed] :
         {PackFilter{1, 0.5, 0.0}, PackFilter{2, 0.0, 0.1}, PackFilter{3, -0.5, -0.05}}) {
        const Filter filter = filter_for(pack, model, grade);
        EXPECT_NEAR(std::log10(filter.green / filter.blue), balance, 1e-9);
        // Faster paper reaches the speed point with less exposure.
        EXPECT_NEAR(DrawnCurve(pack, model, filter).speed_point(), pack.speed_log_s - speed, kSpeed);
    }
}

TEST(Grades, AGradeThePackLacksIsRefusedByItsRange) {
    Pack pack;
    const auto ask = [&](double grade) {
        return refusal([&] { static_cast<void>(filter_for(pack, paper_model(pack), grade)); });
    };
    EXPECT_STREQ(ask(6).what(), "grade: there is no grade 6; this pack has 00, 0 to 5");
    EXPECT_EQ(ask(6).fault(), Fault::usage);
    EXPECT_STREQ(ask(-0.5).what(), "grade: there is no grade -0.5; this pack has 00, 0 to 5");
    EXPECT_THAT(ask(std::nan("")).what(), HasSubstr("this pack has 00, 0 to 5"));
    pack.filters = {{1, 0.5, 0.0}, {4, -1.0, -0.2}};
    EXPECT_STREQ(ask(4.5).what(), "grade: there is no grade 4.5; this pack has 1 to 4");
    pack.filters.clear();
    pack.contrast = Contrast::graded;
    EXPECT_STREQ(ask(3).what(), "grade: there is no grade 3; this pack has grade 2 only, it is graded");
}

TEST(Grades, AnUnreachedGradeIsRefusedEvenInsideTheTable) {
    Pack pack;
    pack.grains.spread = 0.22;  // hardest about R 76
    const PaperModel model = paper_model(pack);
    EXPECT_EQ(grades_of(pack, model), (std::vector<double>{0, 1, 2, 3}));
    EXPECT_THAT(refusal([&] { static_cast<void>(filter_for(pack, model, 4)); }).what(),
                HasSubstr("grade 4; this pack has 00, 0 to 3."));
}

TEST(PaperModel, GradedPaperHasItsRangeAndSpeed) {
    for (const double range : {50.0, 80.0, 110.0, 160.0}) {
        Pack pack;
        pack.contrast = Contrast::graded;
        pack.iso_range = range;
        pack.blank_density = 0.3;
        const DrawnCurve curve(pack, paper_model(pack), Filter{1, 0});
        EXPECT_NEAR(curve.iso_range(), range, kRange);
        EXPECT_NEAR(curve.speed_point(), pack.speed_log_s, kSpeed);
    }
}

TEST(PaperModel, SlipsAndBlackComeBackFromItsRooms) {
    for (const double blank : {0.10, 0.2, 0.55, 1.2}) {
        Pack pack;
        pack.sheet.white_density = 0.09;
        pack.blank_density = blank;
        pack.black_density = 1.95;
        const PaperModel model = paper_model(pack);
        const Developer nominal(model.emulsion, {0, 90, 20});
        EXPECT_NEAR(model.sheet.density(nominal.developed({})).value, blank, kDensity);
        EXPECT_NEAR(model.sheet.density(nominal.developed({1e9, 1e9})).value, 1.95, kDensity);
        EXPECT_NEAR(model.sheet.white().value, 0.09, kDensity);
    }
}

TEST(PaperModel, ALinearDensityHasTheProbitRange) {
    // R = 100 s [z(0.90) - z(0.04/Dn)], worked for Dn 2: s 0.1499, 0.3298, 0.4797 give R 50, 110, 160 (closed
    // form on the reference points of ISO 6846). s has four digits, so R is known to 0.02.
    constexpr double kWorked = 0.05;
    for (const auto& [spread, range] : {std::pair{0.1499, 50.0}, {0.3298, 110.0}, {0.4797, 160.0}}) {
        Grains grains{.log_threshold = 0.7, .spread = spread, .max_density = 2.0};
        Emulsion emulsion{grains, {}, {}, {}};
        const Developer developer(emulsion, {0, 90, 20});
        const auto numbers = paper_numbers(
            [&](LogExposure h) {
                return PrintDensity{0.1 + developer.developed({std::pow(10.0, h.value), 0}).density.value};
            },
            {0.1}, {2.1});
        ASSERT_TRUE(numbers);
        EXPECT_NEAR(numbers->iso_range, range, kWorked);
    }
}

TEST(PaperModel, ContradictingDensitiesAreRefused) {
    const auto with = [](auto change) {
        Pack pack;
        change(pack);
        return refusal([&] { static_cast<void>(paper_model(pack)); });
    };
    EXPECT_STREQ(with([](Pack& p) { p.blank_density = 0.05; }).what(),
                 "pack \"unnamed pack\": blank 0.05 D is below paper white 0.08 D; allowed 0.08 D or more");
    EXPECT_THAT(with([](Pack& p) { p.blank_density = 2.1; }).what(), HasSubstr("a blank below the black"));
    EXPECT_THAT(with([](Pack& p) { p.sheet.surface = 0.03; }).what(),
                HasSubstr("sends back 3 % of the light"));
    EXPECT_THAT(with([](Pack& p) { p.black_density = 0.76; }).what(), HasSubstr("allowed 0.78 D or more"));
    EXPECT_THAT(with([](Pack& p) { p.development.induction_s = 95; }).what(),
                HasSubstr("appears after 95 s"));
    EXPECT_EQ(with([](Pack& p) { p.blank_density = 0.05; }).fault(), Fault::config);
}

TEST(PaperModel, ABlankWithinTheDensitometersErrorBelowWhiteHasNoFog) {
    Pack pack;
    pack.blank_density = pack.sheet.white_density - 0.015;
    EXPECT_EQ(paper_model(pack).emulsion.fog.share, 0.0);
}

TEST(Schema, EveryNumberOfAPackHasItsRow) {
    // Counted by size: all of these consist of doubles only, but for what lay in the anchor's carrier, a word
    // or a number, and the base + fog of the negative in use, which is none of the pack's. log_threshold and
    // max_density are derived and stay out of the file.
    constexpr std::size_t kDerived = 2;
    constexpr std::size_t kParts =
        (sizeof(SheetConstants) + sizeof(Grains) + sizeof(Restrainer) + sizeof(Development) +
         sizeof(BleachRate) + sizeof(BleachBath) + sizeof(Redevelopment) + sizeof(Enlarger) -
         sizeof(Carrier) - sizeof(std::optional<double>)) /
        sizeof(double);
    // iso_range, black, blank, speed, fog exponent, restrainer stock, illuminance, two scatters.
    constexpr std::size_t kOwn = 9;
    EXPECT_EQ(pack_numbers().size(), kParts - kDerived + kOwn);
    EXPECT_EQ(filter_numbers().size(), sizeof(PackFilter) / sizeof(double));
}

TEST(Schema, NoTwoRowsShareANameOrAMember) {
    std::set<std::string> names;
    std::set<double*> members;
    Pack pack;
    for (const auto& row : pack_numbers()) {
        EXPECT_TRUE(names.insert(row.name()).second) << row.name();
        EXPECT_TRUE(members.insert(&row.in(pack)).second) << row.name();
        EXPECT_EQ(pack_number(row.name()), &row);
    }
    EXPECT_EQ(pack_number("paper.nothing"), nullptr);
}

TEST(Schema, DefaultsLieInRangeAndAreAssumed) {
    const Pack pack;
    for (const auto& row : pack_numbers()) {
        EXPECT_GE(row.of(pack), row.minimum) << row.name();
        EXPECT_LE(row.of(pack), row.maximum) << row.name();
        EXPECT_EQ(pack.known(row.name()).origin, Origin::assumed) << row.name();
        EXPECT_FALSE(pack.known(row.name()).deviation) << row.name();
    }
}

TEST(PackFile, AFileThatSaysNothingGivesTheDefaultsAllAssumed) {
    const Pack pack = parse_pack("fogproof_pack = 1\n", "old.toml");
    EXPECT_EQ(pack, Pack{});
    const std::string text = written(pack);
    std::size_t assumed = 0;
    for (auto at = text.find("from = \"assumed\" }"); at != std::string::npos;
         at = text.find("from = \"assumed\" }", at + 1))
        ++assumed;
    EXPECT_EQ(assumed, pack_numbers().size() + 2);  // and contrast and surface
}

TEST(PackFile, PlainValuesAreGivenAndTablesSayWhereTheyComeFrom) {
    const Pack pack = parse_pack(
        "fogproof_pack = 1\nname = \"attic\"\n[paper]\ncontrast = \"graded\"\nwhite = 0.1\n"
        "black = { value = 1.9, sd = 0.02, from = \"measured\" }\niso_range = { value = 90, from = "
        "\"assumed\" }\n"
        "[fog]\nblank = { value = 0.3, sd = 0.01 }\n[anchor]\nknown = true\n",
        "old.toml");
    EXPECT_EQ(pack.name, "attic");
    EXPECT_EQ(pack.contrast, Contrast::graded);
    EXPECT_TRUE(pack.anchored);
    EXPECT_EQ(pack.sheet.white_density, 0.1);
    EXPECT_EQ(pack.known("paper.white"), (Knowledge{Origin::given, std::nullopt}));
    EXPECT_EQ(pack.black_density, 1.9);
    EXPECT_EQ(pack.known("paper.black"), (Knowledge{Origin::measured, 0.02}));
    EXPECT_EQ(pack.iso_range, 90);
    EXPECT_EQ(pack.known("paper.iso_range").origin, Origin::assumed);
    EXPECT_EQ(pack.known("fog.blank"), (Knowledge{Origin::given, 0.01}));
    EXPECT_EQ(pack.known("paper.contrast").origin, Origin::given);
    EXPECT_EQ(pack.known("paper.surface").origin, Origin::assumed);
}

TEST(PackFile, ASurfaceBringsItsOwnLightAndBlackUnlessStated) {
    const Pack matt = parse_pack("fogproof_pack = 1\n[paper]\nsurface = \"matt\"\n", "old.toml");
    EXPECT_EQ(matt.surface, Surface::matt);
    EXPECT_EQ(matt.sheet.surface, surface_defaults(Surface::matt).light);
    EXPECT_EQ(matt.black_density, surface_defaults(Surface::matt).black_density);
    EXPECT_NO_THROW(static_cast<void>(paper_model(matt)));
    const Pack stated =
        parse_pack("fogproof_pack = 1\n[paper]\nblack = 1.4\nsurface = \"matt\"\n", "old.toml");
    EXPECT_EQ(stated.black_density, 1.4);
}

struct TextFault {
    const char* text;
    const char* message;
};

TEST(PackFile, FaultsAreNamedWithTheirLineAndWhatIsAllowed) {
    const TextFault kFaults[] = {
        {"", "old.toml: does not say fogproof_pack; allowed fogproof_pack = 1 above the first section"},
        {"fogproof_pack = 2\n", "old.toml:1: fogproof_pack = 2; allowed fogproof_pack = 1"},
        {"fogproof_pack = \"1\"\n", "old.toml:1: fogproof_pack = \"1\"; allowed fogproof_pack = 1"},
        {"fogproof_pack = 1\n[paper]\nwhite = 1.9\n", "old.toml:3: white = 1.9; allowed 0 to 0.5 D"},
        {"fogproof_pack = 1\n[paper]\n\nwhite = nan\n", "old.toml:4: white = nan; allowed 0 to 0.5 D"},
        {"fogproof_pack = 1\n[paper]\nblack = inf\n", "old.toml:3: black = inf; allowed 0.75 to 2.6 D"},
        {"fogproof_pack = 1\n[paper]\nwhite = \"cream\"\n",
         "old.toml:3: white = \"cream\"; allowed 0 to 0.5 D"},
        {"fogproof_pack = 1\n[paper]\nwhite = true\n", "old.toml:3: white = true; allowed 0 to 0.5 D"},
        {"fogproof_pack = 1\n[paper]\nwhite = [0.1]\n", "old.toml:3: white = a list; allowed 0 to 0.5 D"},
        {"fogproof_pack = 1\n[paper]\nwhite = 2001-01-01\n",
         "old.toml:3: white = a date or time; allowed 0 to 0.5 D"},
        {"fogproof_pack = 1\n[paper]\nwhit = 0.1\n",
         "old.toml:3: unknown key in [paper]: whit; nearest is white"},
        {"fogproof_pack = 1\n[fog]\nwhatever = 0.1\n",
         "old.toml:3: unknown key in [fog]: whatever; allowed blank, time_exponent"},
        {"fogproof_pack = 1\n[papr]\nwhite = 0.1\n", "old.toml:2: unknown section papr; nearest is paper"},
        {"fogproof_pack = 1\nnmae = \"x\"\n", "old.toml:2: unknown key nmae; nearest is name"},
        {"fogproof_pack = 1\nname = 3\n", "old.toml:2: name = 3; allowed text in quotes"},
        {"fogproof_pack = 1\nname = \"a\\nb\"\n",
         "old.toml:2: name = \"a\\u000Ab\"; allowed text of one line"},
        {"fogproof_pack = 1\n[paper]\nsurface = \"mat\"\n",
         "old.toml:3: surface = \"mat\"; allowed \"gloss\", \"semi-matt\", \"matt\""},
        {"fogproof_pack = 1\n[paper]\nwhite = { value = 0.9 }\n",
         "old.toml:3: white = 0.9; allowed 0 to 0.5 D"},
        {"fogproof_pack = 1\n[paper]\nwhite = { sd = 0.1 }\n",
         "old.toml:3: white has no value; allowed { value = ... }"},
        {"fogproof_pack = 1\n[paper]\nwhite = { value = 0.1, sd = 0 }\n",
         "old.toml:3: sd = 0; allowed numbers above 0"},
        {"fogproof_pack = 1\n[paper]\nwhite = { value = 0.1, sd = -0.1 }\n",
         "old.toml:3: sd = -0.1; allowed numbers above 0"},
        {"fogproof_pack = 1\n[paper]\nwhite = { value = 0.1, sd = inf }\n",
         "old.toml:3: sd = inf; allowed numbers above 0"},
        {"fogproof_pack = 1\n[paper]\nwhite = { value = 0.1, from = \"guessed\" }\n",
         "old.toml:3: from = \"guessed\"; allowed \"assumed\", \"given\", \"measured\", \"nudged\""},
        {"fogproof_pack = 1\n[paper]\nwhite = { value = 0.1, form = \"given\" }\n",
         "old.toml:3: unknown part of white: form; nearest is from"},
        {"fogproof_pack = 1\n[anchor]\nknown = 1\n", "old.toml:3: known = 1; allowed true or false"},
        {"fogproof_pack = 1\n[[paper]]\nwhite = 0.1\n", "old.toml:2: [[paper]]; allowed [paper], once"},
        {"fogproof_pack = 1\n[filter]\ngrade = 1\n", "old.toml:2: [filter]; allowed [[filter]]"},
        {"fogproof_pack = 1\n[[filter]]\ngrade = 1\n",
         "old.toml:2: a [[filter]] without balance; allowed grade, balance and, if measured, speed"},
        {"fogproof_pack = 1\n[[filter]]\ngrade = 2\nbalance = 0\n[[filter]]\ngrade = 2\nbalance = 1\n",
         "old.toml:5: filter grade 2; allowed above 2, the filter before"},
        {"fogproof_pack = 1\n[paper]\ncontrast = \"graded\"\n[[filter]]\ngrade = 2\nbalance = 0\n",
         "old.toml: filters on graded paper; allowed filters with contrast = \"variable\""},
    };
    for (const auto& [text, message] : kFaults) EXPECT_STREQ(pack_refusal(text).what(), message);
}

TEST(PackFile, WhatIsNotTomlIsNamedWithItsLine) {
    for (const char* text :
         {"fogproof_pack = 1\n[paper]\nwhite = 0.1\nwhite = 0.2\n",
          "fogproof_pack = 1\n[paper]\n\nwhite 0.1\n", "fogproof_pack = 1\n\n\n[paper\n"}) {
        const Error error = pack_refusal(text);
        EXPECT_THAT(error.what(), testing::StartsWith("old.toml:4: ")) << text;
        EXPECT_THAT(error.what(), testing::EndsWith("allowed TOML 1.0, every key once"));
        EXPECT_EQ(error.fault(), Fault::data);
    }
}

TEST(PackFile, TheFirstFaultInTheFileIsTheOneNamed) {
    EXPECT_STREQ(pack_refusal("fogproof_pack = 1\n[speed]\nlog_seconds = 99\n[fog]\nblank = 99\n").what(),
                 "old.toml:3: log_seconds = 99; allowed -3 to 4 log10 s");
}

TEST(PackFile, MessagesStayOneLineWhateverTheKeyHolds) {
    for (const char* text :
         {"fogproof_pack = 1\n\"a\\nb\" = 1\n", "fogproof_pack = 1\n[\"a\\u001bb\"]\n",
          "fogproof_pack = 1\n[paper]\nsurface = \"a\\nb\"\n", "fogproof_pack = 1\n[\x01]\n"}) {
        const std::string message = pack_refusal(text).what();
        EXPECT_EQ(message.find_first_of("\n\r\x1b\x01"), std::string::npos) << message;
    }
}

TEST(PackFile, TruncatedAnywhereItIsReadOrRefusedNeverMore) {
    Pack pack;
    pack.notes = "two\nlines";
    pack.filters = {{1, 0.2, 0}, {3, -0.3, 0.1}};
    const std::string text = written(pack);
    for (std::size_t length = 0; length < text.size(); length += 7) {
        try {
            static_cast<void>(parse_pack(text.substr(0, length), "old.toml"));
        } catch (const Error& error) {
            EXPECT_THAT(error.what(), testing::StartsWith("old.toml:"));
        }
    }
}

Pack random_pack(std::mt19937_64& dice) {
    std::uniform_real_distribution<double> share(0, 1);
    const auto one_of = [&](int n) { return int(share(dice) * n); };
    const auto know = [&](Pack& pack, const std::string& name, bool is_number) {
        Knowledge known{Origin(one_of(3)), std::nullopt};
        if (is_number && one_of(2)) known.deviation = std::exp(20 * share(dice) - 15);
        if (known != Knowledge{}) pack.knowledge[name] = known;
    };
    Pack pack;
    const std::string kNames[] = {"", "attic", "say \"grade\" \\ two", "Blau\xc3\xa4tzung \xe2\x82\xac",
                                  "two words  and three"};
    const std::string kNotes[] = {"",          "one", "two\nlines", "\nleading", "quotes \"\"\" inside\n\\n",
                                  "cr\r\nlf\n"};
    pack.name = kNames[one_of(5)];
    pack.notes = kNotes[one_of(6)];
    pack.contrast = Contrast(one_of(2));
    pack.surface = Surface(one_of(3));
    pack.anchored = one_of(2);
    know(pack, "paper.contrast", false);
    know(pack, "paper.surface", false);
    for (const auto& row : pack_numbers()) {
        row.in(pack) = std::lerp(row.minimum, row.maximum, share(dice));
        know(pack, row.name(), true);
    }
    if (pack.contrast == Contrast::variable)
        for (double grade = -1 + share(dice); grade < 5; grade += 0.1 + 2 * share(dice)) {
            PackFilter filter{grade, 10 * share(dice) - 5, 4 * share(dice) - 2};
            for (const auto& row : filter_numbers()) know(pack, filter_number_name(filter, row.key), true);
            pack.filters.push_back(filter);
        }
    return pack;
}

TEST(PackFile, TwoHundredRandomPacksComeBackIdentical) {
    std::mt19937_64 dice(20240607);
    for (int i = 0; i < 200; ++i) {
        const Pack pack = random_pack(dice);
        const std::string text = written(pack);
        const Pack back = parse_pack(text, "random.toml");
        ASSERT_EQ(back, pack) << text;
        ASSERT_EQ(written(back), text);
    }
}

TEST(PaperModel, AnyPackInRangeIsRefusedOrPrintsBetweenItsWhiteAndItsBlack) {
    std::mt19937_64 dice(20240609);
    int modelled = 0;
    for (int i = 0; i < 2000; ++i) {
        const Pack pack = random_pack(dice);
        std::optional<PaperModel> model;
        try {
            model.emplace(paper_model(pack));
        } catch (const Error& error) {
            EXPECT_EQ(error.fault(), Fault::config) << error.what();
            continue;
        }
        ++modelled;
        const std::vector<double> grades = grades_of(pack, *model);
        ASSERT_FALSE(grades.empty());
        for (const double grade : {grades.front(), grades.back()}) {
            const DrawnCurve curve(pack, *model, filter_for(pack, *model, grade));
            double before = pack.sheet.white_density - kDensity;
            for (double log_h = -8; log_h <= 8; log_h += 0.25) {
                const double density = curve(log_h);
                ASSERT_GE(density, before - kDensity) << "at " << log_h << "\n" << written(pack);
                before = density;
            }
            ASSERT_LE(before, pack.black_density + kDensity);
        }
    }
    EXPECT_GT(modelled, 100) << "nearly all dice contradict themselves";
}

TEST(PackFile, WhatCannotBeReadBackIsNotWritten) {
    Pack pack;
    pack.black_density = std::nan("");
    EXPECT_STREQ(refusal([&] { static_cast<void>(written(pack)); }).what(),
                 "pack: paper.black = nan; allowed 0.75 to 2.6 D");
    pack = Pack{};
    pack.name = "\xff";
    EXPECT_STREQ(refusal([&] { static_cast<void>(written(pack)); }).what(),
                 "pack: name is not text; allowed UTF-8");
}

TEST(PackFile, AMissingFileIsRefused) {
    EXPECT_EQ(refusal([] { static_cast<void>(read_pack("no-such-pack.toml")); }).fault(), Fault::no_input);
}

TEST(Slips, DensitiesAreMeasuredWordsAreGivenTheRestAssumed) {
    const Pack pack = pack_from_slips({.white_density = 0.07,
                                       .blank_density = 0.42,
                                       .black_density = std::nullopt,
                                       .surface = Surface::semi_matt,
                                       .contrast = Contrast::graded,
                                       .grade = 3.0,
                                       .iso_range = std::nullopt,
                                       .tint = Tint::warm,
                                       .name = "cellar"});
    EXPECT_EQ(pack.name, "cellar");
    EXPECT_EQ(pack.sheet.white_density, 0.07);
    EXPECT_EQ(pack.blank_density, 0.42);
    EXPECT_EQ(pack.iso_range, iso_range_of_grade(3));
    EXPECT_GT(pack.sheet.white_b, 0);
    const std::map<std::string, Origin> kKnown{{"paper.white", Origin::measured},
                                               {"fog.blank", Origin::measured},
                                               {"paper.contrast", Origin::given},
                                               {"paper.surface", Origin::given},
                                               {"paper.iso_range", Origin::given}};
    for (const auto& row : pack_numbers()) {
        const auto known = kKnown.find(row.name());
        EXPECT_EQ(pack.known(row.name()).origin, known == kKnown.end() ? Origin::assumed : known->second)
            << row.name();
    }
    EXPECT_EQ(pack.known("paper.contrast").origin, Origin::given);
    EXPECT_EQ(parse_pack(written(pack), "cellar.toml"), pack);
}

TEST(Slips, AReadTintAndBlackAreMeasured) {
    const Pack pack = pack_from_slips(
        {.white_density = 0.07, .blank_density = 0.42, .black_density = 1.8, .tint = TintReading{0.4, 3.5}});
    EXPECT_EQ(pack.sheet.white_a, 0.4);
    EXPECT_EQ(pack.sheet.white_b, 3.5);
    for (const char* name : {"paper.white_a", "paper.white_b", "paper.black"})
        EXPECT_EQ(pack.known(name).origin, Origin::measured) << name;
}

TEST(Slips, WhatExcludesItselfIsRefused) {
    const auto with = [](Slips slips) {
        return std::string(refusal([&] { static_cast<void>(pack_from_slips(slips)); }).what());
    };
    EXPECT_EQ(with({.white_density = 0.7, .blank_density = 0.8}), "white: 0.7; allowed 0 to 0.5 D");
    EXPECT_THAT(with({.white_density = 0.10, .blank_density = 0.07}),
                HasSubstr("is below paper white 0.1 D"));
    EXPECT_THAT(with({.white_density = std::nan(""), .blank_density = 0.1}), HasSubstr("nan"));
    EXPECT_THAT(with({.white_density = 0.1, .blank_density = 0.2, .grade = 2.0}),
                HasSubstr("allowed with graded paper"));
    EXPECT_THAT(
        with({.white_density = 0.1, .blank_density = 0.2, .contrast = Contrast::graded, .grade = 7.0}),
        HasSubstr("allowed 0 to 5"));
    EXPECT_THAT(with({.white_density = 0.1,
                      .blank_density = 0.2,
                      .contrast = Contrast::graded,
                      .grade = 2.0,
                      .iso_range = 110.0}),
                HasSubstr("allowed one of them"));
    EXPECT_THAT(
        with({.white_density = 0.1, .blank_density = 0.2, .black_density = 2.0, .surface = Surface::matt}),
        HasSubstr("under a surface that sends back 3 %"));
}

TEST(Slips, ABlankJustBelowWhiteIsTakenAsFreeOfFog) {
    EXPECT_NO_THROW(static_cast<void>(pack_from_slips({.white_density = 0.10, .blank_density = 0.085})));
}

}  // namespace
}  // namespace fogproof
