#pragma once

namespace foreday::console {

/// Exit status of every command.
enum class Status : int {
    done = 0,
    input_has_faults = 1,  ///< each is said with its place
    wrong_use = 2,
};

/// Runs one command line. Prints results on standard output and faults on standard error; nothing
/// half-written is left behind. Never throws.
[[nodiscard]] int run(int argc, const char* const* argv);

}  // namespace foreday::console
