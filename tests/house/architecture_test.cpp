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
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::IsEmpty;

// In walking order, as their namespaces are listed. A room may look back along this list, never ahead.
std::vector<std::string> rooms_listed() {
    std::ifstream list(fs::path(FOGPROOF_SOURCE_DIR) / "include/fogproof/rooms.hpp");
    const std::string text(std::istreambuf_iterator<char>(list), {});
    std::vector<std::string> rooms;
    static const std::regex kRoom(R"(\nnamespace (\w+) \{(?:\n?using namespace (\w+);)?)");
    for (std::sregex_iterator match(text.begin(), text.end(), kRoom), end; match != end; ++match) {
        if ((*match)[1] == "fogproof") continue;
        // Each sees the one before it, and so all before that.
        EXPECT_EQ((*match)[2].str(), rooms.empty() ? "" : rooms.back());
        rooms.push_back((*match)[1]);
    }
    return rooms;
}
const std::vector<std::string> kRooms = rooms_listed();
constexpr char kLastCoreRoom[] = "proof";
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
            if (path == "fogproof/rooms.hpp") continue;
            if (reach == Reach::open && !path.starts_with("fogproof/"))
                found.push_back("a public header of " + room + " shows " + path);
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
        if (room == "pixels" && is_one_of({"vips", "lcms2", "glib"}))
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
            if (below == "rooms.hpp") continue;
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
    EXPECT_THAT(complaints("int x;\n  # include \"scan/scan_file.hpp\"\n", "table", Reach::hidden),
                ElementsAre("table looks ahead to scan"));
    EXPECT_THAT(complaints("#include <fogproof/cli/verbs.hpp>\n", "report", Reach::hidden),
                ElementsAre("report looks ahead to cli"));
    EXPECT_THAT(complaints("#include \"helpers/all.hpp\"\n", "print", Reach::hidden),
                ElementsAre("helpers/all.hpp is in no room"));
    EXPECT_THAT(complaints("#include <vips/vips8>\n", "choose", Reach::hidden),
                ElementsAre("choose needs no vips"));
    EXPECT_THAT(complaints("#include <lcms2.h>\n", "sheet", Reach::hidden),
                ElementsAre("sheet needs no lcms2"));
    EXPECT_THAT(complaints("#include <CLI/CLI.hpp>\n", "scan", Reach::hidden),
                ElementsAre("scan has no command line"));
    EXPECT_THAT(complaints("#include <boost/math/tools/roots.hpp>\n", "sheet", Reach::open),
                ElementsAre("a public header of sheet shows boost"));
}

TEST(Architecture, ALookBackOrAtHomeIsNoFault) {
    EXPECT_THAT(
        complaints("#include \"fogproof/base/error.hpp\"\n#include \"print/recipe_parts.hpp\"\n"
                   "#include <vector>\n#include <boost/math/tools/roots.hpp>\n// #include \"cli/x.hpp\"\n",
                   "print", Reach::hidden),
        IsEmpty());
    EXPECT_THAT(complaints("#include <vips/vips8>\n#include <lcms2.h>\n", "scan", Reach::hidden), IsEmpty());
}

TEST(Architecture, EveryRoomLooksBackOnly) {
    const auto all = files();
    ASSERT_GT(all.size(), 100u) << "the sources were not found";
    for (const File& file : all) {
        EXPECT_NE(place_of(file.room), kRooms.size()) << file.path << " is in no room";
        EXPECT_THAT(complaints(file.text, file.room, file.reach), IsEmpty()) << file.path;
    }
}

// A room is a namespace, and the list of rooms lets each look back along the same order.
TEST(Architecture, EveryRoomIsItsOwnNamespace) {
    static const std::regex kOpened(R"(\nnamespace (fogproof[\w:]*) ?\{)");
    for (const File& file : files()) {
        const std::string own = "fogproof::" + file.room;
        bool opens_own = false;
        for (std::sregex_iterator match(file.text.begin(), file.text.end(), kOpened), end; match != end;
             ++match) {
            const std::string opened = (*match)[1];
            const bool is_own = opened == own || opened.starts_with(own + "::");
            opens_own |= is_own;
            // Another room's type may be named before it is known.
            const auto from = std::size_t(match->position());
            const std::string body = file.text.substr(from, file.text.find('}', from) - from);
            EXPECT_TRUE(is_own || std::ranges::count(body, '\n') <= 3) << file.path << " opens " << opened;
        }
        EXPECT_TRUE(opens_own || file.path.filename() == "main.cpp") << file.path;
    }
    EXPECT_GT(kRooms.size(), 15u);
}

// The source that a test mirrors: FILE_test.cpp tests FILE, and FILE_WHAT_test.cpp one side of it.
bool mirrors_one_of(std::string test, const std::set<std::string>& sources) {
    test.erase(test.rfind("_test"));
    return std::ranges::any_of(
        sources, [&](const std::string& source) { return test == source || test.starts_with(source + "_"); });
}

TEST(Architecture, ATestIsNamedAfterASource) {
    EXPECT_TRUE(mirrors_one_of("scan_test", {"scan", "coding"}));
    EXPECT_TRUE(mirrors_one_of("scan_refusals_test", {"scan", "coding"}));
    EXPECT_FALSE(mirrors_one_of("scanned_test", {"scan", "coding"}));
    EXPECT_FALSE(mirrors_one_of("colour_coding_test", {"scan", "coding"}));

    std::map<std::string, std::set<std::string>> sources;
    for (const File& file : files()) sources[file.room].insert(file.path.stem());
    const fs::path tests = fs::path(FOGPROOF_SOURCE_DIR) / "tests";
    for (const std::string& room : kRooms) {
        if (!fs::exists(tests / room)) continue;
        for (const auto& entry : fs::directory_iterator(tests / room))
            if (const std::string name = entry.path().stem(); name.ends_with("_test")) {
                EXPECT_TRUE(mirrors_one_of(name, sources[room]))
                    << entry.path() << " tests no file of its room; tests of the whole program lie in "
                    << "tests/promises";
            }
    }
}

// Tests lie where their sources do; those of the whole program in promises, those of the sources here.
TEST(Architecture, TestsMirrorTheRooms) {
    const fs::path tests = fs::path(FOGPROOF_SOURCE_DIR) / "tests";
    std::size_t found = 0;
    for (const auto& entry : fs::recursive_directory_iterator(tests)) {
        if (!entry.path().string().ends_with("_test.cpp")) continue;
        ++found;
        const std::string folder = entry.path().parent_path().filename();
        EXPECT_TRUE(place_of(folder) < kRooms.size() || folder == "promises" || folder == "house")
            << entry.path();
        std::ifstream file(entry.path());
        const std::string text(std::istreambuf_iterator<char>(file), {});
        EXPECT_LE(std::size_t(std::ranges::count(text, '\n')), kLongestFile) << entry.path();
    }
    EXPECT_GT(found, 50u);
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

// Files left behind by a slip at the prompt do not stay in the sources.
TEST(Architecture, TheTopLevelHoldsNothingElse) {
    const std::set<std::string> kAllowed{"CMakeLists.txt", "DEVELOPERS.md", "LICENSE", "README.md", "build",
                                         "examples",       "include",       "src",     "tests"};
    for (const auto& entry : fs::directory_iterator(FOGPROOF_SOURCE_DIR)) {
        const std::string name = entry.path().filename();
        EXPECT_TRUE(name.starts_with('.') || kAllowed.contains(name)) << name;
    }
}

}  // namespace
}  // namespace fogproof::tests
