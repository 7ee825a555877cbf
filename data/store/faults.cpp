#include "data/store/faults.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>

namespace foreday::store {
namespace {

using Kind = StoreFault::Kind;

StoreFault no_room(const std::filesystem::path& file)
{
    return {Kind::full, fmt::format("The disk that holds {} is full; nothing was written.", shown(file)),
            "Make room on it, then do the last step again."};
}

StoreFault busy(const std::filesystem::path& file)
{
    return {Kind::busy,
            fmt::format("Others have been writing to {} all the time; nothing was written.", shown(file)),
            "Wait a moment, then do the last step again."};
}

bool there(const std::filesystem::path& file)
{
    std::error_code ignored;
    return std::filesystem::exists(file, ignored);
}

/// What we are allowed, as whoever the program acts for now.
bool may(const std::filesystem::path& path, int what)
{
    return ::faccessat(AT_FDCWD, path.c_str(), what, AT_EACCESS) == 0;
}

/// SQLite says "cannot open" of many things; which one it was can be seen from outside.
StoreFault cannot_open(const std::filesystem::path& file)
{
    const std::filesystem::path folder = file.parent_path();
    if (!there(folder)) {
        return {Kind::gone, fmt::format("The folder {} is not there.", shown(folder)),
                "Look whether its disk is connected and whether the folder was moved."};
    }
    if (!may(folder, W_OK | X_OK)) {
        return may_not_be_written(folder);
    }
    if (there(file) && !may(file, R_OK)) {
        return {Kind::read_only, fmt::format("{} may not be read by you.", shown(file)),
                "Ask whoever looks after this computer for the right to read and write it."};
    }
    return {Kind::other, fmt::format("{} cannot be opened.", shown(file)),
            "Try again; if it stays so, ask whoever looks after this computer."};
}

}  // namespace

StoreFault::StoreFault(Kind kind, std::string what_happened, const std::string& what_to_do)
    : kind_{kind}, words_{std::move(what_happened)}
{
    if (!what_to_do.empty()) {
        words_ += ' ';
        words_ += what_to_do;
    }
}

std::string shown(const std::filesystem::path& file)
{
    return '"' + file.string() + '"';
}

StoreFault fault_of_sqlite(int code, int system, const std::string& message,
                           const std::filesystem::path& file)
{
    if (code == SQLITE_READONLY_DBMOVED) {
        return not_there_any_more(file);
    }
    switch (code & 0xff) {
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
        case SQLITE_PROTOCOL:
            return busy(file);
        case SQLITE_FULL:
            return no_room(file);
        case SQLITE_READONLY:
        case SQLITE_PERM:
            return may_not_be_written(file);
        case SQLITE_CANTOPEN:
            return cannot_open(file);
        case SQLITE_NOTADB:
            return not_a_book(file);
        case SQLITE_CORRUPT:
            return broken(file, "its pages");
        case SQLITE_IOERR:
            if (system == ENOSPC || system == EDQUOT) {
                return no_room(file);
            }
            return {Kind::other,
                    fmt::format("The disk that holds {} reported a fault ({}{}); nothing was written.",
                                shown(file), code,
                                system == 0 ? std::string{} : ", " + std::generic_category().message(system)),
                    "Try again; if it stays so, stop writing and have the disk looked at."};
        default:
            return {Kind::other, fmt::format("{}: {} ({}).", shown(file), message, code),
                    "Nothing was written. Please report this sentence as it stands."};
    }
}

StoreFault fault_of_system(int error, const std::filesystem::path& file)
{
    switch (error) {
        case ENOSPC:
        case EDQUOT:
            return no_room(file);
        case EACCES:
        case EPERM:
        case EROFS:
            return may_not_be_written(file);
        case EEXIST:
            return {Kind::other,
                    fmt::format("There is already a file {}; it was left as it is.", shown(file)),
                    "Choose another name, or move that file away first."};
        case ENOENT:
        case ENOTDIR:
            return cannot_open(file);
        default:
            return {Kind::other, fmt::format("{}: {}.", shown(file), std::generic_category().message(error)),
                    "Nothing was written. Try again, or ask whoever looks after this computer."};
    }
}

StoreFault not_there(const std::filesystem::path& file)
{
    return {Kind::gone, fmt::format("There is no book {}.", shown(file)),
            "Look whether its name is right, its disk connected, and whether it was moved."};
}

StoreFault not_there_any_more(const std::filesystem::path& file)
{
    return {
        Kind::gone,
        fmt::format("{} was moved, deleted or replaced while it was open; nothing was written.", shown(file)),
        "Put the file back in its place and open it again."};
}

StoreFault not_a_book(const std::filesystem::path& file)
{
    return {Kind::damaged,
            fmt::format("{} is not a book of this program; it was left as it is.", shown(file)),
            "Choose the book's own file."};
}

StoreFault broken(const std::filesystem::path& file, const std::string& where)
{
    return {Kind::damaged,
            fmt::format("{} is damaged: {} cannot be read as they were written.", shown(file), where),
            "Write nothing more into it, keep it, and go on with the last copy that can be verified."};
}

StoreFault may_not_be_written(const std::filesystem::path& file)
{
    return {
        Kind::read_only, fmt::format("{} may not be written; nothing was written.", shown(file)),
        "Give yourself the right to write this file and its folder, or move the book to a folder where you "
        "have it."};
}

StoreFault of_later_version(const std::filesystem::path& file, int version, int ours)
{
    return {Kind::newer,
            fmt::format("{} was made by a later version of this program (books of version {}; this program "
                        "writes version {}), so it is open for reading only.",
                        shown(file), version, ours),
            "To write in it, install the later version on this computer too."};
}

StoreFault may_stand_or_not(const std::filesystem::path& file, const std::string& what_failed)
{
    return {Kind::unsure,
            fmt::format(
                "{} while the last step was being written into {}. The step may stand in the book or not.",
                what_failed, shown(file)),
            "Open the book again and look before you repeat it, and have the disk looked at."};
}

}  // namespace foreday::store
