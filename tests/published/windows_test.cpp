#include <gtest/gtest.h>

#include <set>

#include "tests/published/window_rows.h"

namespace foreday::tests {
namespace {

const screening::Rules& defaults()
{
    static const screening::Rules rules = real_rules();
    return rules;
}

std::map<std::string, std::string> reasons()
{
    std::map<std::string, std::string> why;
    for (const Row& row : published_rows("not_followed.tsv")) {
        why[row.at("id")] = row.at("why");
    }
    return why;
}

TEST(PublishedWindows, EveryFigureStandsInTheProtocolAtItsBoundary)
{
    const auto why = reasons();
    int kept = 0;
    for (const Row& row : published_rows("windows.tsv")) {
        if (why.contains(row.at("id"))) {
            continue;
        }
        SCOPED_TRACE(row.at("id") + ", " + row.at("document"));
        const auto keeps = keeps_window(row, defaults());
        ASSERT_TRUE(keeps.has_value())
            << row.at("subject") << " has no place in the protocol and is not listed";
        EXPECT_TRUE(*keeps) << row.at("subject") << " " << row.at("comparator") << " " << row.at("number")
                            << " " << row.at("unit");
        ++kept;
    }
    EXPECT_GT(kept, 50);
}

TEST(PublishedWindows, AFigureTheProtocolDoesNotFollowTrulyDiffers)
{
    const auto why = reasons();
    for (const Row& row : published_rows("windows.tsv")) {
        const auto reason = why.find(row.at("id"));
        if (reason == why.end()) {
            continue;
        }
        const auto keeps = keeps_window(row, defaults());
        if (reason->second.starts_with("not in this slice")) {
            EXPECT_FALSE(keeps.has_value())
                << row.at("id") << ": the protocol has a place for " << row.at("subject") << " now";
        } else {
            ASSERT_TRUE(keeps.has_value())
                << row.at("id") << ": nothing to compare " << row.at("subject") << " with";
            EXPECT_FALSE(*keeps) << row.at("id")
                                 << ": the protocol does keep this figure; strike it from not_followed.tsv";
        }
    }
}

TEST(PublishedWindows, EveryRowNotFollowedIsARowOfATable)
{
    std::set<std::string> ids;
    for (const char* table : {"holds.tsv", "windows.tsv"}) {
        for (const Row& row : published_rows(table)) {
            ids.insert(row.at("id"));
        }
    }
    for (const auto& [id, reason] : reasons()) {
        EXPECT_TRUE(ids.contains(id)) << id;
        EXPECT_FALSE(reason.empty()) << id;
    }
}

}  // namespace
}  // namespace foreday::tests
