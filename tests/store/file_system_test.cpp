#include <gmock/gmock.h>

#include "data/store/sqlite_store.h"
#include "tests/store/samples.h"
#include "tests/support/temporary_folder.h"

namespace foreday::tests {
namespace {

using store::BookSettings;
using store::FileSystem;
using store::OpenMode;
using store::StoreFault;
using store::why_locks_fail;

TEST(FileSystemKind, DisksOfThisComputerAreTrusted)
{
    for (const std::uint64_t local :
         {0xEF53U, 0x9123683EU, 0x58465342U, 0x01021994U, 0x794C7630U, 0x2FC12FC1U, 0x4D44U, 0x0U}) {
        EXPECT_EQ(why_locks_fail({local, ""}), std::nullopt) << std::hex << local;
    }
    EXPECT_EQ(why_locks_fail({0x65735546, "fuseblk"}), std::nullopt);
}

TEST(FileSystemKind, NetworkFoldersAreNamed)
{
    EXPECT_EQ(why_locks_fail({0x6969, ""}), "a network folder (NFS)");
    EXPECT_EQ(why_locks_fail({0xFF534D42, ""}), "a network folder (CIFS)");
    EXPECT_EQ(why_locks_fail({0xFE534D42, ""}), "a network folder (SMB 2)");
    EXPECT_EQ(why_locks_fail({0x01021997, ""}), "a network folder (9p)");
    EXPECT_EQ(why_locks_fail({0x65735546, "fuse.sshfs"}),
              "a folder that another program serves (fuse.sshfs)");
    EXPECT_EQ(why_locks_fail({0x65735546, ""}), "a folder that another program serves (FUSE)");
}

TEST(FileSystemKind, IsThatOfTheNearestFolderWhereTheFileIsNotThereYet)
{
    const TemporaryFolder folder;
    const FileSystem here = store::file_system_of(folder.path());
    EXPECT_NE(here.type, 0U);
    EXPECT_EQ(store::file_system_of(folder.path() / "not" / "there").type, here.type);
    EXPECT_EQ(store::file_system_of("/proc/self/status").type, 0x9FA0U);
}

TEST(FileSystemKind, ABookOnANetworkFolderIsNeitherMadeNorOpened)
{
    const TemporaryFolder folder;
    BookSettings settings;
    settings.file_system = [](const std::filesystem::path&) { return FileSystem{0x6969, ""}; };
    const auto path = folder.path() / "unit.foreday";
    const auto refused = [&](const auto& work) {
        try {
            work();
            ADD_FAILURE() << "not refused";
        } catch (const StoreFault& fault) {
            EXPECT_EQ(fault.kind(), StoreFault::Kind::network);
            EXPECT_THAT(fault.what(), testing::HasSubstr("lies on a network folder (NFS)"));
            EXPECT_THAT(fault.what(), testing::HasSubstr("Keep the book on a disk of the computer"));
        }
    };
    refused([&] { static_cast<void>(store::create_book(path, settings)); });
    EXPECT_THAT(names_in(folder.path()), testing::IsEmpty());
    append(*store::create_book(path), "c1", "a");
    refused([&] { static_cast<void>(store::open_book(path, OpenMode::read_write, settings)); });
    refused([&] { static_cast<void>(store::open_book(path, OpenMode::read_only, settings)); });
}

}  // namespace
}  // namespace foreday::tests
