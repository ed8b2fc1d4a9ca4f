// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/session.hpp"

#include <algorithm>
#include <numeric>
#include <tuple>

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

// Adds the batches of one group to the session, renewing the bath as they go.
void pass_through(const Group& group, const Prints& prints, const BleachRate& rate, const SessionTerms& terms,
                  BathUse& bath, bool& fresh, Session& session) {
    for (std::size_t first = 0; first < group.prints.size();) {
        SessionBatch batch{{}, session.groups, 0, fresh, group.time, group.time};
        double silver = 0;
        for (; first < group.prints.size() && batch.prints.size() < std::size_t(terms.together); ++first) {
            const double more = prints[group.prints[first]].silver_g;
            if (!bath.takes(silver + more)) {
                if (!batch.prints.empty()) break;
                // A print too much for any bath still goes through a fresh one.
                batch.fresh = batch.fresh || bath.used() > 0;
                bath.renew();
            }
            silver += more;
            batch.prints.push_back(group.prints[first]);
        }
        if (batch.fresh) ++session.baths;
        batch.bath = session.baths - 1;
        const BleachBath& fresh_bath = prints[batch.prints.front()].bath;
        batch.now = bleach_time(rate, bath.as_it_is(), bleach_dose(rate, fresh_bath, group.time));
        session.total = session.total + batch.now + Seconds{terms.between_s};
        bath.take(silver);
        fresh = false;
        session.batches.push_back(std::move(batch));
    }
    ++session.groups;
}

}  // namespace

Session bleaching_session(const Prints& prints, const BleachRate& rate, const SessionTerms& terms) {
    Indices order(prints.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto strength = [&](std::size_t i) { return strongest_first(prints[i].bath); };
    std::ranges::stable_sort(order, {}, strength);

    Session session;
    for (auto first = order.begin(); first != order.end();) {
        const auto last =
            std::find_if(first, order.end(), [&](std::size_t i) { return strength(i) != strength(*first); });
        BathUse bath(prints[*first].bath, terms.litres);
        bool fresh = true;
        for (const Group& group : alike(prints, {first, last}))
            pass_through(group, prints, rate, terms, bath, fresh, session);
        first = last;
    }
    return session;
}

}  // namespace fogproof::choose
