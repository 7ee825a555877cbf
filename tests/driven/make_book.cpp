#include <fmt/format.h>

#include <cstdio>
#include <exception>
#include <string>

#include "data/store/sqlite_store.h"
#include "tests/book/desk.h"

/// make_book FILE: a new book of the demo unit with one booking of which nobody has rung yet.
/// make_book FILE CASE: one of the demo's cases, up to the moment before the patient comes in at the door.
/// Prints the case id.
int main(int argc, char** argv)
{
    using namespace foreday::tests;
    if (argc != 2 && argc != 3) {
        fmt::print(stderr, "make_book FILE [CASE]\n");
        return 2;
    }
    try {
        Desk desk(foreday::store::create_book(argv[1]));
        if (argc == 3) {
            fmt::print("{}\n", desk.play_case_up_to_the_day(argv[2]));
            return 0;
        }
        desk.set_clock("2027-06-01T09:00");
        fmt::print("{}\n", book_orla_finch(desk.book()));
        return 0;
    } catch (const std::exception& fault) {
        fmt::print(stderr, "make_book: {}\n", fault.what());
        return 1;
    }
}
