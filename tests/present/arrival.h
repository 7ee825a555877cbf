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
        return begin_with("ready", [](Desk& desk) {
            std::string id = desk.play_case(demo_case);
            book::ask_again_what_is_old(desk.book(), nurse, id);
            return id;
        });
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
