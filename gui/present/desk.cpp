#include "gui/present/desk.h"

namespace foreday::present {

std::string_view name_of(Desk desk)
{
    switch (desk) {
        case Desk::phone:
            return "phone desk";
        case Desk::review:
            return "review desk";
        case Desk::arrival:
            return "arrival desk";
    }
    return "";
}

Desk home_desk(screening::Role role)
{
    if (screening::is_clinician(role)) {
        return Desk::review;
    }
    return role == screening::Role::arrival_clerk ? Desk::arrival : Desk::phone;
}

}  // namespace foreday::present
