// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Clear film and scanner black that cannot be what they are told to be, and prints without a picture. Asked
// of the program on a drawn frame; no published source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/patches.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

class WrongReferences : public ::testing::Test {
  protected:
    // Patches on film of base + fog 0.25, from clear film to density 1.5 above it.
    WrongReferences() {
        program_.write(
            "pack.toml",
            "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n[anchor]\nknown = true\n");
        vips_ready();
        save_patches(program_, "neg.tif", {0.562, 0.35, 0.2, 0.1, 0.05, 0.018});
    }
    std::string said(const std::string& options) {
        const auto answer = program_.run(
            "--quiet print neg.tif --pack pack.toml --grade 2 --whole -o out.tif --force " + options);
        EXPECT_EQ(answer.code, 0) << answer.err;
        return answer.err;
    }
    Program program_;
};

TEST_F(WrongReferences, RightOnesAreNotWarnedOf) {
    EXPECT_THAT(said("--clear 0.562"), Not(HasSubstr("that is given")));
    EXPECT_THAT(said("--clear 0.562 --black 0.002"), Not(HasSubstr("that is given")));
    EXPECT_THAT(said("--clear 4,10,16,20"), Not(HasSubstr("that is given")));
}

TEST_F(WrongReferences, ADensityTypedForATransmittanceIsWarnedOf) {
    EXPECT_THAT(
        said("--clear 0.25"),
        AllOf(HasSubstr("33 % of the frame lets through more light than the clear film that is given"),
              HasSubstr("0.56 for density 0.25")));
    EXPECT_THAT(said("--clear 52,10,16,20"), HasSubstr("lets through more light"));
}

TEST_F(WrongReferences, ABlackThatThePictureGoesBelowIsWarnedOf) {
    EXPECT_THAT(said("--clear 0.562 --black 0.03"),
                HasSubstr("17 % of the frame is darker than the scanner's black that is given"));
}

TEST_F(WrongReferences, APrintWithoutAPictureIsWarnedOf) {
    EXPECT_THAT(said("--clear 0.562 --exposure -6"), HasSubstr("all tones of the picture print within 0.0"));
    EXPECT_THAT(said("--clear 0.562"), Not(HasSubstr("all tones")));
}

}  // namespace
}  // namespace fogproof::tests
