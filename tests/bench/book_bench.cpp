#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <stdexcept>

#include "checklists/orders.h"
#include "data/book/projecting.h"
#include "data/store/sqlite_store.h"
#include "tests/bench/invented_book.h"
#include "tests/support/temporary_folder.h"

/// A book of 100,000 cases, and what a desk asks of it: a search at each key press, and the three lists.
/// Shown are the middle and the worst of many askings, as it is the worst that a person at a desk waits for.
namespace foreday::bench {
namespace {

using screening::Date;
using Milliseconds = std::chrono::duration<double, std::milli>;

constexpr std::size_t cases_in_the_book = 100'000;
constexpr std::size_t rows_on_the_screen = 50;
constexpr std::size_t people_looked_for = 300;

/// Filled once, when the first of these is run, and then opened as any program opens it.
struct LargeBook {
    tests::TemporaryFolder folder;
    InventedBook invented;
    Milliseconds to_fill{0};
    std::unique_ptr<store::Store> store;
    std::vector<InventedPerson> looked_for;

    LargeBook()
    {
        const auto began = std::chrono::steady_clock::now();
        invented = fill(*store::create_book(file()), cases_in_the_book, 20270610);
        to_fill = std::chrono::steady_clock::now() - began;
        store = reopened();
        Inventor inventor{4711};
        while (looked_for.size() < people_looked_for) {
            looked_for.push_back(invented.people[inventor.pick(invented.people.size())]);
        }
    }
    [[nodiscard]] std::filesystem::path file() const { return folder.path() / "large.foreday"; }
    [[nodiscard]] std::unique_ptr<store::Store> reopened() const
    {
        return store::open_book(file(), store::OpenMode::read_write);
    }
};

LargeBook& large_book()
{
    static LargeBook book;
    return book;
}

/// What stands in the search field after one more key.
struct Press {
    std::string typed;
    std::optional<Date> born;
};

std::size_t search(const store::Store& store, const Press& press)
{
    return store
        .search(book::search_words_of(press.typed), press.born, large_book().invented.today,
                rows_on_the_screen)
        .size();
}

/// Times each of `count` askings by itself, three times over.
template <class Ask>
void middle_and_worst(benchmark::State& state, std::size_t count, const Ask& ask)
{
    std::vector<double> times;
    std::size_t found = 0;
    std::size_t slowest = 0;
    for (auto _ : state) {
        for (std::size_t place = 0; place < count; ++place) {
            const auto began = std::chrono::steady_clock::now();
            found += ask(place);
            times.push_back(Milliseconds{std::chrono::steady_clock::now() - began}.count());
            if (times.back() >= *std::ranges::max_element(times)) {
                slowest = place;
            }
        }
    }
    std::ranges::sort(times);
    state.counters["askings"] = static_cast<double>(times.size());
    state.counters["rows"] = static_cast<double>(found) / static_cast<double>(times.size());
    state.counters["median_ms"] = times[times.size() / 2];
    state.counters["p99_ms"] = times[times.size() * 99 / 100];
    state.counters["worst_ms"] = times.back();
    state.counters["worst_at"] = static_cast<double>(slowest);
}

void press_each(benchmark::State& state, const std::vector<Press>& presses)
{
    std::size_t worst = 0;
    middle_and_worst(state, presses.size(),
                     [&](std::size_t place) { return search(*large_book().store, presses[place]); });
    worst = static_cast<std::size_t>(state.counters["worst_at"].value);
    state.counters.erase("worst_at");
    state.SetLabel("worst: \"" + presses[worst].typed + '"');
}

/// Every beginning of a text, a letter at a time as it is typed; a letter of two bytes is typed at once.
void type(std::vector<Press>& presses, const std::string& text)
{
    for (std::size_t end = 1; end <= text.size(); ++end) {
        const bool inside = end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U;
        if (!inside) {
            presses.push_back({text.substr(0, end), {}});
        }
    }
}

template <class Part>
void typed_of_each_person(benchmark::State& state, const Part& part)
{
    std::vector<Press> presses;
    for (const InventedPerson& person : large_book().looked_for) {
        type(presses, part(person));
    }
    press_each(state, presses);
}

void search_by_surname_first(benchmark::State& state)
{
    typed_of_each_person(state, [](const InventedPerson& person) {
        const std::size_t blank = person.name.find(' ');
        return person.name.substr(blank + 1) + ' ' + person.name.substr(0, blank);
    });
}

void search_by_phone(benchmark::State& state)
{
    typed_of_each_person(state, [](const InventedPerson& person) {
        std::string digits = person.phone;
        std::erase(digits, '-');
        return digits;
    });
}

void search_by_number(benchmark::State& state)
{
    typed_of_each_person(state, [](const InventedPerson& person) { return person.number; });
}

/// Of today's list, and of cases ten years back, with and without a letter of a name: what is frequent, but
/// nowhere near the day.
void search_by_case_id(benchmark::State& state)
{
    std::vector<Press> presses;
    for (const auto& row : large_book().store->on_day(large_book().invented.today)) {
        type(presses, row.case_id);
    }
    for (const char* old : {"C0", "C00", "C000", "C05", "C1", "C2", "C1 s", "C2 m", "C0 a b", "C000 a"}) {
        presses.push_back({old, {}});
    }
    press_each(state, presses);
}

void search_by_birth_date(benchmark::State& state)
{
    std::vector<Press> presses;
    for (const InventedPerson& person : large_book().looked_for) {
        presses.push_back({"", person.born});
        presses.push_back({person.name.substr(0, 1), person.born});
        presses.push_back({"", person.born - date::days{40'000}});  // nobody's
    }
    press_each(state, presses);
}

/// The dearest there is: each letter and figure alone, and every two of them as the beginnings of two words.
void search_by_one_or_two_letters(benchmark::State& state)
{
    const std::string keys = "abcdefghijklmnopqrstuvwxyz0123456789";
    std::vector<Press> presses = {{"", {}}};
    for (const char first : keys) {
        presses.push_back({std::string{first}, {}});
        for (const char second : keys) {
            presses.push_back({std::string{first} + ' ' + second, {}});
        }
    }
    press_each(state, presses);
}

void first_press_after_opening(benchmark::State& state)
{
    constexpr std::size_t openings = 20;
    middle_and_worst(state, openings, [](std::size_t place) {
        const auto store = large_book().reopened();
        return search(*store, {large_book().looked_for[place].name.substr(0, 2), {}});
    });
    state.counters.erase("worst_at");
}

/// As the phone desk shows it: every call that is due, in order.
void calls_list(benchmark::State& state)
{
    middle_and_worst(state, 20, [](std::size_t) {
        std::vector<checklists::CallRow> rows;
        const screening::Moment now = large_book().invented.now;
        for (const auto& one : large_book().store->with_calls(now)) {
            for (const auto& call : one.calls) {
                if (call.due_from <= now) {
                    rows.push_back({call.useful_until, call.tries, one.case_id, call.id});
                }
            }
        }
        std::ranges::sort(rows);
        return rows.size();
    });
    state.counters.erase("worst_at");
}

/// As the review desk shows it: each case by its most urgent item, in order.
void queue_list(benchmark::State& state)
{
    middle_and_worst(state, 20, [](std::size_t) {
        std::vector<checklists::QueueRow> rows;
        for (const auto& one : large_book().store->undecided()) {
            std::vector<checklists::QueueRow> items;
            for (const auto& item : one.undecided) {
                items.push_back({item.decide_by, item.level, one.start, one.case_id});
            }
            rows.push_back(*std::ranges::min_element(items));
        }
        std::ranges::sort(rows);
        return rows.size();
    });
    state.counters.erase("worst_at");
}

void list_of_the_day(benchmark::State& state)
{
    middle_and_worst(state, 20, [](std::size_t place) {
        const Date day = large_book().invented.today + date::days{static_cast<int>(place)};
        return large_book().store->on_day(day).size();
    });
    state.counters.erase("worst_at");
}

/// Not repeated: says how long the book took to fill, and how large it is.
void fill_the_book(benchmark::State& state)
{
    for (auto _ : state) {
        state.SetIterationTime(large_book().to_fill.count() / 1000);
    }
    state.counters["cases"] = static_cast<double>(large_book().store->info().cases);
    state.counters["entries"] = static_cast<double>(large_book().store->head(store::Chain::journal).number);
    state.counters["people"] = static_cast<double>(large_book().invented.people.size());
    state.counters["MB"] = static_cast<double>(std::filesystem::file_size(large_book().file())) / 1e6;
}

BENCHMARK(fill_the_book)->Iterations(1)->UseManualTime()->Unit(benchmark::kSecond);
BENCHMARK(search_by_surname_first)->Iterations(3)->Unit(benchmark::kMillisecond);
BENCHMARK(search_by_birth_date)->Iterations(3)->Unit(benchmark::kMillisecond);
BENCHMARK(search_by_phone)->Iterations(3)->Unit(benchmark::kMillisecond);
BENCHMARK(search_by_number)->Iterations(3)->Unit(benchmark::kMillisecond);
BENCHMARK(search_by_case_id)->Iterations(3)->Unit(benchmark::kMillisecond);
BENCHMARK(search_by_one_or_two_letters)->Iterations(1)->Unit(benchmark::kMillisecond);
BENCHMARK(first_press_after_opening)->Iterations(3)->Unit(benchmark::kMillisecond);
BENCHMARK(calls_list)->Iterations(3)->Unit(benchmark::kMillisecond);
BENCHMARK(queue_list)->Iterations(3)->Unit(benchmark::kMillisecond);
BENCHMARK(list_of_the_day)->Iterations(3)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace foreday::bench
