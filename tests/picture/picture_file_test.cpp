// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Pictures on disk: what they carry, what is refused, what is left behind when writing fails.
#include "picture/picture_file.hpp"

#include <gtest/gtest.h>
#include <sys/resource.h>
#include <unistd.h>

#include <csignal>
#include <fstream>
#include <thread>

#include "fogproof/base/error.hpp"
#include "picture/xmp.hpp"
#include "scan/vips_session.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

namespace fs = std::filesystem;
using vips::VImage;

class Pictures : public ::testing::Test {
  protected:
    void SetUp() override {
        vips_ready();
        folder_ =
            fs::temp_directory_path() /
            ("picture_test." + std::string(::testing::UnitTest::GetInstance()->current_test_info()->name()));
        fs::remove_all(folder_);
        fs::create_directories(folder_);
    }
    void TearDown() override { fs::remove_all(folder_); }

    std::size_t files() const {
        return std::size_t(std::distance(fs::directory_iterator(folder_), fs::directory_iterator()));
    }

    template <class Work>
    static std::string refused(Fault fault, Work work) {
        try {
            work();
        } catch (const Error& error) {
            EXPECT_EQ(error.fault(), fault) << error.what();
            EXPECT_EQ(std::string(error.what()).find('\n'), std::string::npos) << error.what();
            return error.what();
        }
        ADD_FAILURE() << "nothing was refused";
        return {};
    }

    fs::path folder_;
};

// A ramp whose codes differ everywhere, so that a shift by one pixel or byte would show.
VImage ramp(int width, int height, int bands, VipsBandFormat format) {
    VImage grey = VImage::xyz(width, height).extract_band(0) * (format == VIPS_FORMAT_USHORT ? 211 : 1);
    VImage image = grey;
    for (int band = 1; band < bands; ++band) image = image.bandjoin(grey + band);
    return image.cast(format);
}

std::string blob(const VImage& image, const char* name) {
    std::size_t size = 0;
    const void* data = image.get_blob(name, &size);
    return {static_cast<const char*>(data), size};
}

TEST_F(Pictures, ReadBackWithPixelsProfileResolutionAndDescription) {
    const Description said{{"pack", "attic find <1962> & \"grey\""}, {"grade", "2.5"}};
    const std::string xmp = xmp_packet(said);
    for (const char* name : {"a.tif", "b.tiff", "c.png", "d.jpg", "e.JPEG"})
        for (const int bands : {1, 3})
            for (const auto format : {VIPS_FORMAT_UCHAR, VIPS_FORMAT_USHORT}) {
                const bool jpeg = picture_format(name) == PictureFormat::jpeg;
                if (jpeg && format == VIPS_FORMAT_USHORT) continue;
                const auto profile = OutputProfile::named(bands == 1 ? "grey" : "display-p3");
                const VImage image = ramp(200, 60, bands, format);
                const fs::path path = folder_ / name;
                save_picture(
                    image, path, profile,
                    {.pixels_per_mm = 12.0, .description = said, .replace = WholeFile::Replace::allowed});
                const VImage back = VImage::new_from_file(path.c_str());
                EXPECT_EQ(back.bands(), bands) << name;
                EXPECT_EQ(back.format(), format) << name;
                // JPEG at quality 95 moves codes by a few.
                EXPECT_LE((back - image).abs().max(), jpeg ? 8.0 : 0.0) << name;
                EXPECT_NEAR(back.xres(), 12.0, jpeg ? 0.02 : 1e-3) << name;  // JPEG counts whole dots
                EXPECT_NEAR(back.yres(), 12.0, jpeg ? 0.02 : 1e-3) << name;
                EXPECT_EQ(blob(back, VIPS_META_ICC_NAME),
                          std::string(profile.icc().begin(), profile.icc().end()))
                    << name;
                EXPECT_EQ(blob(back, VIPS_META_XMP_NAME), xmp) << name;
            }
    EXPECT_EQ(files(), 5u);
}

TEST_F(Pictures, DeflatedTiffHoldsTheSamePixels) {
    const VImage image = ramp(300, 200, 3, VIPS_FORMAT_USHORT);
    const auto profile = OutputProfile::named("srgb");
    save_picture(image, folder_ / "plain.tif", profile, {});
    save_picture(image, folder_ / "small.tif", profile, {.description = {}, .compress = true});
    EXPECT_EQ((VImage::new_from_file((folder_ / "small.tif").c_str()) - image).abs().max(), 0.0);
    EXPECT_LT(fs::file_size(folder_ / "small.tif"), fs::file_size(folder_ / "plain.tif") / 2);
}

TEST_F(Pictures, MetadataOfTheSourceIsLeftBehind) {
    VImage image = ramp(64, 64, 1, VIPS_FORMAT_USHORT).copy();
    const std::string foreign = "profile of a scanner";
    vips_image_set_blob_copy(image.get_image(), VIPS_META_ICC_NAME, foreign.data(), foreign.size());
    image.set("orientation", 6);
    image.set(VIPS_META_IMAGEDESCRIPTION, "somebody's holiday");
    const auto profile = OutputProfile::named("grey");
    for (const char* name : {"a.tif", "b.png"}) {
        save_picture(image, folder_ / name, profile, {});
        const VImage back = VImage::new_from_file((folder_ / name).c_str());
        EXPECT_EQ(blob(back, VIPS_META_ICC_NAME).size(), profile.icc().size());
        EXPECT_EQ(back.get_typeof(VIPS_META_XMP_NAME), 0u);
        EXPECT_TRUE(back.get_typeof("orientation") == 0 || back.get_int("orientation") == 1);
        std::ifstream file(folder_ / name, std::ios::binary);
        const std::string bytes((std::istreambuf_iterator<char>(file)), {});
        EXPECT_EQ(bytes.find("holiday"), std::string::npos);
        EXPECT_EQ(bytes.find("scanner"), std::string::npos);
    }
}

TEST_F(Pictures, BytesDoNotDependOnTheHour) {
    const VImage image = ramp(64, 64, 3, VIPS_FORMAT_UCHAR);
    const auto profile = OutputProfile::named("srgb");
    const auto bytes_of = [&](const std::string& name) {
        save_picture(image, folder_ / name, profile, {});
        std::ifstream file(folder_ / name, std::ios::binary);
        return std::string((std::istreambuf_iterator<char>(file)), {});
    };
    const std::string tif = bytes_of("1.tif"), png = bytes_of("1.png"), jpg = bytes_of("1.jpg");
    std::this_thread::sleep_for(std::chrono::milliseconds(1100));  // clocks in files count seconds
    EXPECT_EQ(bytes_of("2.tif"), tif);
    EXPECT_EQ(bytes_of("2.png"), png);
    EXPECT_EQ(bytes_of("2.jpg"), jpg);
}

TEST_F(Pictures, UnknownSuffixesAreRefusedWithTheKnown) {
    for (const char* name : {"print.gif", "print", "print.tif.bak", ".png"}) {
        const std::string text = refused(Fault::usage, [&] { (void)picture_format(name); });
        EXPECT_NE(text.find(".tif, .tiff, .png, .jpg or .jpeg"), std::string::npos);
    }
}

TEST_F(Pictures, JpegRefusesDepthAndSizeItCannotHold) {
    const auto profile = OutputProfile::named("grey");
    refused(Fault::usage,
            [&] { save_picture(ramp(8, 8, 1, VIPS_FORMAT_USHORT), folder_ / "deep.jpg", profile, {}); });
    refused(Fault::usage,
            [&] { save_picture(ramp(65501, 8, 1, VIPS_FORMAT_UCHAR), folder_ / "wide.jpg", profile, {}); });
    EXPECT_EQ(files(), 0u);
    EXPECT_NO_THROW(refuse_unsavable("wide.png", 65501, 8, 16));
}

TEST_F(Pictures, ExistingFilesStayUnlessReplacingIsAllowed) {
    const auto profile = OutputProfile::named("grey");
    const fs::path path = folder_ / "print.png";
    std::ofstream(path) << "kept";
    refused(Fault::cannot_create, [&] { save_picture(ramp(8, 8, 1, VIPS_FORMAT_UCHAR), path, profile, {}); });
    EXPECT_EQ(fs::file_size(path), 4u);
    save_picture(ramp(8, 8, 1, VIPS_FORMAT_UCHAR), path, profile,
                 {.description = {}, .replace = WholeFile::Replace::allowed});
    EXPECT_GT(fs::file_size(path), 4u);
    EXPECT_EQ(files(), 1u);
}

TEST_F(Pictures, NothingRemainsWhenTheSourceTurnsOutDamaged) {
    const auto profile = OutputProfile::named("grey");
    const fs::path source = folder_ / "source.png";
    save_picture(ramp(1000, 1000, 1, VIPS_FORMAT_USHORT), source, profile, {});
    fs::resize_file(source, fs::file_size(source) / 2);
    for (const char* name : {"a.tif", "b.png"}) {
        const VImage damaged = VImage::pngload(
            source.c_str(),
            VImage::option()->set("access", VIPS_ACCESS_SEQUENTIAL)->set("fail_on", VIPS_FAIL_ON_WARNING));
        refused(Fault::io, [&] { save_picture(damaged, folder_ / name, profile, {}); });
    }
    EXPECT_EQ(files(), 1u);
    EXPECT_STREQ(vips_error_buffer(), "");
}

TEST_F(Pictures, NothingRemainsWhenTheDiskRefusesMore) {
    const auto profile = OutputProfile::named("grey");
    std::signal(SIGXFSZ, SIG_IGN);
    rlimit before{};
    ASSERT_EQ(::getrlimit(RLIMIT_FSIZE, &before), 0);
    rlimit small = before;
    small.rlim_cur = 20000;
    for (const char* name : {"a.tif", "b.png", "c.jpg"}) {
        const VImage noise = VImage::gaussnoise(800, 800).cast(VIPS_FORMAT_UCHAR);
        ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &small), 0);
        refused(Fault::io, [&] { save_picture(noise, folder_ / name, profile, {}); });
        ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &before), 0);
    }
    EXPECT_EQ(files(), 0u);
}

TEST(Xmp, TextIsEscapedAndMadeValid) {
    const std::vector<XmpProperty> said{{"note", "a < b & c > d\x01 \xFF end"}};
    const std::string packet = xmp_packet(said);
    EXPECT_NE(packet.find("<fogproof:note>a &lt; b &amp; c &gt; d  \xEF\xBF\xBD end</fogproof:note>"),
              std::string::npos)
        << packet;
    EXPECT_NE(packet.find("xmlns:fogproof=\"urn:fogproof:1:\""), std::string::npos);
}

TEST(Xmp, NamesThatXmlForbidsAreRefused) {
    for (const char* name : {"", "1st", "two words", "a:b", "<"})
        EXPECT_THROW((void)xmp_packet(std::vector<XmpProperty>{{name, "x"}}), std::invalid_argument) << name;
}

}  // namespace
}  // namespace fogproof::tests
