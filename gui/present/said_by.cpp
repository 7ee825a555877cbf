#include "gui/present/said_by.h"

namespace foreday::present {

using screening::Informant;

const std::vector<Informant>& informants_on_the_line()
{
    static const std::vector<Informant> all{Informant::patient, Informant::relative, Informant::care_home,
                                            Informant::letter, Informant::staff};
    return all;
}

std::string in_words(Informant informant)
{
    switch (informant) {
        case Informant::patient:
            return "the patient";
        case Informant::relative:
            return "a relative";
        case Informant::care_home:
            return "a nurse of the care home";
        case Informant::letter:
            return "a letter or result";
        case Informant::booking:
            return "the booking";
        case Informant::staff:
            return "staff of the unit";
    }
    return "";
}

}  // namespace foreday::present
