#pragma once
#include <cstdint>

namespace foreday::tests {

/// What a disk can refuse.
enum class DiskFails : std::uint8_t { write, sync, open, write_for_want_of_room };

/// A file layer of SQLite over the machine's own, of which one single call fails. While an object lives it is
/// registered under `name`; one at a time.
class FailingDisk {
public:
    static constexpr const char* name = "foreday-failing-disk";

    /// The `nth` call of that kind fails, from 1 on; with want of room that one and all after it.
    FailingDisk(DiskFails what, int nth);
    ~FailingDisk();
    FailingDisk(const FailingDisk&) = delete;
    FailingDisk& operator=(const FailingDisk&) = delete;

    /// Whether the call that was to fail has come.
    [[nodiscard]] bool has_failed() const;
};

}  // namespace foreday::tests
