#include "checklists/judged_at.h"

#include <algorithm>

namespace foreday::checklists {

screening::Moment judged_at(const CaseFile& file, screening::Moment now)
{
    screening::Moment at = now;
    if (file.gone_in) {
        at = std::min(at, *file.gone_in);
    } else if (file.record.done) {
        at = std::min(at, *file.record.done);
    }
    if (file.ending) {
        at = std::min(at, file.ending->when);
    }
    return at;
}

}  // namespace foreday::checklists
