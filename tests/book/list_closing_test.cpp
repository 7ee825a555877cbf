#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "data/book/verbs_phone.h"
#include "tests/book/desk.h"

namespace foreday::tests {
namespace {

using book::Refusal;
using ::testing::HasSubstr;

/// A case whose medicine list has been opened again.
std::string open_list(Desk& desk)
{
    std::string id = desk.play_case("nothing_to_ask.yaml");
    const auto open = book::reopen_list(desk.book(), nurse, desk.on(id), "a new inhaler");
    if (!open) {
        throw std::runtime_error(book::in_words(open.error()));
    }
    return id;
}

TEST(ClosingTheList, IsRefusedWhileAnyOneKindWasNotAskedByName)
{
    Desk desk;
    const std::string id = open_list(desk);
    const book::ListClosed whole = whole_list();
    ASSERT_GT(whole.gone_through.size(), 1U);
    for (std::size_t left_out = 0; left_out < whole.gone_through.size(); ++left_out) {
        book::ListClosed said = whole;
        said.gone_through.erase(said.gone_through.begin() + static_cast<std::ptrdiff_t>(left_out));
        const auto refused = book::close_list(desk.book(), nurse, desk.on(id), said);
        ASSERT_FALSE(refused) << whole.gone_through[left_out];
        EXPECT_EQ(refused.error().why, Refusal::Why::not_possible);
        EXPECT_THAT(refused.error().what, HasSubstr(demo_rules().protocol.list_questions[left_out].words));
    }
    EXPECT_FALSE(desk.now(id).record().medicines.closed);
}

TEST(ClosingTheList, IsRefusedForAQuestionTheProtocolDoesNotHave)
{
    Desk desk;
    const std::string id = open_list(desk);
    book::ListClosed said = whole_list();
    said.gone_through.emplace_back("herbs_of_the_moon");
    const auto refused = book::close_list(desk.book(), nurse, desk.on(id), said);
    ASSERT_FALSE(refused);
    EXPECT_THAT(refused.error().what, HasSubstr("herbs_of_the_moon"));
}

TEST(ClosingTheList, IsDoneWhenEveryKindWasAskedInWhateverOrder)
{
    Desk desk;
    const std::string id = open_list(desk);
    book::ListClosed said = whole_list();
    std::ranges::reverse(said.gone_through);
    const auto closed = book::close_list(desk.book(), nurse, desk.on(id), said);
    ASSERT_TRUE(closed) << book::in_words(closed.error());
    EXPECT_TRUE(closed->record().medicines.closed);
}

}  // namespace
}  // namespace foreday::tests
