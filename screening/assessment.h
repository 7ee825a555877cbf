#pragma once
#include <optional>
#include <string>
#include <vector>

#include "screening/record.h"

namespace foreday::screening {

enum class ItemState : std::uint8_t { fired, open };

/// Why a fact leaves something open.
enum class OpenWhy : std::uint8_t {
    not_asked,
    not_known,
    in_conflict,
    unconfirmed,
    past_its_age,
    inexact,
    not_applicable,
    list_not_closed,
    unrecognised_medicine,
    not_known_what_was_ordered,
};
[[nodiscard]] std::string_view name_of(OpenWhy why);

/// What would settle an open item: a fact by its id, or "medicine list", or "preparation ordered".
struct OpenOn {
    std::string fact;
    OpenWhy why = OpenWhy::not_asked;
    auto operator<=>(const OpenOn&) const = default;
};

/// One piece of the ground an item stands on.
struct Ground {
    std::string what;   ///< fact, calculator, "medicine list", "booking"
    std::string value;  ///< as words
    std::string who;    ///< who said so, how, when; may be empty
    auto operator<=>(const Ground&) const = default;
};

/// What findings and holds have in common.
struct Item {
    std::string id;    ///< "finding:ID", "preparation:PREPARATION:ID" or "hold:MEDICINE ITEM"
    std::string rule;  ///< id of the rule that decided
    Level level = Level::note;
    ItemState state = ItemState::fired;
    bool on_unconfirmed = false;  ///< fired, but only on a value nobody has confirmed in this case
    Topic topic = Topic::record;
    Hazard hazard = Hazard::wrong_patient;
    bool now = false;
    std::string title;
    std::string reading;
    std::vector<Ground> because;  ///< sorted
    std::vector<OpenOn> open_on;  ///< sorted
    std::vector<SourceUse> sources;
    HowSure sure = HowSure::from_memory;
    std::vector<Role> who;
    std::string meanwhile;
    std::string now_words;
    std::string fingerprint_bytes;  ///< canonical; hashed in data/
};

enum class DayOf : std::uint8_t { take, sip, omit, nothing_due };
[[nodiscard]] std::string_view name_of(DayOf day_of);

/// What one action means on this patient's own dosing times.
struct HoldPlan {
    HoldAction action = HoldAction::ask_first;
    std::optional<Exact> number;  ///< days or hours
    std::vector<DoseCondition> conditions;
    std::optional<Dose> last_dose;    ///< before the procedure; empty: no date is given
    std::optional<Date> none_from;    ///< as needed and without schedule: none from this day on
    std::vector<Date> dates_omitted;  ///< whole days without a dose, the procedure day not among them
    std::optional<DayOf> day_of;      ///< empty: no date is given
    std::optional<int> doses_missed;  ///< scheduled doses strictly between last dose and start
    std::optional<Dose> next_dose;    ///< interval dosing: when a left-out dose is next taken
    bool operator==(const HoldPlan&) const = default;
};

/// Another outcome shown beside the hold: of another policy option, or still possible while open.
struct HoldOption {
    std::string label;  ///< policy option or rule
    std::string rule;
    HoldPlan plan;
};

enum class HoldWarning : std::uint8_t {
    too_late,
    stopped_too_early,
    not_as_told,
    shorter_than_told,
    no_date_until_confirmed
};
[[nodiscard]] std::string_view name_of(HoldWarning warning);

struct Hold {
    Item item;
    std::string medicine_item;  ///< MedicineItem::id
    std::string medicine;       ///< generic name, or the words as heard
    bool marked = false;
    HoldPlan plan;
    bool needs_agreement = false;
    std::vector<HoldWarning> warnings;       ///< sorted
    std::vector<HoldOption> options;         ///< still possible while open
    std::vector<HoldOption> other_policies;  ///< what the other options of policy questions would give
    std::vector<std::string> beneath;        ///< rules that fired and ask for less, sorted by id
    std::vector<std::string> pulling_apart;  ///< the rules that cannot both be followed, sorted
    std::string published_fraction;
};

/// How one preparation stands for this patient.
struct PreparationStanding {
    PreparationIndex preparation = 0;
    std::vector<Item> against;   ///< fired limits of level ask or stop
    std::vector<Item> cautions;  ///< fired limits of level note or act
    std::vector<Item> open;      ///< limits that may yet fire, level ask or stop
};

struct OpenQuestion {
    std::string fact;
    FactState state = FactState::not_known;
    OpenWhy why = OpenWhy::not_known;
    std::vector<std::string> would_settle;  ///< item ids, sorted
};

/// Everything at once. Same input, same bytes.
struct Assessment {
    Moment at;
    std::vector<Item> findings;  ///< by level (stop first), topic, id
    std::vector<Hold> holds;     ///< by the order of the list
    std::vector<PreparationStanding>
        preparations;                          ///< by PreparationIndex; empty when no bowel plan is needed
    std::vector<OpenQuestion> open_questions;  ///< asked and still open
    std::vector<std::pair<std::string, int>> not_asked;  ///< applicable questions not asked, by section
    std::vector<FactReading> readings;                   ///< by FactIndex
    BleedingRisk bleeding_risk = BleedingRisk::high;
    bool in_scope = true;  ///< adult, and procedures this protocol has plans for
};

/// The whole of screening: pure and total.
[[nodiscard]] Assessment assess(const Rules& rules, const CaseRecord& record, Moment now);

}  // namespace foreday::screening
