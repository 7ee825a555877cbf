#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <ranges>

#include "tests/present/phone_call.h"
#include "tests/support/rows.h"

/// What a nurse is offered for a name as it was misheard or misspelt. misheard.tsv was written by hand by
/// somebody who had not read the look-up: common practice, no source. no_medicine.tsv is what else is said on
/// such a call.
namespace foreday::tests {
namespace {

constexpr const char* folder = FOREDAY_SOURCE_DIR "/tests/present/";

struct Tally {
    int asked = 0;
    int first = 0;
    int among_three = 0;
    int offered = 0;
    std::string missed;
};

double percent(int part, int whole)
{
    constexpr double hundred = 100.0;
    return hundred * part / whole;
}

class MisheardOnThePhone : public AtWork {
protected:
    void SetUp() override { begin_with_a_booking(); }
};

TEST_F(MisheardOnThePhone, TheMedicineMeantIsOfferedAndNearlyAlwaysFirst)
{
    present::Workplace& place = sit(nurse, begin_with_a_booking());
    const present::PhoneDesk desk(place);
    std::map<std::string, Tally> kinds;
    Tally all;
    for (const Row& row : read_rows(std::string(folder) + "misheard.tsv")) {
        const auto offered = desk.candidates(row.at("heard"));
        const auto is_meant = [&](const present::MeantMedicine& one) { return one.id == row.at("medicine"); };
        const bool first = !offered.empty() && is_meant(offered.front());
        const bool found = std::ranges::any_of(offered, is_meant);
        const bool near_the_top = std::ranges::any_of(offered | std::views::take(3), is_meant);
        for (Tally* tally : {&kinds[row.at("how")], &all}) {
            ++tally->asked;
            tally->first += first ? 1 : 0;
            tally->among_three += near_the_top ? 1 : 0;
            tally->offered += found ? 1 : 0;
            tally->missed += found ? "" : row.at("heard") + " for " + row.at("medicine") + "; ";
        }
    }
    // Measured on 30 November 2026: 465 rows, first in 97.6 of 100, among the first three in 97.8. The list
    // was committed before the look-up was changed for it; before, both were 94.
    constexpr double nearly_always = 97.0;
    constexpr double mostly = 90.0;
    constexpr double what_a_machine_makes_of_it = 70.0;  // "who mirror" for adalimumab
    const std::map<std::string, double> least{{"letter dropped", nearly_always},
                                              {"letter doubled", nearly_always},
                                              {"letters swapped", nearly_always},
                                              {"wrong letter", nearly_always},
                                              {"two words", nearly_always},
                                              {"brand misspelt", nearly_always},
                                              {"by sound", mostly},
                                              {"syllable lost", mostly},
                                              {"accent", mostly},
                                              {"speech recognition", what_a_machine_makes_of_it}};
    ASSERT_EQ(least.size(), kinds.size());
    for (const auto& [how, tally] : kinds) {
        EXPECT_GE(tally.asked, 30) << how;
        EXPECT_GE(percent(tally.first, tally.asked), least.at(how)) << how << ": " << tally.missed;
    }
    EXPECT_GE(percent(all.first, all.asked), mostly);
    EXPECT_GE(percent(all.among_three, all.asked), nearly_always) << all.missed;
}

TEST_F(MisheardOnThePhone, WhatIsNoMedicineOffersNothing)
{
    present::Workplace& place = sit(nurse, begin_with_a_booking());
    const present::PhoneDesk desk(place);
    int quiet = 0;
    const auto rows = read_rows(std::string(folder) + "no_medicine.tsv");
    std::string offered_for;
    for (const Row& row : rows) {
        const auto offered = desk.candidates(row.at("words"));
        quiet += offered.empty() ? 1 : 0;
        offered_for += offered.empty() ? "" : row.at("words") + ": " + offered.front().words + "; ";
    }
    ASSERT_GE(rows.size(), 100U);
    EXPECT_EQ(quiet, static_cast<int>(rows.size())) << offered_for;
}

}  // namespace
}  // namespace foreday::tests
