#include "tests/store/failing_disk.h"

#include <sqlite3.h>

#include <array>
#include <atomic>
#include <cstring>
#include <new>

namespace foreday::tests {
namespace {

/// SQLite's file layer is a table of C functions without a place for an object of ours, so what is to fail
/// stands here while a FailingDisk lives.
struct Plan {
    DiskFails what = DiskFails::write;
    int nth = 0;
    std::atomic<int> calls{0};
    std::atomic<bool> failed{false};
};
Plan plan;

bool fails_now(bool writing, DiskFails kind)
{
    const bool counts = plan.what == kind || (writing && plan.what == DiskFails::write_for_want_of_room);
    if (!counts) {
        return false;
    }
    const int call = ++plan.calls;
    const bool fails = plan.what == DiskFails::write_for_want_of_room ? call >= plan.nth : call == plan.nth;
    plan.failed = plan.failed || fails;
    return fails;
}

sqlite3_vfs* machine()
{
    return sqlite3_vfs_find("unix");
}

/// SQLite gives the room for it; the machine's own file lies right behind.
struct File {
    sqlite3_file base;
};
sqlite3_file* own(sqlite3_file* file)
{
    return reinterpret_cast<sqlite3_file*>(reinterpret_cast<std::byte*>(file) + sizeof(File));
}

int close_file(sqlite3_file* file)
{
    return own(file)->pMethods->xClose(own(file));
}
int read_file(sqlite3_file* file, void* into, int count, sqlite3_int64 at)
{
    return own(file)->pMethods->xRead(own(file), into, count, at);
}
int write_file(sqlite3_file* file, const void* from, int count, sqlite3_int64 at)
{
    if (fails_now(true, DiskFails::write)) {
        return plan.what == DiskFails::write ? SQLITE_IOERR_WRITE : SQLITE_FULL;
    }
    return own(file)->pMethods->xWrite(own(file), from, count, at);
}
int truncate_file(sqlite3_file* file, sqlite3_int64 size)
{
    return own(file)->pMethods->xTruncate(own(file), size);
}
int sync_file(sqlite3_file* file, int flags)
{
    return fails_now(false, DiskFails::sync) ? SQLITE_IOERR_FSYNC
                                             : own(file)->pMethods->xSync(own(file), flags);
}
int file_size(sqlite3_file* file, sqlite3_int64* size)
{
    return own(file)->pMethods->xFileSize(own(file), size);
}
int lock_file(sqlite3_file* file, int lock)
{
    return own(file)->pMethods->xLock(own(file), lock);
}
int unlock_file(sqlite3_file* file, int lock)
{
    return own(file)->pMethods->xUnlock(own(file), lock);
}
int check_lock(sqlite3_file* file, int* result)
{
    return own(file)->pMethods->xCheckReservedLock(own(file), result);
}
int file_control(sqlite3_file* file, int what, void* argument)
{
    return own(file)->pMethods->xFileControl(own(file), what, argument);
}
int sector_size(sqlite3_file* file)
{
    return own(file)->pMethods->xSectorSize(own(file));
}
int device(sqlite3_file* file)
{
    return own(file)->pMethods->xDeviceCharacteristics(own(file));
}
int map_shared(sqlite3_file* file, int page, int size, int extend, void volatile** into)
{
    return own(file)->pMethods->xShmMap(own(file), page, size, extend, into);
}
int lock_shared(sqlite3_file* file, int offset, int count, int flags)
{
    return own(file)->pMethods->xShmLock(own(file), offset, count, flags);
}
void barrier(sqlite3_file* file)
{
    own(file)->pMethods->xShmBarrier(own(file));
}
int unmap_shared(sqlite3_file* file, int remove)
{
    return own(file)->pMethods->xShmUnmap(own(file), remove);
}

constexpr sqlite3_io_methods methods{
    .iVersion = 2,
    .xClose = close_file,
    .xRead = read_file,
    .xWrite = write_file,
    .xTruncate = truncate_file,
    .xSync = sync_file,
    .xFileSize = file_size,
    .xLock = lock_file,
    .xUnlock = unlock_file,
    .xCheckReservedLock = check_lock,
    .xFileControl = file_control,
    .xSectorSize = sector_size,
    .xDeviceCharacteristics = device,
    .xShmMap = map_shared,
    .xShmLock = lock_shared,
    .xShmBarrier = barrier,
    .xShmUnmap = unmap_shared,
    .xFetch = nullptr,
    .xUnfetch = nullptr,
};

int open_file(sqlite3_vfs* /*vfs*/, const char* path, sqlite3_file* file, int flags, int* flags_out)
{
    file->pMethods = nullptr;
    if (fails_now(false, DiskFails::open)) {
        return SQLITE_CANTOPEN;
    }
    std::memset(own(file), 0, static_cast<std::size_t>(machine()->szOsFile));
    const int opened = machine()->xOpen(machine(), path, own(file), flags, flags_out);
    if (opened == SQLITE_OK) {
        file->pMethods = &methods;
    }
    return opened;
}

sqlite3_vfs& layer()
{
    static sqlite3_vfs made = [] {
        sqlite3_vfs vfs = *machine();  // everything but opening is the machine's own
        vfs.zName = FailingDisk::name;
        vfs.szOsFile = static_cast<int>(sizeof(File)) + machine()->szOsFile;
        vfs.xOpen = open_file;
        vfs.pNext = nullptr;
        return vfs;
    }();
    return made;
}

}  // namespace

FailingDisk::FailingDisk(DiskFails what, int nth)
{
    plan.what = what;
    plan.nth = nth;
    plan.calls = 0;
    plan.failed = false;
    if (sqlite3_vfs_register(&layer(), 0) != SQLITE_OK) {
        throw std::bad_alloc{};
    }
}

FailingDisk::~FailingDisk()
{
    sqlite3_vfs_unregister(&layer());
}

bool FailingDisk::has_failed() const
{
    return plan.failed;
}

}  // namespace foreday::tests
