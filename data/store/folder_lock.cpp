#include "data/store/folder_lock.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <thread>

#include "data/store/faults.h"

namespace foreday::store {

FolderLock::FolderLock(const std::filesystem::path& file, Use use, std::chrono::milliseconds wait)
    : descriptor_{::open(file.parent_path().c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)}
{
    const auto give_up = std::chrono::steady_clock::now() + wait;
    const int how = (use == Use::alone ? LOCK_EX : LOCK_SH) | LOCK_NB;
    while (descriptor_ >= 0 && ::flock(descriptor_, how) != 0 && (errno == EWOULDBLOCK || errno == EINTR)) {
        if (std::chrono::steady_clock::now() > give_up) {
            ::close(descriptor_);
            throw StoreFault{
                StoreFault::Kind::busy,
                shown(file) + " is being opened by others or brought up to date; nothing was written.",
                "Wait a moment, then open it again."};
        }
        std::this_thread::sleep_for(std::chrono::milliseconds{5});
    }
}

FolderLock::~FolderLock()
{
    if (descriptor_ >= 0) {
        ::close(descriptor_);
    }
}

}  // namespace foreday::store
