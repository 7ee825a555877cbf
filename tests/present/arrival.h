#pragma once
#include <string>

#include "data/book/playing.h"
#include "gui/present/arrival_desk.h"
#include "tests/present/at_work.h"

namespace foreday::tests {

/// The morning of 15 June 2027. The session is at 09:30, and warfarin was left out from 10 June on as agreed.
class OnTheDay : public AtWork {
protected:
    static constexpr const char* demo_case = "arriving_with_everything_right.yaml";

    /// 08:05, at the door. What a phone call has to ask again was asked the evening before.
    std::string begin_at_the_door()
    {
        return begin_with("at the door", [](Desk& desk) {
            std::string id = desk.play_case_up_to_the_day(demo_case);
            const auto arrives = desk.book().now();
            desk.set_clock("2027-06-14T17:00");
            book::ask_again_what_is_old(desk.book(), nurse, id);
            desk.set_clock(arrives);
            return id;
        });
    }

    /// 08:30, here, and everything of the checklist is as it should be.
    std::string begin_ready()
    {
        begin_at_the_door();
        return begin_after("at the door", "ready", [](const std::string& id) {
            present::Workplace& place = sit(nurse, id);
            present::ArrivalDesk desk(place);
            EXPECT_TRUE(desk.receive());
            set_clock("2027-06-15T08:30");
            show_everything(desk, "1.2");
            EXPECT_TRUE(desk.record_intake({0, "06:20", "last glass of the preparation"}));
            EXPECT_TRUE(desk.record_intake({1, "2027-06-14 12:30", "toast"}));
            EXPECT_TRUE(desk.record_nothing_else());
            EXPECT_TRUE(desk.record_dose_taken("m1", "2027-06-09 18:00")) << place.notice().words;
        });
    }

    /// Every item confirmed, everything measured and as it should be, but for the INR.
    static void show_everything(present::ArrivalDesk& desk, const std::string& inr)
    {
        for (const present::ChecklistView& view : desk.checklist()) {
            if (view.control == present::ChecklistView::Control::confirm) {
                EXPECT_TRUE(desk.confirm(view.id, true)) << view.title;
            }
        }
        const std::vector<std::pair<std::string, std::string>> values{
            {"inr_below_limit", inr},
            {"upper_pressure_not_too_high", "132"},
            {"lower_pressure_not_too_high", "78"},
            {"pulse_in_range", "72"},
            {"oxygen_enough", "97%"},
            {"no_fever", "98.1 F"},
        };
        for (const auto& [of, typed] : values) {
            if (!typed.empty()) {
                EXPECT_TRUE(desk.measure(of, typed)) << of;
            }
        }
    }

    static present::ChecklistView item(const present::ArrivalDesk& desk, const std::string& id)
    {
        for (const present::ChecklistView& view : desk.checklist()) {
            if (view.id == id) {
                return view;
            }
        }
        ADD_FAILURE() << id << " is not on the checklist";
        return {};
    }
};

}  // namespace foreday::tests
