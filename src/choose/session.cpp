// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/session.hpp"

#include <algorithm>
#include <numeric>
#include <optional>
#include <tuple>
#include <utility>

namespace fogproof::choose {
namespace {

using Prints = std::vector<WaitingPrint>;
using Indices = std::vector<std::size_t>;

struct Group {
    Indices prints;
    Seconds time;
};

Group shared(const Prints& prints, Indices members) {
    double sum = 0, earliest = 0, latest = prints[members.front()].latitude.longest.value;
    for (const std::size_t i : members) {
        sum += prints[i].time.value;
        earliest = std::max(earliest, prints[i].latitude.shortest.value);
        latest = std::min(latest, prints[i].latitude.longest.value);
    }
    std::ranges::stable_sort(members, {}, [&](std::size_t i) { return prints[i].time; });
    const Seconds time{std::clamp(sum / double(members.size()), earliest, latest)};
    return {std::move(members), time};
}

// The fewest groups for prints of one bath.
std::vector<Group> alike(const Prints& prints, Indices waiting) {
    std::ranges::stable_sort(waiting, {}, [&](std::size_t i) { return prints[i].latitude.longest; });
    std::vector<Group> groups;
    while (!waiting.empty()) {
        const Seconds pierced = prints[waiting.front()].latitude.longest;
        const auto others = std::stable_partition(waiting.begin(), waiting.end(), [&](std::size_t i) {
            return prints[i].latitude.shortest <= pierced;
        });
        groups.push_back(shared(prints, {waiting.begin(), others}));
        waiting.erase(waiting.begin(), others);
    }
    std::ranges::stable_sort(groups, {}, &Group::time);
    return groups;
}

std::tuple<double, double, double> strongest_first(const BleachBath& bath) {
    return {-working_strength_g_l(bath), -bath.bromide_g_l / (1 + bath.parts), -bath.temperature_c};
}

// A session as it grows, batch by batch, and the bath that it has come to.
class GrowingSession {
  public:
    GrowingSession(const Prints& prints, const BleachRate& rate, const SessionTerms& terms)
        : prints_(prints), rate_(rate), terms_(terms) {}

    /// Goes on in a bath that is mixed for it.
    void mix(const BleachBath& bath) {
        bath_.emplace(bath, terms_.litres);
        is_fresh_ = true;
    }
    /// Adds the batches of one group, renewing the bath as they go.
    void pass_through(const Group& group) {
        for (auto next = group.prints.begin(); next != group.prints.end();) next = pass_batch(group, next);
        ++session_.groups;
    }
    [[nodiscard]] Session session() && { return std::move(session_); }

  private:
    // As many prints from here on as go together; the first one that is left.
    Indices::const_iterator pass_batch(const Group& group, Indices::const_iterator next) {
        SessionBatch batch{{}, session_.groups, 0, is_fresh_, group.time, group.time};
        double silver = 0;
        for (; next != group.prints.end() && batch.prints.size() < std::size_t(terms_.together); ++next) {
            const double more = prints_[*next].silver_g;
            if (!bath_->takes(silver + more)) {
                if (!batch.prints.empty()) break;
                // A print too much for any bath still goes through a fresh one.
                batch.fresh = batch.fresh || bath_->used() > 0;
                bath_->renew();
            }
            silver += more;
            batch.prints.push_back(*next);
        }
        if (batch.fresh) ++session_.baths;
        batch.bath = session_.baths - 1;
        const BleachBath& as_mixed = prints_[batch.prints.front()].bath;
        batch.now = bleach_time(rate_, bath_->as_it_is(), bleach_dose(rate_, as_mixed, group.time));
        session_.total = session_.total + batch.now + Seconds{terms_.between_s};
        bath_->take(silver);
        is_fresh_ = false;
        session_.batches.push_back(std::move(batch));
        return next;
    }

    const Prints& prints_;
    const BleachRate& rate_;
    const SessionTerms& terms_;
    std::optional<BathUse> bath_;  // none before the first is mixed
    bool is_fresh_ = true;         // nothing went through it yet
    Session session_;
};

}  // namespace

Session bleaching_session(const Prints& prints, const BleachRate& rate, const SessionTerms& terms) {
    Indices order(prints.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto strength = [&](std::size_t i) { return strongest_first(prints[i].bath); };
    std::ranges::stable_sort(order, {}, strength);

    GrowingSession session(prints, rate, terms);
    for (auto first = order.begin(); first != order.end();) {
        const auto last =
            std::find_if(first, order.end(), [&](std::size_t i) { return strength(i) != strength(*first); });
        session.mix(prints[*first].bath);
        for (const Group& group : alike(prints, {first, last})) session.pass_through(group);
        first = last;
    }
    return std::move(session).session();
}

}  // namespace fogproof::choose
