#include "data/store/file_system.h"

#include <fmt/format.h>
#include <sys/stat.h>
#include <sys/sysmacros.h>
#include <sys/vfs.h>

#include <array>
#include <fstream>
#include <sstream>

namespace foreday::store {
namespace {

constexpr std::uint64_t fuse = 0x65735546;

struct Network {
    std::uint64_t type;
    const char* name;
};

/// Magic numbers as the kernel's headers and the file systems' own sources give them.
constexpr std::array networks{
    Network{0x6969, "NFS"},
    Network{0x517B, "SMB"},
    Network{0xFF534D42, "CIFS"},
    Network{0xFE534D42, "SMB 2"},
    Network{0x01021997, "9p"},
    Network{0x5346414F, "AFS"},
    Network{0x6B414653, "AFS"},
    Network{0x73757245, "Coda"},
    Network{0x564C, "NCP"},
    Network{0x00C36400, "Ceph"},
    Network{0x0BD00BD0, "Lustre"},
    Network{0x47504653, "GPFS"},
    Network{0x01161970, "GFS2"},
    Network{0x7461636F, "OCFS2"},
    Network{0x19830326, "BeeGFS"},
    Network{0x20030528, "OrangeFS"},
    Network{0x786F4256, "a folder shared from a virtual machine's host"},
    Network{0xBACBACBC, "a folder shared from a virtual machine's host"},
};

/// The name in the mount table of the mounted device, such as "ext4" or "fuse.sshfs". Empty: not found.
std::string mounted_as(dev_t device)
{
    // ID PARENT MAJOR:MINOR ROOT POINT OPTIONS... - KIND SOURCE OPTIONS
    std::ifstream table{"/proc/self/mountinfo"};
    const std::string wanted = fmt::format("{}:{}", major(device), minor(device));
    for (std::string line; std::getline(table, line);) {
        std::istringstream words{line};
        std::string id;
        std::string parent;
        std::string numbers;
        words >> id >> parent >> numbers;
        const auto dash = line.find(" - ");
        if (numbers == wanted && dash != std::string::npos) {
            std::istringstream rest{line.substr(dash + 3)};
            std::string kind;
            rest >> kind;
            return kind;
        }
    }
    return {};
}

std::filesystem::path nearest_that_is_there(const std::filesystem::path& file)
{
    std::error_code ignored;
    std::filesystem::path path = std::filesystem::absolute(file, ignored);
    while (!std::filesystem::exists(path, ignored) && path != path.parent_path()) {
        path = path.parent_path();
    }
    return path;
}

}  // namespace

FileSystem file_system_of(const std::filesystem::path& file)
{
    const std::filesystem::path path = nearest_that_is_there(file);
    struct statfs about {};
    if (::statfs(path.c_str(), &about) != 0) {
        return {};
    }
    FileSystem kind;
    // The field is signed in some builds; its 32 bits are what counts.
    kind.type = static_cast<std::uint64_t>(about.f_type) & 0xFFFFFFFFU;
    struct stat status {};
    if (kind.type == fuse && ::stat(path.c_str(), &status) == 0) {
        kind.name = mounted_as(status.st_dev);
    }
    return kind;
}

std::optional<std::string> why_locks_fail(const FileSystem& kind)
{
    for (const Network& network : networks) {
        if (kind.type == network.type) {
            return fmt::format("a network folder ({})", network.name);
        }
    }
    // A program of the user's may stand behind it, here or on another machine. `fuseblk` is on a disk of this
    // one.
    if (kind.type == fuse && kind.name != "fuseblk") {
        return fmt::format("a folder that another program serves ({})",
                           kind.name.empty() ? "FUSE" : kind.name);
    }
    return std::nullopt;
}

}  // namespace foreday::store
