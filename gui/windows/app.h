#pragma once
#include <filesystem>
#include <optional>
#include <string>

#include "screening/vocabulary.h"

namespace foreday::windows {

/// What the window is started with.
struct WindowOptions {
    std::filesystem::path book;
    bool demo = false;
    std::optional<std::string> at;    ///< the moment the clock starts from; empty: the machine's clock
    std::optional<std::string> name;  ///< who signs in; empty: asked
    screening::Role role = screening::Role::nurse;
};

/// Shows the window until it is closed. 0: done; 1: the book could not be opened, or there is no display;
/// said on standard error.
[[nodiscard]] int run_windows(const WindowOptions& options);

}  // namespace foreday::windows
