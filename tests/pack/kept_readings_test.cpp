// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/pack/kept_readings.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "fogproof/base/error.hpp"
#include "fogproof/pack/file.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;

const std::string kText = "# by hand, in March\nstrip,exposure_s,density\na,0,0.41\na,8,1.2\n";

TEST(KeptReadings, HoldTheirRowsAndTheTextAsItWas) {
    const KeptReadings kept(kText, "box");
    EXPECT_EQ(kept.text(), kText);
    ASSERT_EQ(kept.rows().size(), 2u);
    EXPECT_EQ(kept.rows()[1].density, 1.2);
    EXPECT_TRUE(KeptReadings().empty());
    EXPECT_EQ(KeptReadings("", "box"), KeptReadings());
}

TEST(KeptReadings, GoThroughAPackFileByteForByte) {
    Pack pack;
    pack.readings = {kText, "box"};
    const Pack back = parse_pack(written(pack), "box.toml");
    EXPECT_EQ(back.readings.text(), kText);
    EXPECT_EQ(back.readings.rows(), pack.readings.rows());
    EXPECT_EQ(written(back), written(pack));
}

TEST(KeptReadings, FurtherOnesComeBehindWithTheirOrigin) {
    Reading more;
    more.strip = "b";
    more.density = 0.7;
    const KeptReadings kept = KeptReadings(kText, "box").with(std::vector{more}, "april.csv");
    EXPECT_TRUE(kept.text().starts_with(kText));
    EXPECT_THAT(kept.text(), HasSubstr("# origin: april.csv"));
    ASSERT_EQ(kept.rows().size(), 3u);
    EXPECT_EQ(kept.rows().back().strip, "b");
    EXPECT_EQ(kept.with({}, "nothing"), kept);
}

TEST(KeptReadings, AFileWhoseReadingsCannotBeReadIsRefusedByItsLine) {
    try {
        static_cast<void>(
            parse_pack("fogproof_pack = 1\n[readings]\ntext = \"density\\nthin\\n\"\n", "box.toml"));
        FAIL() << "was read";
    } catch (const Error& e) {
        EXPECT_THAT(e.what(), HasSubstr("box.toml:3 [readings]:2: density = \"thin\""));
    }
}

}  // namespace
}  // namespace fogproof::tests
