#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

#include "data/book/fold_state.h"

namespace foreday::book {
namespace {

using store::Entry;

struct Understood {
    const Entry* entry = nullptr;
    Read read;
};
using ByNumber = std::map<std::int64_t, Understood>;

void say(FoldedCase& folded, const Entry& entry, std::string about, std::string why)
{
    folded.not_placed.push_back({entry.number, entry.said.kind, std::move(about), std::move(why)});
}

/// Each entry once, as the entries of two patients who were merged hold the same number never twice.
ByNumber understood(const std::vector<Entry>& entries, FoldedCase& folded)
{
    ByNumber all;
    for (const Entry& entry : entries) {
        auto read = read_entry(entry);
        if (!read) {
            say(folded, entry, "", fmt::format("not understood: {}", read.error().what));
        } else {
            all.insert_or_assign(entry.number, Understood{&entry, *std::move(read)});
        }
    }
    return all;
}

/// What struck what. A strike must come after an entry about the same subject that is no strike itself.
std::map<std::int64_t, std::int64_t> strikes_in(const ByNumber& all, FoldedCase& folded)
{
    std::map<std::int64_t, std::int64_t> struck;
    for (const auto& [number, one] : all) {
        const auto* strike = std::get_if<EntryStruck>(&one.read.content);
        if (strike == nullptr) {
            continue;
        }
        const auto target = all.find(strike->entry);
        if (target == all.end() || target->first >= number ||
            target->second.entry->said.subject != one.entry->said.subject) {
            say(folded, *one.entry, std::to_string(strike->entry),
                fmt::format("there is no entry {} here to strike", strike->entry));
        } else if (std::holds_alternative<EntryStruck>(target->second.read.content)) {
            say(folded, *one.entry, std::to_string(strike->entry), "a strike is not struck");
        } else {
            struck.emplace(strike->entry, number);
        }
    }
    return struck;
}

std::string last_link(const ByNumber& all, const std::map<std::int64_t, std::int64_t>& struck)
{
    std::string patient;
    for (const auto& [number, one] : all) {
        if (struck.contains(number)) {
            continue;
        }
        if (const auto* booking = std::get_if<BookingMade>(&one.read.content); booking && patient.empty()) {
            patient = booking->patient;
        } else if (const auto* link = std::get_if<PatientLinked>(&one.read.content)) {
            patient = link->patient;
        }
    }
    return patient;
}

SamePatients same_patients(const ByNumber& all, const std::map<std::int64_t, std::int64_t>& struck,
                           FoldedCase& folded)
{
    SamePatients same;
    for (const auto& [number, one] : all) {
        if (struck.contains(number)) {
            continue;
        }
        if (const auto* merged = std::get_if<PatientMerged>(&one.read.content)) {
            if (!same.merge(merged->away, merged->into, number)) {
                say(folded, *one.entry, merged->away,
                    fmt::format("\"{}\" is not merged into \"{}\": it goes on as \"{}\"", merged->away,
                                merged->into, same.stands_as(merged->away)));
            }
        } else if (const auto* split = std::get_if<PatientSplit>(&one.read.content)) {
            same.split(split->away, split->from);
        }
    }
    return same;
}

/// Numbers count whatever became of the entry: that it was struck is a change too.
void count(const Entry& entry, FoldedCase& folded)
{
    folded.last_read = std::max(folded.last_read, entry.number);
    if (changes_fold(entry.said.kind)) {
        folded.up_to = std::max(folded.up_to, entry.number);
    }
}

class Gathering {
public:
    Gathering(const std::vector<Entry>& case_entries, const std::vector<Entry>& patient_entries,
              FoldedCase& folded)
        : case_entries_(case_entries), patient_entries_(patient_entries), folded_(folded)
    {
    }

    Gathered gather()
    {
        const ByNumber about_case = understood(case_entries_, folded_);
        const auto struck_here = strikes_in(about_case, folded_);
        ByNumber about_patients = understood(patient_entries_, folded_);
        const auto struck_there = strikes_in(about_patients, folded_);
        const SamePatients same = same_patients(about_patients, struck_there, folded_);
        folded_.booked_for = last_link(about_case, struck_here);
        folded_.patient_id = same.stands_as(folded_.booked_for);

        Gathered gathered;
        add(about_case, struck_here, gathered, [](const Entry& entry) { return entry.number; });
        leave_out_others(about_patients, same, gathered);
        add(about_patients, struck_there, gathered,
            [&](const Entry& entry) { return std::max(entry.number, same.since(entry.said.subject)); });
        std::ranges::stable_sort(gathered.events, {}, [](const Event& event) {
            return std::pair{event.comes_in, event.number()};
        });
        std::ranges::for_each(case_entries_, [&](const Entry& entry) { count(entry, folded_); });
        std::ranges::sort(folded_.struck);
        return gathered;
    }

private:
    /// Entries of patients who are not this one, though they may have been once.
    void leave_out_others(ByNumber& about_patients, const SamePatients& same, Gathered& gathered)
    {
        const auto is_ours = [&](const Entry& entry) {
            return !folded_.patient_id.empty() && same.stands_as(entry.said.subject) == folded_.patient_id;
        };
        std::erase_if(about_patients, [&](const auto& one) { return !is_ours(*one.second.entry); });
        for (const Entry& entry : patient_entries_) {
            if (is_ours(entry)) {
                gathered.patients.insert(entry.said.subject);
                count(entry, folded_);
            } else {
                std::erase_if(folded_.not_placed,
                              [&](const NotPlaced& said) { return said.entry == entry.number; });
            }
        }
    }

    template <class ComesIn>
    void add(const ByNumber& all, const std::map<std::int64_t, std::int64_t>& struck, Gathered& gathered,
             const ComesIn& comes_in)
    {
        for (const auto& [number, one] : all) {
            const auto strike = struck.find(number);
            const bool stands = strike == struck.end();
            if (std::holds_alternative<ConcernRaised>(one.read.content)) {
                gathered.concerns.push_back({number, stands ? 0 : strike->second});
            }
            if (!stands) {
                folded_.struck.push_back(number);
                continue;
            }
            if (const auto* aside = std::get_if<AnswerSetAside>(&one.read.content);
                aside != nullptr && aside->entry < number) {
                gathered.set_aside.insert_or_assign(aside->entry, aside->words);
            }
            const std::string& subject = one.entry->said.subject;
            const bool other = gathered.patients.contains(subject) && subject != folded_.patient_id;
            gathered.events.push_back(
                {comes_in(*one.entry), one.entry, one.read.envelope, one.read.content, other});
        }
    }

    const std::vector<Entry>& case_entries_;
    const std::vector<Entry>& patient_entries_;
    FoldedCase& folded_;
};

}  // namespace

bool SamePatients::merge(const std::string& away, const std::string& into, std::int64_t number)
{
    const auto before = merged_.find(away);
    if (before != merged_.end()) {
        return before->second.id == into;
    }
    if (stands_as(into) == away) {
        return false;
    }
    merged_.emplace(away, Into{into, number});
    return true;
}

void SamePatients::split(const std::string& one, const std::string& other)
{
    std::erase_if(merged_, [&](const auto& merged) {
        return (merged.first == one && merged.second.id == other) ||
               (merged.first == other && merged.second.id == one);
    });
}

std::string SamePatients::stands_as(const std::string& id) const
{
    std::string last = id;
    for (auto next = merged_.find(last); next != merged_.end(); next = merged_.find(last)) {
        last = next->second.id;
    }
    return last;
}

std::int64_t SamePatients::since(const std::string& id) const
{
    std::int64_t number = 0;
    for (auto next = merged_.find(id); next != merged_.end(); next = merged_.find(next->second.id)) {
        number = std::max(number, next->second.number);
    }
    return number;
}

Gathered gather(const std::vector<Entry>& case_entries, const std::vector<Entry>& patient_entries,
                FoldedCase& folded)
{
    return Gathering(case_entries, patient_entries, folded).gather();
}

std::string patient_of(const std::vector<Entry>& case_entries)
{
    FoldedCase unused;
    const ByNumber all = understood(case_entries, unused);
    return last_link(all, strikes_in(all, unused));
}

std::vector<Entry> patient_entries_for(const std::vector<Entry>& case_entries, const EntriesOf& entries_of)
{
    std::vector<Entry> found;
    std::vector<std::string> to_ask{patient_of(case_entries)};
    std::set<std::string> asked;
    while (!to_ask.empty()) {
        const std::string id = std::move(to_ask.back());
        to_ask.pop_back();
        if (id.empty() || !asked.insert(id).second) {
            continue;
        }
        for (const Entry& entry : entries_of(id)) {
            if (const auto read = read_entry(entry)) {
                if (const auto* merged = std::get_if<PatientMerged>(&read->content)) {
                    to_ask.push_back(merged->away);
                    to_ask.push_back(merged->into);
                }
            }
            found.push_back(entry);
        }
    }
    std::ranges::sort(found, {}, &Entry::number);
    return found;
}

}  // namespace foreday::book
