#pragma once
#include <filesystem>
#include <functional>
#include <optional>
#include <string>

#include "screening/vocabulary.h"

namespace foreday::console {

/// Exit status of every command.
enum class Status : int {
    done = 0,
    input_has_faults = 1,  ///< each is said with its place
    wrong_use = 2,
};

/// What the window of the three desks is opened with.
struct DesksOptions {
    std::filesystem::path book;
    bool demo = false;                ///< invented unit and patients: the window says so
    std::optional<std::string> at;    ///< the moment its clock starts from; empty: the machine's clock
    std::optional<std::string> name;  ///< who is at work; empty: the window asks
    screening::Role role = screening::Role::nurse;
};
/// Opens the window and comes back when it is closed.
using OpenDesks = std::function<Status(const DesksOptions&)>;

/// Runs one command line. Prints results on standard output and faults on standard error; nothing
/// half-written is left behind. Never throws.
/// @param open_desks  what `desks` does; without it the command is refused
[[nodiscard]] int run(int argc, const char* const* argv, const OpenDesks& open_desks = {});

}  // namespace foreday::console
