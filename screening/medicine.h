#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "screening/dosing.h"
#include "screening/fact.h"

namespace foreday::screening {

using MedicineIndex = std::uint32_t;  ///< place in Protocol::medicines
using ClassIndex = std::uint32_t;     ///< place in Protocol::classes

/// A group of medicines that rules speak about.
struct MedicineClass {
    std::string id;
    std::string title;
    bool marked = false;  ///< no dose is omitted before someone who may has agreed
};

/// A generic medicine or a fixed combination.
struct MedicineDefinition {
    std::string id;
    std::string generic;
    std::vector<std::string> names;         ///< what patients call it
    std::vector<std::string> ingredients;   ///< generic names; several for a combination
    std::vector<ClassIndex> classes;        ///< ascending; a combination carries those of every component
    std::vector<std::string> mistaken_for;  ///< ids of medicines whose names are easily confused with it
    bool marked = false;                    ///< itself, or one of its classes, is marked
};

/// Whether a medicine of the protocol is one of those asked for.
[[nodiscard]] bool matches(const MedicineDefinition& medicine, MedicineIndex place,
                           const std::vector<ClassIndex>& classes,
                           const std::vector<MedicineIndex>& medicines);

/// One entry of the patient's list.
struct MedicineItem {
    std::string id;                         ///< unique in the case
    std::optional<MedicineIndex> medicine;  ///< empty: unrecognised, see `heard`
    std::string heard;                      ///< as said
    std::string dose;
    Pattern pattern;
    std::string prescriber;
    std::string reason;
    /// Last dose really taken. Empty: not known. `time` may be unknown for the day.
    std::optional<Dose> last_dose;
    Origin origin = Origin::this_case;
    Informant informant = Informant::patient;
    std::string who;
    Moment at;
};

/// The list as a whole. Only an answer closes it.
struct MedicineList {
    std::vector<MedicineItem> items;
    struct Closing {
        std::string by;
        Moment at;
    };
    std::optional<Closing> closed;  ///< complete, and the must-ask classes gone through by name
};

enum class ListState : std::uint8_t { closed, never_closed, reopened_by_import, older_than_allowed };

/// Whether the list counts as closed at `now`.
/// @param at_most  how long a closing lasts (a parameter of the unit)
[[nodiscard]] ListState list_state(const MedicineList& list, Moment now, date::days at_most);

}  // namespace foreday::screening
