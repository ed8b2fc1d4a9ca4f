// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "support/named_inputs.hpp"

#include <algorithm>
#include <fstream>
#include <set>
#include <sstream>
#include <utility>

namespace fogproof::tests {

std::string content_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream content;
    content << file.rdbuf();
    return std::move(content).str();
}

std::vector<ShellWord> shell_words(const std::string& line) {
    std::vector<ShellWord> words;
    std::istringstream rest(line);
    std::string before;
    for (std::string word; rest >> word; before = word) {
        std::erase_if(word, [](char c) { return std::string_view("'\"();&<").find(c) != std::string::npos; });
        const auto mark = word.starts_with("--") ? word.find('=') : std::string::npos;
        const auto arrow = word.rfind('>');
        const std::string option = mark == std::string::npos ? before : word.substr(0, mark);
        const auto from = arrow != std::string::npos ? arrow : mark;
        words.push_back({option, from == std::string::npos ? word : word.substr(from + 1),
                         arrow != std::string::npos || before.ends_with('>')});
    }
    return words;
}

NamedInputs named_inputs(const std::filesystem::path& folder, const std::string& line) {
    namespace fs = std::filesystem;
    NamedInputs inputs;
    std::set<std::string> outputs;
    const auto take = [&](const std::string& name) {
        std::error_code unknown;
        if (!name.empty() && fs::is_regular_file(folder / name, unknown))
            inputs.try_emplace(name, content_of(folder / name));
    };
    for (const auto& word : shell_words(line)) {
        if (word.is_redirected ||
            std::set<std::string>{"-o", "--output", "--picture", "--ladder", "--curves", "--readings-out"}
                .contains(word.option)) {
            outputs.insert(word.name);
            continue;
        }
        take(word.name);
        if (!word.name.ends_with(".txt") && word.option != "--list") continue;
        // As a list its lines are names, from its own folder on.
        std::istringstream lines(inputs.contains(word.name) ? inputs[word.name] : std::string());
        for (std::string name; std::getline(lines, name);)
            if (name.size() < 200 && name.find('\0') == std::string::npos)
                take((fs::path(word.name).parent_path() / name).string());
    }
    if (line.find("pack fit ") != std::string::npos)
        for (const auto& output : outputs) inputs.erase(output);
    return inputs;
}

}  // namespace fogproof::tests
