// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pack/toml_depth.hpp"

#include <algorithm>
#include <vector>

#include "fogproof/base/error.hpp"

namespace fogproof::pack {
namespace {

// Ours are three deep: [section], key = { part = ... }.
constexpr int kDeepest = 32;

// Goes through a text of TOML and counts levels; texts and remarks are stepped over. Where the text is not
// TOML it may count too many, never too few: a text ends at its line's end at the latest, as the parser has
// it.
class Levels {
  public:
    Levels(std::string_view text, const std::string& place) : text_(text), place_(place) {}

    void refuse_deep() {
        while (at_ < text_.size()) {
            step();
            if (header_ + opened_ + dots_ + 1 > kDeepest)
                throw Error(Fault::data, place_ + ":" + std::to_string(line_),
                            "keys and brackets more than " + std::to_string(kDeepest) + " levels deep",
                            "sections, keys and { } of one level each");
        }
    }

  private:
    void step() {
        switch (const char c = text_[at_]; c) {
            case '"':
            case '\'':
                return skip_quoted(c);
            case '#':
                at_ = std::min(text_.find('\n', at_), text_.size());
                return;
            case '.':
                ++dots_;
                break;
            case '=':
                in_value_ = true;
                break;
            case ',':
                dots_ = 0;
                break;
            case '[':
            case '{':
                open();
                break;
            case ']':
            case '}':
                close();
                break;
            case '\n':
                end_line();
                break;
            default:
                break;
        }
        ++at_;
    }

    void open() {
        if (open_.empty() && !in_value_) {
            in_header_ = true;
            header_ = 0;
        }
        open_.push_back(dots_ + 1);
        opened_ += dots_ + 1;
        dots_ = 0;
    }

    void close() {
        if (in_header_) header_ = std::max(header_, dots_ + 1);
        dots_ = 0;
        if (open_.empty()) return;
        opened_ -= open_.back();
        open_.pop_back();
    }

    void end_line() {
        ++line_;
        if (!open_.empty() && !in_header_) return;
        open_.clear();
        opened_ = dots_ = 0;
        in_header_ = in_value_ = false;
    }

    void skip_quoted(char quote) {
        const std::string three(3, quote);
        const bool is_long = text_.substr(at_).starts_with(three);
        at_ += is_long ? 3 : 1;
        while (at_ < text_.size()) {
            const char c = text_[at_];
            if (c == '\n') {
                if (!is_long) return;
                ++line_;
            } else if (c == '\\' && quote == '"') {
                // The next character stands for itself, except for a line's end, which is still counted.
                if (at_ + 1 < text_.size() && text_[at_ + 1] != '\n') ++at_;
            } else if (c == quote && (!is_long || text_.substr(at_).starts_with(three))) {
                at_ += is_long ? 3 : 1;
                // Up to two quotes may stand before the three that end a long text.
                while (is_long && at_ < text_.size() && text_[at_] == quote) ++at_;
                return;
            }
            ++at_;
        }
    }

    std::string_view text_;
    const std::string& place_;
    std::size_t at_ = 0;
    int line_ = 1;
    int header_ = 0;          // levels of the section that the line stands in
    std::vector<int> open_;   // levels that each open bracket adds: its key's, and one
    int opened_ = 0;          // their sum
    int dots_ = 0;            // of the key or number at hand
    bool in_header_ = false;  // within [section]
    bool in_value_ = false;   // after the = of a line
};

}  // namespace

void refuse_deep_toml(std::string_view text, const std::string& place) {
    Levels(text, place).refuse_deep();
}

}  // namespace fogproof::pack
