// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/shard.hpp"

#include <charconv>
#include <optional>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "system/text_file.hpp"

namespace fogproof::system {
namespace {

constexpr std::size_t kLargestList = 64u << 20;
constexpr std::size_t kMostShards = 100000;

std::optional<std::size_t> counting_number(std::string_view text) {
    std::size_t number = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (fault != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return number;
}

// A # inside a name is a part of it: "roll#3.tif".
std::string_view without_remark(std::string_view line) {
    for (std::size_t at = line.find('#'); at != std::string_view::npos; at = line.find('#', at + 1))
        if (at == 0 || line[at - 1] == ' ' || line[at - 1] == '\t') return line.substr(0, at);
    return line;
}

}  // namespace

std::vector<std::string> listed_paths(const std::filesystem::path& list) {
    std::string text = read_text(list, kLargestList, "one path of a scan on each line");
    if (text.find('\0') != std::string::npos)
        throw Error(Fault::data, list.string(), "is not text", "one path of a scan on each line");
    if (text.starts_with("\xEF\xBB\xBF")) text.erase(0, 3);
    std::vector<std::string> paths;
    for (const auto& line : split(text, '\n')) {
        const std::string_view path = trimmed(without_remark(line));
        if (path.empty()) continue;
        paths.push_back((list.parent_path() / path).string());
    }
    if (paths.empty())
        throw Error(Fault::data, list.string(), "names no scan", "one path of a scan on each line");
    return paths;
}

Shard Shard::in(std::string_view text, std::string_view place) {
    const std::size_t slash = text.find('/');
    if (slash != std::string_view::npos) {
        const auto number = counting_number(text.substr(0, slash)),
                   of = counting_number(text.substr(slash + 1));
        if (number && of && *number >= 1 && *number <= *of && *of <= kMostShards) return {*number, *of};
    }
    throw Error(Fault::usage, place, "\"" + std::string(text) + "\"",
                "K/N, the K-th of N parts, K from 1 to N, N up to " + std::to_string(kMostShards));
}

std::vector<std::string> Shard::part(const std::vector<std::string>& list) const {
    std::vector<std::string> mine;
    for (std::size_t i = number - 1; i < list.size(); i += of) mine.push_back(list[i]);
    return mine;
}

}  // namespace fogproof::system
