#include "screening/medicine.h"

#include <algorithm>

namespace foreday::screening {

bool matches(const MedicineDefinition& medicine, MedicineIndex place, const std::vector<ClassIndex>& classes,
             const std::vector<MedicineIndex>& medicines)
{
    return std::ranges::binary_search(medicines, place) ||
           std::ranges::any_of(medicine.classes,
                               [&](ClassIndex one) { return std::ranges::binary_search(classes, one); });
}

ListState list_state(const MedicineList& list, Moment now, date::days at_most)
{
    if (!list.closed) {
        return ListState::never_closed;
    }
    const bool import_added = std::ranges::any_of(list.items, [&](const MedicineItem& item) {
        return item.origin == Origin::import && item.at > list.closed->at;
    });
    if (import_added) {
        return ListState::reopened_by_import;
    }
    return now - list.closed->at > at_most ? ListState::older_than_allowed : ListState::closed;
}

}  // namespace foreday::screening
