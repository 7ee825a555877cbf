#include "data/reading/medicine_names.h"

#include "data/reading/folding.h"

namespace foreday::data {

screening::LookupIndex medicine_names(const screening::Protocol& protocol)
{
    using Kind = screening::LookupName::Kind;
    std::vector<screening::LookupName> names;
    for (const screening::MedicineDefinition& medicine : protocol.medicines) {
        names.push_back({fold(medicine.generic), medicine.generic, medicine.id, Kind::generic});
        for (const std::string& name : medicine.names) {
            names.push_back({fold(name), name, medicine.id, Kind::brand});
        }
    }
    return screening::make_lookup_index(std::move(names));
}

}  // namespace foreday::data
