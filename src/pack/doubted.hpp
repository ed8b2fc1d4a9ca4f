// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Whatever may be asked of a pack, asked too of every pack that it may be in one of its numbers. Answers are
// of any type; a number of theirs is named by a function that takes it out of one.
#pragma once

#include <cmath>
#include <cstddef>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "fogproof/base/error.hpp"
#include "fogproof/rooms.hpp"
#include "pack/schema.hpp"

namespace fogproof::pack {

/// Every doubtful number that counts (is_moved()), moved by its own deviation; numbers that go_by_factor() by
/// the factor 1 + deviation / value. Numbers of a fit make up for each other along straight lines that hold
/// only close by, so these are moved by a small share of it.
class Moves {
  public:
    enum class Way { less, more };

    explicit Moves(const Pack&);
    [[nodiscard]] std::size_t size() const { return moved_.size(); }
    /// The pack with one number moved; without the readings and the fit of the pack it comes from.
    [[nodiscard]] Pack pack(std::size_t number, Way) const;
    /// Of its deviation, by which that pack is moved.
    [[nodiscard]] double share(std::size_t number) const { return moved_[number].share; }
    /// How two of the numbers err together.
    [[nodiscard]] double correlation(std::size_t a, std::size_t b) const;
    /// One deviation of what changes so with each of the numbers.
    [[nodiscard]] double deviation(std::span<const double> changes) const;

  private:
    struct Moved {
        std::string name;  // as in Pack::knowledge
        double share;
        std::function<void(Pack&, Way)> move;
    };
    Pack pack_;
    std::vector<Moved> moved_;
    std::vector<double> correlation_;  // row by row up to the diagonal
};

template <class Answer>
class Doubted {
  public:
    explicit Doubted(const Pack& pack, const std::function<Answer(const Pack&)>& ask)
        : Doubted(Moves(pack), ask(pack),
                  [&](const Moves& moves, std::size_t i, Moves::Way way) -> std::optional<Answer> {
                      try {
                          return ask(moves.pack(i, way));
                      } catch (const Error&) {
                          return std::nullopt;
                      }
                  }) {}
    /// Asked of packs that somebody has moved already; nothing of a pack that contradicts itself.
    template <class AskMoved>
    Doubted(Moves moves, Answer likeliest, const AskMoved& ask)
        : likeliest_(std::move(likeliest)), moves_(std::move(moves)) {
        for (std::size_t i = 0; i < moves_.size(); ++i)
            beside_.push_back({ask(moves_, i, Moves::Way::less), ask(moves_, i, Moves::Way::more)});
    }

    /// Of the pack as it stands.
    [[nodiscard]] const Answer& likeliest() const { return likeliest_; }
    [[nodiscard]] const Moves& moves() const { return moves_; }

    /// Change with one deviation of each number: half the difference of both sides. Where a moved pack
    /// contradicts itself, or has no such number, only the other side counts.
    template <class Number>
    [[nodiscard]] std::vector<double> changes(const Number& number) const {
        const double middle = number(likeliest_);
        std::vector<double> all;
        all.reserve(beside_.size());
        for (std::size_t i = 0; i < beside_.size(); ++i) {
            const auto less = number_of(number, beside_[i].less), more = number_of(number, beside_[i].more);
            const double down = less ? middle - *less : 0, up = more ? *more - middle : 0;
            all.push_back((less && more ? (down + up) / 2 : down + up) / moves_.share(i));
        }
        return all;
    }
    /// Standard deviation: the changes added with their correlations.
    template <class Number>
    [[nodiscard]] double deviation(const Number& number) const {
        return moves_.deviation(changes(number));
    }

  private:
    struct Sides {
        std::optional<Answer> less, more;
    };
    template <class Number>
    static std::optional<double> number_of(const Number& number, const std::optional<Answer>& answer) {
        if (!answer) return std::nullopt;
        const double value = number(*answer);
        return std::isfinite(value) ? std::optional(value) : std::nullopt;
    }

    Answer likeliest_;
    Moves moves_;
    std::vector<Sides> beside_;
};

}  // namespace fogproof::pack
