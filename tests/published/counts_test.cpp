#include <fmt/format.h>
#include <gtest/gtest.h>

#include <set>

#include "data/reading/policy_reading.h"
#include "tests/published/healthy_case.h"
#include "tests/published/rows.h"

namespace foreday::tests {
namespace {

struct Count {
    int published = 0;
    int reported = 0;
};

void add(Count& count, const Row& row)
{
    ++(is_reported(row) ? count.reported : count.published);
}

/// What the figures of the protocol rest on, each kind apart. Writes to the screen and nowhere else.
TEST(PublishedZCounts, PublishedReportedFromMemoryCommonPracticeAndUnitPolicyAreCountedApart)
{
    std::map<std::string, std::string> why;
    for (const Row& row : published_rows("not_followed.tsv")) {
        why[row.at("id")] = row.at("why");
    }
    Count kept;
    Count differing;
    Count later;
    for (const char* table : {"calculators.tsv", "holds.tsv", "windows.tsv", "restart.tsv"}) {
        for (const Row& row : published_rows(table)) {
            const auto reason = why.find(row.at("id"));
            add(reason == why.end()                               ? kept
                : reason->second.starts_with("not in this slice") ? later
                                                                  : differing,
                row);
        }
    }
    std::map<std::string, int> own;
    for (const Row& row : read_rows(FOREDAY_SOURCE_DIR "/tests/from_memory/from_memory.tsv")) {
        ++own[row.at("sure")];
    }
    const auto unit = data::read_policy(FOREDAY_SOURCE_DATA_DIR "/demo/larkmoor.yaml", real_rules().protocol);
    ASSERT_TRUE(unit.policy.has_value());
    const auto by_the_unit = unit.policy->confirmations.size();
    fmt::print(
        "checks: published {}, reported {}, from memory {}, common practice {}, unit policy {} (Larkmoor)\n",
        kept.published, kept.reported, own["from memory"], own["common practice"], by_the_unit);
    fmt::print("rows read and not followed, each with its reason: published {}, reported {}\n",
               differing.published, differing.reported);
    fmt::print("rows read and not in this slice: published {}, reported {}\n", later.published,
               later.reported);
    EXPECT_GT(kept.published, kept.reported);
    EXPECT_GT(own["from memory"], 0);
    EXPECT_GT(own["common practice"], 0);
}

}  // namespace
}  // namespace foreday::tests
