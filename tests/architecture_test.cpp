// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The rooms of the house and who may look into which: a room uses the rooms before it, never one after it.
// Read off the #include lines, since that is where a room reaches out.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <regex>
#include <sstream>
#include <string>
#include <vector>

namespace fogproof {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::IsEmpty;

// In walking order. A room may look back along this list, never ahead.
const std::vector<std::string> kRooms{"base",   "negative", "enlarger", "emulsion", "bleach",    "redevelop",
                                      "sheet",  "pack",     "print",    "table",    "calibrate", "choose",
                                      "strips", "render",   "report",   "demo",     "cli"};
constexpr char kLastCoreRoom[] = "choose";
// Files that hold one idea stay far below this.
constexpr std::size_t kLongestFile = 320;

std::size_t place_of(const std::string& room) {
    return std::size_t(std::ranges::find(kRooms, room) - kRooms.begin());
}

enum class Reach { open, hidden };  // a header that is installed, or a file of the library's own

// What a file of a room may not include, one complaint each. Only the text counts, not where it lies.
std::vector<std::string> complaints(const std::string& text, const std::string& room, Reach reach) {
    static const std::regex kInclude(R"(^\s*#\s*include\s*([<"])([^>"]+)[>"])");
    std::vector<std::string> found;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        std::smatch match;
        if (!std::regex_search(line, match, kInclude)) continue;
        std::string path = match[2];
        const bool ours = match[1] == "\"" || path.starts_with("fogproof/");
        if (ours) {
            if (path.starts_with("fogproof/")) path.erase(0, 9);
            const std::string other = path.substr(0, path.find('/'));
            if (place_of(other) == kRooms.size())
                found.push_back(path + " is in no room");
            else if (place_of(other) > place_of(room))
                found.push_back(room + " looks ahead to " + other);
            continue;
        }
        const std::string library = path.substr(0, path.find_first_of("/."));
        const auto is_one_of = [&](std::initializer_list<const char*> names) {
            return std::ranges::find(names, library) != names.end();
        };
        if (is_one_of({"vips", "lcms2", "glib", "tiffio"}) && place_of(room) <= place_of(kLastCoreRoom))
            found.push_back(room + " needs no " + library);
        if (room == "strips" && is_one_of({"vips", "lcms2", "glib"}))
            found.push_back(room + " needs no " + library);
        if (library == "CLI" && room != "cli") found.push_back(room + " has no command line");
        if (reach == Reach::open && is_one_of({"boost", "toml++", "nlohmann", "vips", "lcms2", "Eigen",
                                               "ceres", "tiffio", "libdeflate"}))
            found.push_back("a public header of " + room + " shows " + library);
    }
    return found;
}

struct File {
    fs::path path;
    std::string room, text;
    Reach reach;
};

std::vector<File> files() {
    std::vector<File> all;
    for (const auto& [top, reach] :
         {std::pair{fs::path("include/fogproof"), Reach::open}, std::pair{fs::path("src"), Reach::hidden}}) {
        const fs::path root = fs::path(FOGPROOF_SOURCE_DIR) / top;
        for (const auto& entry : fs::recursive_directory_iterator(root)) {
            const fs::path below = fs::relative(entry.path(), root);
            const auto suffix = below.extension();
            if (!entry.is_regular_file() || (suffix != ".cpp" && suffix != ".hpp")) continue;
            std::ifstream file(entry.path());
            all.push_back({top / below, below.begin()->string(),
                           std::string(std::istreambuf_iterator<char>(file), {}), reach});
        }
    }
    return all;
}

TEST(Architecture, ALookAheadIsFoundInEitherSpelling) {
    EXPECT_THAT(complaints("#include \"fogproof/print/recipe.hpp\"\n", "bleach", Reach::hidden),
                ElementsAre("bleach looks ahead to print"));
    EXPECT_THAT(complaints("int x;\n  # include \"render/scan_file.hpp\"\n", "table", Reach::hidden),
                ElementsAre("table looks ahead to render"));
    EXPECT_THAT(complaints("#include <fogproof/cli/verbs.hpp>\n", "report", Reach::hidden),
                ElementsAre("report looks ahead to cli"));
    EXPECT_THAT(complaints("#include \"helpers/all.hpp\"\n", "print", Reach::hidden),
                ElementsAre("helpers/all.hpp is in no room"));
    EXPECT_THAT(complaints("#include <vips/vips8>\n", "choose", Reach::hidden),
                ElementsAre("choose needs no vips"));
    EXPECT_THAT(complaints("#include <lcms2.h>\n", "sheet", Reach::hidden),
                ElementsAre("sheet needs no lcms2"));
    EXPECT_THAT(complaints("#include <CLI/CLI.hpp>\n", "render", Reach::hidden),
                ElementsAre("render has no command line"));
    EXPECT_THAT(complaints("#include <boost/math/tools/roots.hpp>\n", "sheet", Reach::open),
                ElementsAre("a public header of sheet shows boost"));
}

TEST(Architecture, ALookBackOrAtHomeIsNoFault) {
    EXPECT_THAT(
        complaints("#include \"fogproof/base/error.hpp\"\n#include \"print/recipe_parts.hpp\"\n"
                   "#include <vector>\n#include <boost/math/tools/roots.hpp>\n// #include \"cli/x.hpp\"\n",
                   "print", Reach::hidden),
        IsEmpty());
    EXPECT_THAT(complaints("#include <vips/vips8>\n#include <lcms2.h>\n", "render", Reach::hidden),
                IsEmpty());
}

TEST(Architecture, EveryRoomLooksBackOnly) {
    const auto all = files();
    ASSERT_GT(all.size(), 100u) << "the sources were not found";
    for (const File& file : all) {
        EXPECT_NE(place_of(file.room), kRooms.size()) << file.path << " is in no room";
        EXPECT_THAT(complaints(file.text, file.room, file.reach), IsEmpty()) << file.path;
    }
}

TEST(Architecture, NoFileHoldsMoreThanOneIdea) {
    for (const File& file : files())
        EXPECT_LE(std::size_t(std::ranges::count(file.text, '\n')), kLongestFile) << file.path;
}

// Two types of one name are one to the linker, which then takes the code of either for both. Forward
// declarations end with a semicolon, what is nested stands further in, what is in an unnamed namespace is in
// no header.
TEST(Architecture, NoTwoHeadersNameATypeAlike) {
    static const std::regex kType(
        R"(\n(?:namespace ([\w:]+) \{|(?:struct|class|enum class) (\w+)(?: : [^;\n]*)? \{))");
    std::map<std::string, std::vector<std::string>> places;
    for (const File& file : files()) {
        if (file.path.extension() != ".hpp") continue;
        std::string space;
        for (std::sregex_iterator match(file.text.begin(), file.text.end(), kType), end; match != end;
             ++match)
            if ((*match)[1].matched)
                space = (*match)[1];
            else
                places[space + "::" + (*match)[2].str()].push_back(file.path.string());
    }
    EXPECT_GT(places.size(), 100u) << "types were not found";
    for (const auto& [type, where] : places)
        EXPECT_EQ(where.size(), 1u) << type << ": " << testing::PrintToString(where);
}

TEST(Architecture, EveryFileSaysItsLicence) {
    for (const File& file : files())
        EXPECT_TRUE(
            file.text.starts_with("// SPDX-License-Identifier: MIT\n// Copyright the fogproof authors\n"))
            << file.path;
}

// The build puts the rooms into its libraries in the same order.
TEST(Architecture, BuildKnowsTheSameRooms) {
    std::ifstream file(fs::path(FOGPROOF_SOURCE_DIR) / "CMakeLists.txt");
    const std::string text(std::istreambuf_iterator<char>(file), {});
    std::vector<std::string> built;
    for (const char* list : {"CORE", "IMAGING"}) {
        std::smatch match;
        ASSERT_TRUE(std::regex_search(
            text, match, std::regex("set\\(FOGPROOF_" + std::string(list) + "_ROOMS ([^)]*)\\)")));
        std::istringstream words(match[1]);
        built.insert(built.end(), std::istream_iterator<std::string>(words), {});
        const bool core = built.back() == kLastCoreRoom;
        EXPECT_EQ(core, std::string(list) == "CORE") << "the core ends at " << kLastCoreRoom;
    }
    EXPECT_TRUE(std::ranges::is_sorted(built, {}, place_of));
    // What is packaged with the program is no room: no source lies there.
    const auto holds_sources = [](const fs::path& folder) {
        return std::any_of(fs::directory_iterator(folder), {}, [](const fs::directory_entry& entry) {
            return entry.path().extension() == ".cpp";
        });
    };
    for (const auto& entry : fs::directory_iterator(fs::path(FOGPROOF_SOURCE_DIR) / "src"))
        if (const std::string room = entry.path().filename();
            entry.is_directory() && room != "cli" && holds_sources(entry.path())) {
            EXPECT_EQ(std::ranges::count(built, room), 1) << room << " is not built";
        }
}

}  // namespace
}  // namespace fogproof
