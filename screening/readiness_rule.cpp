#include "screening/readiness_rule.h"

namespace foreday::screening {

std::string_view name_of(ReadinessKind kind)
{
    switch (kind) {
        case ReadinessKind::holds_the_patient:
            return "holds the patient";
        case ReadinessKind::needs_a_clinician:
            return "needs a clinician";
        case ReadinessKind::to_be_noted:
            return "to be noted";
    }
    return "";
}

}  // namespace foreday::screening
