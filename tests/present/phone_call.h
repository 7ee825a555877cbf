#pragma once
#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "gui/present/phone_desk.h"
#include "tests/book/journal.h"
#include "tests/present/at_work.h"

namespace foreday::tests {

/// The question about a fact as it is shown, in whatever section; empty: it is not asked.
[[nodiscard]] inline std::optional<present::QuestionView> question_about(const present::PhoneDesk& desk,
                                                                         std::string_view fact_id)
{
    for (const present::SectionView& section : desk.sections()) {
        for (const present::QuestionView& view : desk.questions(section.name)) {
            if (view.fact == fact(fact_id)) {
                return view;
            }
        }
    }
    return std::nullopt;
}

[[nodiscard]] inline bool is_asked(const present::PhoneDesk& desk, std::string_view fact_id)
{
    return question_about(desk, fact_id).has_value();
}

/// What stands under the question about a fact; "(not asked for)" where it does not apply.
[[nodiscard]] inline std::string stands(const present::PhoneDesk& desk, std::string_view fact_id)
{
    const auto view = question_about(desk, fact_id);
    return view ? view->stands : "(not asked for)";
}

/// The id of the question about a fact, by which desks are told of it.
[[nodiscard]] inline std::string fact_id_of(screening::FactIndex place)
{
    return demo_rules().protocol.facts.at(place).id;
}

/// A medicine taken every day at eight, as it is typed.
[[nodiscard]] inline present::MedicineForm daily(const std::string& medicine, const std::string& heard = "")
{
    present::MedicineForm form;
    form.medicine = medicine;
    form.heard = heard.empty() ? medicine : heard;
    form.times = "08:00";
    return form;
}

inline void mark_every_list_question(present::PhoneDesk& desk)
{
    for (std::size_t place = 0; place < desk.list_questions().size(); ++place) {
        desk.mark_asked(place, true);
    }
}

}  // namespace foreday::tests
