// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// No output of a run is one of its inputs, under any name, and none is written twice. Asked of every verb,
// with leave to replace. What is asked is our own; no source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <string>

#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/typed_files.hpp"

namespace fogproof::tests {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

TEST(RunFiles, OutputsThatAreInputsAreRefusedAndInputsStay) {
    const Program program;
    make_typed_files(program);
    const auto copy = [&](const std::string& from, const std::string& to) {
        fs::copy_file(program / from, program / to);
    };
    copy("pack.toml", "scan.txt");
    copy("pack.toml", "p.svg");
    copy("pack.toml", "out.png.json");
    copy("readings.csv", "a.svg");
    copy("recipe.toml", "recipe.tif");
    copy("pack.toml", "picture-1.png");
    program.write("session.txt", "scan.tif\n");
    fs::create_symlink("../other.tif", program / "folder/scan.tif");
    fs::create_hard_link(program / "scan.tif", program / "hard.tif");
    fs::create_symlink("folder", program / "way");
    copy("scan.tif", "folder/b.tif");
    copy("good.icc", "good.png");
    fs::create_directories(program / "home/fogproof");
    program.write("home/fogproof/darkroom.toml", "fogproof_darkroom = 1\n");
    const std::string settings = "XDG_CONFIG_HOME=\"$PWD/home\"";
    const auto before = program.files();
    for (const std::string job :
         {"plan --list session.txt --pack pack.toml -o .",
          "plan scan.tif --pack scan.txt -o .",
          "plan scan.tif --pack pack.toml --match scan.txt -o .",
          "pack show p.svg --curves p.svg",
          "pack show p.svg --curves folder/../p.svg",
          "pack fit a.svg -o new.toml --curves ./a.svg",
          "pack fit readings.csv --pack p.svg -o new.toml --curves ./p.svg",
          "pack fit readings.csv -o ./readings.csv",
          "pack fit readings.csv -o new.svg --curves ./new.svg",
          "grid scan.tif --pack out.png.json -o out.png",
          "grid scan.tif --pack pack.toml -o hard.tif",
          "grid scan.tif --pack pack.toml --profile good.png -o good.png",
          "print scan.tif other.tif --pack pack.toml -o folder",
          "print folder/b.tif --pack pack.toml -o way",
          "print scan.tif --pack pack.toml -o hard.tif",
          "print scan.tif --recipe recipe.tif --pack pack.toml -o recipe.tif",
          "start scan.tif --pack pack.toml --ladder ./scan.tif",
          "start scan.tif --pack pack.toml --match other.tif --ladder folder/scan.tif",
          "read instrument.txt -o ./instrument.txt",
          "read strip.tif -o strip.csv --picture way/../strip.tif",
          "pack new --white 0.1 --blank 0.3 -o home/fogproof/darkroom.toml"}) {
        const auto answer = program.run(job + " --force --quiet", settings);
        EXPECT_EQ(answer.code, 64) << job << "\n" << answer.err;
        EXPECT_THAT(answer.err, testing::AnyOf(HasSubstr("is the input"), HasSubstr("would be written for")))
            << job;
        ASSERT_TRUE(program.files() == before) << job;
    }
}

TEST(RunFiles, OutputsOfOneNameAreRefusedBeforeAnyIsWritten) {
    const Program program;
    make_typed_files(program);
    fs::copy_file(program / "scan.tif", program / "scan-proofs.tif");
    const auto before = program.files();
    for (const std::string shard : {"", " --shard 1/2", " --shard 2/2"}) {
        const auto answer =
            program.run("plan scan.tif scan-proofs.tif --pack pack.toml --force --quiet -o folder" + shard);
        EXPECT_EQ(answer.code, 64);
        EXPECT_THAT(answer.err,
                    HasSubstr("folder/scan-proofs.html: would be written for scan.tif and again for "
                              "scan-proofs.tif; "));
        EXPECT_TRUE(program.files() == before);
    }
    EXPECT_EQ(program.run("manual folder --quiet").code, 0);
    fs::remove(program / "folder/fogproof.1");
    EXPECT_EQ(program.run("manual folder --quiet").code, 73);
    EXPECT_FALSE(fs::exists(program / "folder/fogproof.1")) << "all pages or none";
}

TEST(RunFiles, APackMayBeFittedInItsPlaceAndItsCopyStays) {
    const Program program;
    ASSERT_EQ(program.run("demo attic --megapixels 0.3 --quiet").code, 0);
    const std::string before = content_of(program / "attic/pack.toml");
    const auto answer =
        program.run("pack fit attic/readings.csv --pack attic/pack.toml -o attic/pack.toml --force --quiet");
    EXPECT_EQ(answer.code, 0) << answer.err;
    EXPECT_TRUE(content_of(program / "attic/pack.1.toml") == before);
}

}  // namespace
}  // namespace fogproof::tests
