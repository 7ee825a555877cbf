#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "screening/preparation.h"
#include "screening/readiness_rule.h"

namespace foreday::screening {

/// A document that something rests on.
struct Source {
    std::string id;
    std::string title;
    std::string by;     ///< society or authors
    std::string where;  ///< journal or publisher with volume and pages, or DOI
    int year = 0;
};

/// Parameters the engine itself needs, by their place in Protocol::parameters.
struct EngineParameters {
    ParameterIndex list_closed_days = 0;        ///< how long a closed medicine list stays closed
    ParameterIndex clear_liquid_hours = 0;      ///< clear liquids end so long before the start
    ParameterIndex preferred_second_start = 0;  ///< minutes before the start of the procedure
    ParameterIndex evening_start = 0;           ///< time of day of the first portion
    ParameterIndex usual_journey = 0;           ///< minutes
    ParameterIndex bathroom_margin = 0;         ///< minutes between the end of a portion and leaving home
    ParameterIndex arrive_before = 0;           ///< minutes before the start the patient is to be there
    ParameterIndex clearance_days = 0;          ///< how long a clearance lasts
    ParameterIndex phone_hours = 0;             ///< working hours the unit needs to phone a decision
    ParameterIndex first_call_days = 0;  ///< the first call is due so long before the day of the session
};

/// Asked by name before a medicine list is said to be complete: a kind of medicine that patients forget.
struct ListQuestion {
    std::string id;
    std::string words;  ///< to say
};

/// The content, already validated by its reader; every vector is sorted by id where it has ids.
struct Protocol {
    std::string version;
    std::vector<Source> sources;
    std::vector<Parameter> parameters;
    std::vector<PolicyQuestion> policy_questions;
    std::vector<std::string> sections;         ///< of the phone call, in their order
    std::vector<ListQuestion> list_questions;  ///< in the order in which they are asked
    std::vector<FactDefinition> facts;
    CalculatorBinding calculators;
    std::vector<MedicineClass> classes;
    std::vector<MedicineDefinition> medicines;
    std::vector<Procedure> procedures;
    std::vector<FindingRule> findings;
    std::vector<HoldRule> holds;
    std::vector<Preparation> preparations;
    std::vector<ReadinessRule> readiness;
    EngineParameters engine;
    FactIndex journey_fact = 0;          ///< minutes from home
    FactIndex diagnostic_only_fact = 0;  ///< yes/no: the endoscopist has said that nothing will be removed
};

/// Working hours and days of a unit.
struct Calendar {
    TimeOfDay opens{0};
    TimeOfDay closes{0};
    std::vector<unsigned> working_weekdays;  ///< ISO 1..7, ascending
    std::vector<Date> holidays;              ///< ascending
};

/// A clinician's confirmation of something that rests on memory or common practice.
struct Confirmation {
    std::string item;  ///< id of a rule, preparation, parameter or policy option
    std::string by;
    Role role = Role::medical_director;
    Date on;
};
struct StandingOrder {
    std::vector<std::string> holds;  ///< ids of hold rules nurses may instruct
    std::string director;
    Date from;
    Date until;  ///< last day it is in force
};

/// The unit's answers on the protocol; resolved against it.
struct UnitPolicy {
    std::string unit;
    Calendar calendar;
    std::vector<ParameterValue> parameters;   ///< one for each of Protocol::parameters
    std::vector<std::uint32_t> options;       ///< chosen option of each policy question
    std::vector<Confirmation> confirmations;  ///< sorted by item
    std::vector<StandingOrder> standing_orders;
    std::vector<PreparationIndex> preparation_order;  ///< the unit's own order of preference
    std::map<Topic, std::vector<Role>> may_agree;     ///< topic × role; complete
};

/// Everything an assessment is computed from besides the case. Immutable.
struct Rules {
    Protocol protocol;
    UnitPolicy policy;
    Zone zone;
};

/// Whether a hold rule is about a medicine, by its name or by a class it is in. Its condition and the unit's
/// policy are another matter.
[[nodiscard]] bool speaks_about(const HoldRule& rule, MedicineIndex medicine, const Protocol& protocol);

/// Rank of a figure under this unit's policy: published, reported and unit policy stand; the other two
/// become `unit policy` once confirmed.
[[nodiscard]] HowSure rank_in(const UnitPolicy& policy, const std::string& id, HowSure sure);

/// A parameter's or literal's number in this unit.
[[nodiscard]] Exact number_of(const Limit& limit, const UnitPolicy& policy);
[[nodiscard]] std::chrono::minutes minutes_of(ParameterIndex parameter, const Protocol& protocol,
                                              const UnitPolicy& policy);

/// Places by id; empty when there is none.
[[nodiscard]] std::optional<FactIndex> find_fact(const Protocol& protocol, std::string_view id);
[[nodiscard]] std::optional<MedicineIndex> find_medicine(const Protocol& protocol, std::string_view id);
[[nodiscard]] std::optional<ClassIndex> find_class(const Protocol& protocol, std::string_view id);
[[nodiscard]] std::optional<PreparationIndex> find_preparation(const Protocol& protocol, std::string_view id);
[[nodiscard]] std::optional<ProcedureIndex> find_procedure(const Protocol& protocol, std::string_view id);
[[nodiscard]] std::optional<ParameterIndex> find_parameter(const Protocol& protocol, std::string_view id);

}  // namespace foreday::screening
