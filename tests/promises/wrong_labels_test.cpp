// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Doses that changed places, amounts typed in another unit and strips out of line are named by the program;
// good readings are left in peace. Which slips of the pen happen is common practice, no source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <nlohmann/json.hpp>

#include "support/own_strips.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;
using Readings = std::vector<Reading>;

constexpr double kNoise = 0.01, kSheets = 0.01;

std::vector<own::Strip> strips_with_doses() {
    auto strips = own::usual_strips();
    for (const own::Strip& strip : {own::Strip{"hard", 15, 40, 4, 20}, own::Strip{"r10", 15, 40, 2, 10},
                                    own::Strip{"r40", 15, 40, 2, 40}})
        strips.push_back(strip);
    return strips;
}

Readings noisy(const std::vector<own::Strip>& strips, unsigned seed = 1) {
    const Pack truth = own::old_paper(Contrast::variable);
    return own::on_own_sheets(own::read(truth, own::patches_of(strips, truth.contrast), kNoise, seed),
                              kSheets, seed + 1000);
}

std::string csv_of(const Readings& readings) {
    std::ostringstream csv;
    csv << "strip,wedge_density,exposure_s,filter,restrainer_ml_l,develop_s,bleach_s,redevelop_s,density\n";
    for (const Reading& r : readings)
        csv << r.strip << ',' << *r.wedge_density << ',' << *r.exposure_s << ',' << *r.filter << ','
            << *r.restrainer_ml_l << ',' << *r.develop_s << ',' << r.bleach_s << ',' << r.redevelop_s << ','
            << std::round(100 * r.density) / 100 << '\n';
    return csv.str();
}

Program::Answer fit_of(Readings readings, const std::function<void(Reading&)>& change,
                       const std::string& options = {}) {
    for (auto& reading : readings) change(reading);
    const Program program;
    program.write("r.csv", csv_of(readings));
    auto answer = program.run("--quiet pack fit r.csv -o p.toml " + options);
    EXPECT_EQ(answer.code, 0) << answer.err;
    return answer;
}

// One sheet may differ, or the paper may obey the laws less well there: the fit cannot tell, but it can say.
TEST(WrongLabels, ASheetThatIsOffAsAWholeIsToldBelowTheTable) {
    const Readings good = noisy(strips_with_doses());
    EXPECT_THAT(fit_of(good, [](Reading&) {}).out, Not(HasSubstr("came out")));
    const auto shifted = [](double darker) {
        return [darker](Reading& reading) {
            if (reading.strip == "r10") reading.density += darker;
        };
    };
    EXPECT_THAT(fit_of(good, shifted(0.06)).out, HasSubstr("D darker than the fit: it may be this sheet"));
    EXPECT_THAT(fit_of(good, shifted(-0.06)).out, HasSubstr("D lighter than the fit: it may be this sheet"));
}

void exchange_doses(Reading& reading) {
    if (reading.strip.starts_with("r10"))
        reading.restrainer_ml_l = 40;
    else if (reading.strip.starts_with("r40"))
        reading.restrainer_ml_l = 10;
}

TEST(WrongLabels, DosesThatChangedPlacesAreNamedWithBothStrips) {
    const auto exchanged =
        AllOf(HasSubstr("strip \"r10\""), HasSubstr("strip \"r40\""), HasSubstr("restrainer exchanged"));
    EXPECT_THAT(fit_of(noisy(strips_with_doses()), exchange_doses).out, exchanged);
    auto few = own::slips();
    const std::vector<own::Strip> two{{"r10", 7, 40, 2, 10}, {"r40", 7, 40, 2, 40}};
    few.insert(few.end(), two.begin(), two.end());
    EXPECT_THAT(fit_of(noisy(few), exchange_doses).out, exchanged);
    // Sheets that were halved: the label is the sheet's.
    auto halved = own::slips();
    for (const double dose : {10.0, 40.0}) {
        const std::string sheet = dose < 20 ? "r10" : "r40";
        halved.push_back({sheet + "-before", 9, 40, 2, dose});
        halved.push_back({sheet + "-bleached", 9, 40, 2, dose, 90, 40});
    }
    EXPECT_THAT(fit_of(noisy(halved), exchange_doses).out, exchanged);
    // Nothing but what is known of papers tells.
    EXPECT_THAT(fit_of(noisy(two), exchange_doses).out, exchanged);
}

TEST(WrongLabels, PercentForMillilitresIsWarnedOfWithTheLikelyDose) {
    const auto readings = noisy(strips_with_doses());
    EXPECT_THAT(fit_of(readings, [](Reading& r) { *r.restrainer_ml_l /= 10; }).err,
                AllOf(HasSubstr("fogproof: warning: r.csv: restrainer 4 ml/L"), HasSubstr("40 for 4 %")));
    const auto one_strip = [](double dose) {
        return [dose](Reading& r) {
            if (r.strip == "soft") r.restrainer_ml_l = dose;
        };
    };
    EXPECT_THAT(fit_of(readings, one_strip(0.02)).err,
                AllOf(HasSubstr("fogproof: warning: r.csv: restrainer 0.02 ml/L"), HasSubstr("20 for 2 %")));
    EXPECT_THAT(fit_of(readings, one_strip(0.02)).out, HasSubstr("restrainer 20 ml/L instead of 0.02"));
    EXPECT_THAT(fit_of(readings, one_strip(2)).out, HasSubstr("restrainer 20 ml/L instead of 2 "));
}

TEST(WrongLabels, MinutesOfBleachAreWarnedOfWithTheSeconds) {
    const auto in_minutes = [](Reading& r) { r.bleach_s = std::round(r.bleach_s / 60 * 100) / 100; };
    const auto answer = fit_of(noisy(strips_with_doses()), in_minutes, "--json");
    EXPECT_THAT(answer.err, AllOf(HasSubstr("fogproof: warning: r.csv: bleach of 0.7 s"),
                                  HasSubstr("times are seconds: 40.2s for 0.67 minutes")));
    EXPECT_THAT(nlohmann::json::parse(answer.out)["warnings"][0].get<std::string>(),
                HasSubstr("times are seconds"));
}

TEST(WrongLabels, AStripOutOfLineIsNamedThoughNoLabelExplainsIt) {
    const auto readings = noisy(strips_with_doses());
    const auto named = [](const std::string& strip) {
        return AllOf(HasSubstr("fogproof: warning: r.csv: strip \"" + strip + "\" is 0.0"),
                     HasSubstr("standard deviations"));
    };
    EXPECT_THAT(fit_of(readings,
                       [](Reading& r) {
                           if (r.strip == "hard") r.density -= 0.08;
                       })
                    .err,
                named("hard"));
    int step = 0;
    EXPECT_THAT(fit_of(readings,
                       [&](Reading& r) {
                           if (r.strip == "soft") r.density += 0.06 * (++step % 3 - 1);
                       })
                    .err,
                named("soft"));
}

TEST(WrongLabels, GoodReadingsAreLeftInPeace) {
    const auto quiet = [](const Program::Answer& answer) {
        EXPECT_THAT(answer.err, Not(HasSubstr("warning")));
        EXPECT_THAT(answer.out, HasSubstr("readings: converged.\n"));
    };
    for (unsigned seed = 1; seed <= 30; ++seed)
        quiet(fit_of(noisy(strips_with_doses(), seed), [](Reading&) {}));
    const Program program;
    ASSERT_EQ(program.run("demo demo --megapixels 0.3").code, 0);
    quiet(program.run("--quiet pack fit demo/readings.csv --pack demo/pack.toml -o p.toml"));
}

// Test strips: bands half a stop apart, three exposures of which a pen wrote at half their time.
TEST(WrongLabels, ATestStripOfHalfItsSecondsIsNamedWithThem) {
    const Pack truth = own::old_paper(Contrast::variable);
    Readings patches = own::patches_of(own::slips(), truth.contrast);
    for (const own::Strip& strip : {own::Strip{"plain", 1, 0, 2, 20}, own::Strip{"hard", 1, 0, 4, 20},
                                    own::Strip{"bleached", 1, 0, 2, 20, 90, 40}})
        for (int band = 0; band < 9; ++band) {
            Reading patch = own::patches_of(strip, truth.contrast).front();
            patch.exposure_s = std::pow(2.0, band / 2.0);
            patches.push_back(patch);
        }
    const Readings good = own::on_own_sheets(own::read(truth, patches, kNoise, 1), kSheets, 2);
    EXPECT_THAT(fit_of(good, [](Reading&) {}).out, Not(HasSubstr(" instead of ")));
    const std::string told = fit_of(good, [](Reading& reading) {
                                 if (reading.strip == "bleached") *reading.exposure_s /= 2;
                             }).out;
    EXPECT_THAT(told,
                AllOf(HasSubstr("strip \"bleached\""), HasSubstr("exposures 1 to 16 s instead of 0.5 to 8")));
}

// The demo's own labels tell 24 s. No restrainer costs three stops: common practice, no source.
TEST(WrongLabels, SecondsOfAPrintWithAPlaceTooManyAreNamed) {
    const Program program;
    ASSERT_EQ(program.run("demo . --megapixels 0.3").code, 0);
    std::string labels = content_of(program / "print-labels.csv");
    const auto seconds = labels.find(",24,3,20,");
    ASSERT_NE(seconds, std::string::npos);
    const auto fit = [&](const std::string& name) {
        EXPECT_EQ(
            program.run("read print.jpg --labels " + name + " --known 3=fixed -o " + name + ".rows").code, 0);
        return program.run("--quiet pack fit " + name + ".rows --pack pack.toml -o " + name + ".toml").err;
    };
    EXPECT_THAT(fit("print-labels.csv"), Not(HasSubstr("stops more light")));
    program.write("typed.csv", labels.insert(seconds + 3, "0"));
    EXPECT_THAT(fit("typed.csv"),
                AllOf(HasSubstr(" had 3."), HasSubstr("stops more light"), HasSubstr("check its seconds")));
}

// A wedge and a test strip that no paper shows together, on one curve each.
TEST(WrongLabels, MisfitOfASingleStripIsNotSaidToBeNone) {
    const auto density = [](double log_light) {
        return std::to_string(0.18 + 0.68 / (1 + std::pow(10.0, 2.2 * log_light)));
    };
    std::string rows = "strip,wedge_density,exposure_s,filter,develop_s,density\n";
    for (int step = 0; step < 21; ++step) {
        const double wedge = 0.05 + 0.15 * step;
        rows += "w," + std::to_string(wedge) + ",10,2,90," + density(wedge - 1.5) + "\n";
    }
    for (const int time : {128, 64, 32, 16, 8, 4, 2})
        rows += "t,," + std::to_string(time) + ",2,90," + density(1.2 - std::log10(time)) + "\n";
    const Program program;
    program.write("r.csv", rows);
    const auto answer = program.run("--quiet pack fit r.csv -o p.toml");
    EXPECT_THAT(answer.out, AllOf(Not(HasSubstr("no misfit")), HasSubstr("single strips miss the fit, "),
                                  HasSubstr("\nt came out 0.4")));
}

TEST(WrongLabels, AStripTypedBackwardsIsNamed) {
    const Program program;
    const std::string head = "strip,exposure_s,filter,restrainer_ml_l,develop_s,density\n";
    const auto fit = [&](const std::string& rows) {
        program.write("r.csv", head + rows);
        return program.run("pack fit r.csv -o p.toml --force");
    };
    const auto backwards =
        fit("a,2,2,0,90,1.9\na,4,2,0,90,1.5\na,8,2,0,90,1.0\na,16,2,0,90,0.6\na,32,2,0,90,0.4\n"
            "b,2,2,20,90,0.3\nb,4,2,20,90,0.5\nb,8,2,20,90,1.0\nb,16,2,20,90,1.5\n");
    EXPECT_EQ(backwards.code, 65) << backwards.err;
    EXPECT_THAT(backwards.err,
                AllOf(HasSubstr("strip \"a\" gets lighter with more light"), HasSubstr("1.90 D"),
                      HasSubstr("wrong end"), Not(HasSubstr("strip \"b\"")), Not(HasSubstr("scatter"))));
    // A flat toe and a wedge, which darkens towards its thin end, are left in peace.
    EXPECT_EQ(
        fit("a,2,2,0,90,0.33\na,4,2,0,90,0.32\na,8,2,0,90,0.31\na,16,2,0,90,0.5\na,32,2,0,90,1.0\n").code, 0);
    program.write("r.csv", "strip,wedge_density,exposure_s,density\nw,0,20,1.8\nw,0.5,20,1.2\nw,1,20,0.6\n");
    EXPECT_EQ(program.run("pack fit r.csv -o p.toml --force").code, 0);
}

// Bands that were read three times each, so that the densities are no errors of reading.
TEST(WrongLabels, AStripThatNoPaperShowsIsNamed) {
    std::string rows = "strip,exposure_s,filter,restrainer_ml_l,develop_s,density\nfixed,0,,0,0,0.1\n";
    for (const char* band :
         {"2,2,0,90,1.9", "4,2,0,90,0.3", "8,2,0,90,1.9", "16,2,0,90,0.3", "32,2,0,90,1.9", "64,2,0,90,0.3"})
        for (int time = 0; time < 3; ++time) rows += std::string("a,") + band + "\n";
    const Program program;
    program.write("r.csv", rows);
    const auto fit = program.run("pack fit r.csv -o p.toml");
    EXPECT_EQ(fit.code, 65) << fit.err << fit.out;
    EXPECT_THAT(fit.err,
                AllOf(HasSubstr("no single paper fits all of them"), HasSubstr("strip \"a\" most of all"),
                      HasSubstr("check this strip's labels"), Not(HasSubstr("scatter.law"))));
}

}  // namespace
}  // namespace fogproof::tests
