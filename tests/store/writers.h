#pragma once
#include <sys/types.h>

#include <filesystem>
#include <functional>
#include <set>
#include <string>
#include <vector>

namespace foreday::tests {

/// Programs of their own that write into one book, each entry with a payload nobody else writes. What was
/// acknowledged is noted in a file beside the book, as a person would remember it.
class Writers {
public:
    explicit Writers(std::filesystem::path book) : book_(std::move(book)) {}
    ~Writers();
    Writers(const Writers&) = delete;
    Writers& operator=(const Writers&) = delete;

    /// Starts `count` programs. @param entries  each writes so many and ends; 0: until it is killed
    void start(int count, int entries);
    /// Ends all of them at once, wherever they are.
    void kill_all();
    /// Waits for all of them; their exit statuses.
    [[nodiscard]] std::vector<int> wait_for_all();

    /// Payloads of every entry whose write was acknowledged.
    [[nodiscard]] std::set<std::string> acknowledged() const;

private:
    [[nodiscard]] std::filesystem::path notes_of(int writer) const;
    [[noreturn]] void write_on(int writer, int entries) const;

    std::filesystem::path book_;
    int started_ = 0;
    std::vector<pid_t> programs_;
};

}  // namespace foreday::tests
