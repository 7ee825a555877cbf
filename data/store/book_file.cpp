#include "data/store/book_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <random>

#include "data/store/faults.h"

namespace foreday::store {
namespace {

std::filesystem::path with_ending(const std::filesystem::path& file, const std::string& ending)
{
    std::filesystem::path path = file;
    path += ending;
    return path;
}

/// What is written to it so far is on the disk when this returns.
void sync(const std::filesystem::path& file, int flags)
{
    const int descriptor = ::open(file.c_str(), flags | O_CLOEXEC);
    if (descriptor < 0) {
        throw fault_of_system(errno, file);
    }
    const int error = ::fsync(descriptor) == 0 ? 0 : errno;
    ::close(descriptor);
    if (error != 0) {
        throw fault_of_system(error, file);
    }
}

/// 0, or errno. Fails with EEXIST where a file of the new name is there.
int rename_to_new(const std::filesystem::path& from, const std::filesystem::path& to)
{
    if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) {
        return 0;
    }
    if (errno != EINVAL && errno != ENOSYS) {
        return errno;
    }
    // Not every file system knows the above; a second name is refused as well where there is a file.
    if (::link(from.c_str(), to.c_str()) != 0) {
        return errno;
    }
    ::unlink(from.c_str());
    return 0;
}

}  // namespace

std::optional<FileIdentity> identity_of(const std::filesystem::path& file)
{
    struct stat status {};
    if (::stat(file.c_str(), &status) != 0) {
        return std::nullopt;
    }
    return FileIdentity{status.st_dev, status.st_ino};
}

std::filesystem::path wal_of(const std::filesystem::path& book)
{
    return with_ending(book, "-wal");
}

std::filesystem::path whole_path(const std::filesystem::path& file)
{
    std::error_code error;
    std::filesystem::path path = std::filesystem::weakly_canonical(std::filesystem::absolute(file), error);
    return error ? std::filesystem::absolute(file) : path;
}

UnfinishedFile::UnfinishedFile(const std::filesystem::path& later)
    : later_{later},
      path_{with_ending(later, fmt::format(".unfinished-{}-{:08x}", ::getpid(), std::random_device{}()))}
{
}

UnfinishedFile::~UnfinishedFile()
{
    if (path_.empty()) {
        return;
    }
    std::error_code ignored;
    for (const char* ending : {"", "-journal", "-wal", "-shm"}) {
        std::filesystem::remove(with_ending(path_, ending), ignored);
    }
}

void UnfinishedFile::make_durable() const
{
    sync(path_, O_RDONLY);
}

void UnfinishedFile::put_in_place()
{
    make_durable();
    if (const int error = rename_to_new(path_, later_); error != 0) {
        throw fault_of_system(error, later_);
    }
    note_done();
}

void UnfinishedFile::put_in_place_of_old()
{
    make_durable();
    if (::rename(path_.c_str(), later_.c_str()) != 0) {
        throw fault_of_system(errno, later_);
    }
    note_done();
}

void UnfinishedFile::note_done()
{
    path_.clear();
    sync(later_.parent_path(), O_RDONLY | O_DIRECTORY);
}

void give_second_name(const std::filesystem::path& file, const std::filesystem::path& name)
{
    if (::link(file.c_str(), name.c_str()) != 0) {
        throw fault_of_system(errno, name);
    }
}

}  // namespace foreday::store
