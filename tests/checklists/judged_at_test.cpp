#include "checklists/judged_at.h"

#include <gtest/gtest.h>

namespace foreday::tests {
namespace {

using checklists::CaseFile;
using screening::Moment;
using std::chrono::minutes;

const Moment nine = date::sys_days{date::year{2027} / 6 / 15} + std::chrono::hours{13};

TEST(JudgedAt, BeforeThePatientGoesInACaseIsJudgedNow)
{
    EXPECT_EQ(checklists::judged_at(CaseFile{}, nine), nine);
}

TEST(JudgedAt, AfterwardsAsItWasWhenThePatientWentIn)
{
    CaseFile file;
    file.gone_in = nine;
    file.record.done = nine + minutes{40};
    EXPECT_EQ(checklists::judged_at(file, nine - minutes{1}), nine - minutes{1});
    EXPECT_EQ(checklists::judged_at(file, nine), nine);
    EXPECT_EQ(checklists::judged_at(file, nine + minutes{1}), nine);
    EXPECT_EQ(checklists::judged_at(file, nine + date::days{30}), nine);
}

TEST(JudgedAt, ASessionThatEndedWithoutThemAsItWasThen)
{
    CaseFile file;
    file.ending = checklists::Ending{checklists::EndingKind::called_off, nine, "Nurse", "a fall"};
    EXPECT_EQ(checklists::judged_at(file, nine + minutes{1}), nine);
}

}  // namespace
}  // namespace foreday::tests
