#include "screening/preparation.h"

namespace foreday::screening {

std::chrono::minutes length_of(const Portion& portion)
{
    std::chrono::minutes length{0};
    for (const PortionStep& step : portion.steps) {
        length += step.every * step.times;
    }
    return length;
}

}  // namespace foreday::screening
