#include "tests/bench/invented_book.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "data/book/codec.h"
#include "data/book/projecting.h"

namespace foreday::bench {
namespace {

using screening::Date;
using screening::Moment;
using store::Chain;

constexpr Date today_of_the_book{date::local_days{date::year{2027} / date::June / 10}};
constexpr int working_days_ahead = 60;
constexpr std::chrono::hours ahead_of_the_unit{4};  ///< UTC, which is all these rows need of a zone

Moment at_hour(Date day, int hour, int minute = 0)
{
    return Moment{day.time_since_epoch()} + std::chrono::hours{hour} + ahead_of_the_unit +
           std::chrono::minutes{minute};
}

bool is_weekend(Date day)
{
    const date::weekday weekday{day};
    return weekday == date::Saturday || weekday == date::Sunday;
}

Date working_days_after(Date day, int count)
{
    const int step = count < 0 ? -1 : 1;
    while (count != 0) {
        day += date::days{step};
        count -= is_weekend(day) ? 0 : step;
    }
    return day;
}

/// Fills one book case by case, in the order of their days.
class Filling {
public:
    Filling(store::Store& store, std::uint64_t seed) : store_{store}, inventor_{seed} {}

    void day(Date day, std::size_t cases)
    {
        store_.write([&](store::Writing& writing) {
            for (std::size_t made = 0; made < cases; ++made) {
                one_case(writing, day, static_cast<int>(made));
            }
        });
    }
    [[nodiscard]] std::vector<InventedPerson> people() && { return std::move(people_); }

private:
    void append(store::Writing& writing, const std::string& subject, Moment at, const book::Content& content)
    {
        number_ =
            writing.append(Chain::journal, book::new_entry(subject, at, "n.ortega", "phone 2", {}, content))
                .number;
    }

    /// Three in ten have been here before.
    InventedPerson& someone(store::Writing& writing, Moment at)
    {
        if (!people_.empty() && inventor_.pick(10) < 3) {
            return people_[inventor_.pick(people_.size())];
        }
        InventedPerson one = inventor_.person();
        one.id = fmt::format("P{:06}", number_ + 1);
        append(writing, one.id, at,
               book::PatientMade{
                   one.name, one.number, one.born, inventor_.pick(2) == 0 ? "female" : "male", {one.phone}});
        return people_.emplace_back(std::move(one));
    }

    void one_case(store::Writing& writing, Date day, int place_of_the_day)
    {
        const Moment start = at_hour(day, 8 + place_of_the_day / 5, place_of_the_day % 5 * 12);
        const Moment booked = start - date::days{40};
        const InventedPerson& person = someone(writing, booked);
        store::CaseProjection row;
        row.case_id = fmt::format("C{:06}", number_ + 1);
        row.patient_id = person.id;
        const book::WallTime wall{
            screening::LocalMinute{
                std::chrono::floor<std::chrono::minutes>(start - ahead_of_the_unit).time_since_epoch()},
            -ahead_of_the_unit};
        append(writing, row.case_id, booked,
               book::BookingMade{person.id, {"colonoscopy"}, wall, {"peg", ""}});
        for (int call = 0; call < 3; ++call) {
            const Moment when = start - date::days{10 - call};
            append(writing, row.case_id, when,
                   book::TryMade{"first call", checklists::TryOutcome::no_answer, ""});
            append(
                writing, row.case_id, when,
                book::NoteMade{"Rings back after work; the daughter has the list of the medicines and will "
                               "read it out. Wants the sheet by post."});
        }
        row.rules_hash = std::string(64, 'a');
        row.up_to = number_;
        row.name = person.name;
        row.number = person.number;
        row.born = person.born;
        row.day = day;
        row.start = start;
        row.procedures = "Colonoscopy";
        row.search_words = words_of(row, person);
        add_work(row);
        writing.project(row);
    }

    /// As projection_of() gathers them.
    static std::vector<std::string> words_of(const store::CaseProjection& row, const InventedPerson& person)
    {
        std::vector<std::string> words;
        for (const std::string& text : {row.name, row.number, row.case_id, row.patient_id}) {
            std::ranges::move(book::search_words_of(text), std::back_inserter(words));
        }
        words.push_back(person.phone);
        std::erase(words.back(), '-');
        std::ranges::sort(words);
        words.erase(std::unique(words.begin(), words.end()), words.end());
        return words;
    }

    void add_work(store::CaseProjection& row)
    {
        row.look_again = row.start - date::days{14};
        if (row.day < working_days_after(today_of_the_book, -3)) {
            row.finished = true;
            row.gone_in = row.start;
            row.ended = row.start + std::chrono::minutes{40};
            return;
        }
        if (row.day < today_of_the_book) {
            row.ended = row.start + std::chrono::minutes{40};
            return;
        }
        const Moment eve = row.start - date::days{1};
        if (inventor_.pick(2) == 0) {
            row.calls.push_back({"first call", row.start - date::days{14}, eve,
                                 static_cast<int>(inventor_.pick(4)),
                                 "Nobody has screened this patient yet."});
        } else {
            row.calls.push_back({"to tell", row.start - date::days{6}, eve, 0, "To be told: apixaban."});
        }
        if (inventor_.pick(4) == 0) {
            const Moment decide_by = row.start - date::days{3};
            const auto level = inventor_.pick(5) == 0 ? screening::Level::stop : screening::Level::ask;
            row.undecided.push_back({"hold:m1", level, decide_by, "Apixaban: omit 2 days"});
            row.undecided.push_back(
                {"finding:anticoagulation", screening::Level::ask, eve, "A clot rule fired"});
            row.calls.push_back({"undecided:hold:m1", decide_by, decide_by, 0, "Not decided yet: apixaban."});
        }
    }

    store::Store& store_;
    Inventor inventor_;
    std::vector<InventedPerson> people_;
    std::int64_t number_ = 0;
};

}  // namespace

InventedBook fill(store::Store& store, std::size_t cases, std::uint64_t seed)
{
    const auto days = static_cast<int>(cases) / cases_a_day;
    Filling filling{store, seed};
    Date day = working_days_after(today_of_the_book, working_days_ahead - days);
    for (int made = 0; made < days; ++made) {
        day = working_days_after(day, 1);
        filling.day(day, cases_a_day);
    }
    return {today_of_the_book, at_hour(today_of_the_book, 9), std::move(filling).people()};
}

}  // namespace foreday::bench
