// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "support/wrong_files.hpp"

#include <sys/stat.h>
#include <cstdint>
#include <fstream>
#include <map>
#include <stdexcept>

#include "base/words.hpp"

namespace fogproof::tests {

std::string unescaped(std::string_view text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != '\\') {
            out.push_back(text[i]);
            continue;
        }
        const char kind = text.at(++i);
        if (kind == 'x') {
            out.push_back(char(std::stoi(std::string(text.substr(i + 1, 2)), nullptr, 16)));
            i += 2;
        } else {
            out.push_back(kind == 'n' ? '\n' : kind == 't' ? '\t' : kind == 'p' ? '|' : kind);
        }
    }
    return out;
}

std::string little(std::uint32_t value, int bytes) {
    std::string text;
    for (int i = 0; i < bytes; ++i) text.push_back(char(value >> (8 * i) & 0xff));
    return text;
}

std::string big(std::uint32_t value) {
    const std::string text = little(value, 4);
    return {text.rbegin(), text.rend()};
}

std::string tiff_of(const std::vector<std::string>& words) {
    std::map<std::string, std::uint32_t> said{{"width", 40},   {"height", 40},  {"bits", 8},   {"packing", 1},
                                              {"meaning", 1},  {"samples", 1},  {"format", 1}, {"rows", 40},
                                              {"bytes", 8192}, {"offset", 512}, {"turn", 1},   {"planes", 1}};
    for (const auto& word : words) {
        const auto parts = split(word, '=');
        if (!said.contains(parts.at(0))) throw std::invalid_argument(word);
        said[parts[0]] = std::uint32_t(std::stoul(parts.at(1)));
    }
    const std::pair<int, const char*> tags[] = {
        {256, "width"}, {257, "height"},  {258, "bits"}, {259, "packing"}, {262, "meaning"}, {273, "offset"},
        {274, "turn"},  {277, "samples"}, {278, "rows"}, {279, "bytes"},   {284, "planes"},  {339, "format"}};
    std::string text = "II*" + std::string(1, '\0') + little(8, 4) + little(std::size(tags), 2);
    for (const auto& [tag, name] : tags) {
        const bool is_short =
            tag == 258 || tag == 259 || tag == 262 || tag == 274 || tag == 277 || tag == 284 || tag == 339;
        text += little(std::uint32_t(tag), 2) + little(is_short ? 3 : 4, 2) + little(1, 4) +
                little(said[name], 4);
    }
    text += little(0, 4);
    text.resize(512);
    for (int i = 0; i < 8192; ++i) text.push_back(char(i * 7 + i / 100));
    return text;
}

std::string png_of(const std::vector<std::string>& words) {
    const auto crc = [](std::string_view bytes) {
        std::uint32_t sum = 0xffffffff;
        for (const char byte : bytes) {
            sum ^= static_cast<unsigned char>(byte);
            for (int bit = 0; bit < 8; ++bit) sum = sum >> 1 ^ (sum & 1 ? 0xedb88320u : 0u);
        }
        return big(~sum);
    };
    const auto chunk = [&](const std::string& kind, const std::string& content) {
        return big(std::uint32_t(content.size())) + kind + content + crc(kind + content);
    };
    std::string head =
        big(std::uint32_t(std::stoul(words.at(0)))) + big(std::uint32_t(std::stoul(words.at(1))));
    head.push_back(char(std::stoi(words.at(2))));
    head.push_back(char(std::stoi(words.at(3))));
    head += std::string(2, '\0');
    head.push_back(char(std::stoi(words.at(4))));
    const std::string nothing("\x78\x9c\x03\x00\x00\x00\x00\x01", 8);
    return "\x89PNG\r\n\x1a\n" + chunk("IHDR", head) + chunk("IDAT", nothing) + chunk("IEND", "");
}

WrongFile::WrongFile(const Program& program, const std::string& told) {
    if (told == "-") return;
    const auto mark = told.find(" = ");
    if (mark == std::string::npos) throw std::invalid_argument(told);
    name_ = told.substr(0, mark);
    path_ = program / name_;
    how_ = told.substr(mark + 3);
    make(program);
}

WrongFile::~WrongFile() {
    if (name_.empty()) return;
    std::error_code fault;
    if (rights_) std::filesystem::permissions(path_, std::filesystem::perms::owner_all, fault);
    std::filesystem::remove_all(path_, fault);
}

void WrongFile::make(const Program& program) {
    namespace fs = std::filesystem;
    const auto words = split(how_, ' ');
    const auto rest = [&](std::size_t after) {
        return unescaped(std::string_view(how_).substr(std::min(after, how_.size())));
    };
    const auto others = std::vector<std::string>(words.begin() + 1, words.end());
    const auto copy = [&](const std::string& name) { return content_of(program / name); };
    if (words[0] == "text") return write(rest(5));
    if (words[0] == "first") return write(copy(words.at(3)).substr(0, std::stoul(words.at(1))));
    if (words[0] == "but") {
        const std::string all = copy(words.at(3));
        return write(all.substr(0, all.size() - std::stoul(words.at(1))));
    }
    if (words[0] == "tiff") return write(tiff_of(others));
    if (words[0] == "png") return write(png_of(others));
    if (words[0] == "sparse") {
        write("");
        return fs::resize_file(path_, std::stoull(words.at(1)));
    }
    if (how_ == "folder") return static_cast<void>(fs::create_directory(path_));
    if (how_ == "pipe") return require(::mkfifo(path_.c_str(), 0666) == 0);
    if (words[0] == "link") return fs::create_symlink(words.at(1), path_);
    if (words[0] == "unreadable") {
        write(copy(words.at(1)));
        return shut();
    }
    if (how_ == "shut folder") {
        fs::create_directory(path_);
        return shut();
    }
    std::string text = copy(words[0]);
    const std::string more = how_.substr(std::min(words[0].size() + 1, how_.size()));
    if (more == "again") return write(text);
    if (more.starts_with("grown to ")) {
        write(text);
        return fs::resize_file(path_, std::stoull(more.substr(9)));
    }
    if (more.starts_with("then ")) return write(text + unescaped(more.substr(5)));
    if (more.starts_with("for ")) {
        const auto arrow = more.find(" => ");
        const std::string old = unescaped(more.substr(4, arrow - 4)), now = unescaped(more.substr(arrow + 4));
        const auto at = text.find(old);
        require(at != std::string::npos);
        return write(text.replace(at, old.size(), now));
    }
    require(more.starts_with("at "));
    const auto plus = more.find('+'), colon = more.find(": ", plus);
    const std::string old = unescaped(trimmed(more.substr(3, plus - 3)));
    const auto from = text.find(old);
    require(from != std::string::npos);
    const std::string now = unescaped(more.substr(colon + 2));
    write(text.replace(from + std::stoul(more.substr(plus + 1, colon - plus - 1)), now.size(), now));
}

void WrongFile::write(const std::string& text) const {
    std::ofstream(path_, std::ios::binary) << text;
}

void WrongFile::shut() {
    rights_ = true;
    std::filesystem::permissions(path_, std::filesystem::perms::none);
}

void WrongFile::require(bool good) const {
    if (!good) throw std::invalid_argument(name_ + " = " + how_);
}

}  // namespace fogproof::tests
