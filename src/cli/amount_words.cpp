// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/amount_words.hpp"

#include <string_view>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "pack/grade_words.hpp"
#include "print/amounts.hpp"

namespace fogproof::cli {
namespace {

bool is_exposure(std::string_view word) {
    try {
        static_cast<void>(exposure_amount(word, "word"));
        return true;
    } catch (const Error&) {
        return false;
    }
}

// "4s@0", "+1", and "7q@5", which is a slip: an amount, a grade behind it, or both. "neg@2x.tif" is none.
bool is_amount_at_grade(std::string_view word) {
    const auto mark = word.find('@');
    const bool has_grade = mark != std::string_view::npos && grade_in(word.substr(mark + 1));
    return has_grade || is_exposure(word.substr(0, mark));
}

bool may_be_value(std::string_view word) {
    return !word.empty() && !word.starts_with("--");
}

}  // namespace

std::vector<std::string> with_amounts_joined(std::span<char* const> words) {
    std::vector<std::string> joined;
    for (std::size_t i = 0; i < words.size(); ++i) {
        std::string word = words[i];
        if (word == "--") {
            joined.insert(joined.end(), words.begin() + std::ptrdiff_t(i), words.end());
            break;
        }
        const auto next = [&] { return std::string_view(i + 1 < words.size() ? words[i + 1] : ""); };
        const std::string option = word.substr(0, word.find('='));
        if (option == kSplitOption || option == kFlashOption) {
            if (word == option && may_be_value(next())) word.append("=").append(words[++i]);
            if (word != option)
                while (may_be_value(next()) && is_amount_at_grade(next()))
                    word.append(" ").append(words[++i]);
        }
        joined.push_back(std::move(word));
    }
    return joined;
}

std::vector<std::string> amounts_of(const std::vector<std::string>& joined) {
    std::vector<std::string> amounts;
    for (const auto& word : joined) {
        const std::size_t before = amounts.size();
        for (const auto& part : split(word, ' '))
            if (part.empty())
                continue;
            else if (amounts.size() > before && !is_amount_at_grade(part))
                amounts.back().append(" ").append(part);  // grade 1 1/2
            else
                amounts.push_back(part);
    }
    return amounts;
}

}  // namespace fogproof::cli
