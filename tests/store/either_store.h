#pragma once
#include <gtest/gtest.h>

#include <memory>
#include <string>

#include "data/store/memory_store.h"
#include "data/store/sqlite_store.h"
#include "tests/store/samples.h"
#include "tests/support/temporary_folder.h"

namespace foreday::tests {

enum class Stored : std::uint8_t { in_memory, in_a_file };

/// Every test of a suite made from it runs against each kind of store: what a store promises, whatever it is.
class EitherStore : public testing::TestWithParam<Stored> {
protected:
    void SetUp() override
    {
        store_ = GetParam() == Stored::in_memory ? store::make_memory_store()
                                                 : store::create_book(folder_.path() / "unit.foreday");
    }

    [[nodiscard]] store::Store& store() { return *store_; }

    /// What another program would have open: for a file a handle of its own.
    [[nodiscard]] std::shared_ptr<store::Store> other_handle() const
    {
        if (GetParam() == Stored::in_memory) {
            return store_;
        }
        return store::open_book(folder_.path() / "unit.foreday", store::OpenMode::read_write);
    }

private:
    TemporaryFolder folder_;
    std::shared_ptr<store::Store> store_;
};

inline auto both_kinds()
{
    return testing::Values(Stored::in_memory, Stored::in_a_file);
}

inline std::string name_of_kind(const testing::TestParamInfo<Stored>& kind)
{
    return kind.param == Stored::in_memory ? "InMemory" : "InAFile";
}

}  // namespace foreday::tests
