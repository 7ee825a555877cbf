#pragma once
#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

#include "checklists/case_file.h"
#include "screening/record.h"

/// What closed lists are called in payloads. These names stand in books for ever, so they are kept apart from
/// those of case files and screens, which may change.
namespace foreday::book {

inline constexpr std::array<std::string_view, 3> why_not_known_names{"does not know", "would not say",
                                                                     "could not be measured"};
inline constexpr std::array<std::string_view, 6> informant_names{"patient", "relative", "care home",
                                                                 "letter",  "booking",  "staff"};
inline constexpr std::array<std::string_view, 3> strength_names{"said", "document", "measured"};
inline constexpr std::array<std::string_view, 3> origin_names{"this case", "earlier case", "import"};
inline constexpr std::array<std::string_view, 4> decision_answer_names{"agree", "change", "ask outside",
                                                                       "not go ahead"};
inline constexpr std::array<std::string_view, 6> try_outcome_names{
    "reached", "no answer", "message left", "wrong number", "rang in", "ended for an emergency"};
/// By the alternatives of screening::Pattern.
inline constexpr std::array<std::string_view, 7> pattern_names{"not known", "daily",     "weekdays",  "every",
                                                               "monthly",   "as needed", "continuous"};
/// By the alternatives of StatedValue.
inline constexpr std::array<std::string_view, 6> value_names{"yes_no", "choice", "number",
                                                             "dates",  "times",  "text"};

template <class Enum>
struct PayloadNames;
#define FOREDAY_PAYLOAD_NAMES(Enum, list)          \
    template <>                                    \
    struct PayloadNames<Enum> {                    \
        static constexpr const auto& names = list; \
    }
FOREDAY_PAYLOAD_NAMES(screening::WhyNotKnown, why_not_known_names);
FOREDAY_PAYLOAD_NAMES(screening::Informant, informant_names);
FOREDAY_PAYLOAD_NAMES(screening::Strength, strength_names);
FOREDAY_PAYLOAD_NAMES(screening::Origin, origin_names);
FOREDAY_PAYLOAD_NAMES(screening::DecisionAnswer, decision_answer_names);
FOREDAY_PAYLOAD_NAMES(checklists::TryOutcome, try_outcome_names);
#undef FOREDAY_PAYLOAD_NAMES

/// The trade's own vocabulary is closed already; its names are those of all files.
inline std::string_view payload_name(screening::Role role)
{
    return screening::name_of(role);
}
inline std::string_view payload_name(screening::Level level)
{
    return screening::name_of(level);
}
inline std::string_view payload_name(screening::Topic topic)
{
    return screening::name_of(topic);
}
template <class Enum>
std::string_view payload_name(Enum value)
{
    return PayloadNames<Enum>::names.at(static_cast<std::size_t>(value));
}

inline bool find_payload_name(std::string_view name, screening::Role& role)
{
    const auto found = screening::find_role(name);
    role = found.value_or(role);
    return found.has_value();
}
inline bool find_payload_name(std::string_view name, screening::Level& level)
{
    const auto found = screening::find_level(name);
    level = found.value_or(level);
    return found.has_value();
}
inline bool find_payload_name(std::string_view name, screening::Topic& topic)
{
    const auto found = screening::find_topic(name);
    topic = found.value_or(topic);
    return found.has_value();
}
template <class Enum>
bool find_payload_name(std::string_view name, Enum& value)
{
    const auto& names = PayloadNames<Enum>::names;
    for (std::size_t place = 0; place < names.size(); ++place) {
        if (names[place] == name) {
            value = static_cast<Enum>(place);
            return true;
        }
    }
    return false;
}

}  // namespace foreday::book
