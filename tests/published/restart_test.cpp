#include <gtest/gtest.h>

#include "checklists/whole_case.h"
#include "data/reading/hashing.h"
#include "tests/published/healthy_case.h"
#include "tests/published/rows.h"

namespace foreday::tests {
namespace {

using namespace screening;
using checklists::RestartProposal;

const Rules& rules()
{
    static const Rules read = real_rules();
    return read;
}

Exact clearance_of(const Row& row)
{
    const std::string& band = row.at("clearance");
    return band == "<50" ? Exact{40} : Exact{60};
}

/// Everything agreed by the endoscopist, and done at 08:40 on the day: looked at only, or with a polyp
/// removed.
std::optional<RestartProposal> proposed(const Row& row)
{
    const std::string& medicine = row.at("medicine");
    CaseRecord record = healthy_case(rules(), {.risk = BleedingRisk::high,
                                               .clearance = clearance_of(row),
                                               .medicines = {medicine},
                                               .yes = {},
                                               .dates = {},
                                               .measures = {},
                                               .intake = {}});
    record.medicines.closed->at = record.booking.start_moment - date::days{1};  // gone through again
    Decision agreed;
    agreed.item = "hold:" + record.medicines.items.front().id;
    agreed.who = "Dr Invented";
    agreed.when = call_moment(rules());
    record.decisions.push_back(agreed);
    record.done = record.booking.start_moment + std::chrono::minutes{40};
    record.done_procedures = {find_procedure(rules().protocol, "colonoscopy").value()};
    if (row.at("bleeding_risk_as_done") == "high") {
        record.done_procedures.push_back(find_procedure(rules().protocol, "polypectomy").value());
        std::ranges::sort(record.done_procedures);
    }
    return checklists::look_at(rules(), record, *record.done, data::sha256_hex).restart_proposals.front();
}

TEST(PublishedRestart, EveryRowIsKept)
{
    for (const Row& row : published_rows("restart.tsv")) {
        SCOPED_TRACE(row.at("id") + ", " + row.at("medicine") + " after " + row.at("bleeding_risk_as_done"));
        const auto proposal = proposed(row);
        if (row.at("earliest_days") == "none") {
            EXPECT_FALSE(proposal) << "the text gives no day";
            continue;
        }
        ASSERT_TRUE(proposal);
        EXPECT_EQ(proposal->earliest, procedure_day() + date::days{std::stoi(row.at("earliest_days"))});
        const std::string& latest = row.at("latest_days");
        EXPECT_EQ(proposal->latest.has_value(), latest != "-");
        if (proposal->latest && latest != "-") {
            EXPECT_EQ(*proposal->latest, procedure_day() + date::days{std::stoi(latest)});
        }
        EXPECT_TRUE(proposal->endoscopist_decides);
        EXPECT_EQ(proposal->sure, is_reported(row) ? HowSure::reported : HowSure::published);
    }
}

TEST(PublishedRestart, NothingIsProposedBeforeTheProcedureIsDoneOrWithoutAnybodysAgreement)
{
    CaseRecord record = healthy_case(rules(), {.risk = BleedingRisk::high,
                                               .clearance = Exact{100},
                                               .medicines = {"apixaban"},
                                               .yes = {},
                                               .dates = {},
                                               .measures = {},
                                               .intake = {}});
    const auto proposal = [&] {
        return checklists::look_at(rules(), record, record.booking.start_moment, data::sha256_hex)
            .restart_proposals.front();
    };
    EXPECT_FALSE(proposal());
    record.done = record.booking.start_moment;
    EXPECT_FALSE(proposal()) << "nobody agreed to the pause";
}

}  // namespace
}  // namespace foreday::tests
