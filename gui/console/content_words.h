#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "screening/protocol.h"

/// Items of the protocol as blocks of lines that a clinician can read and sign.
namespace foreday::console {

/// "  label          text", the text wrapped under itself. Nothing for an empty text.
[[nodiscard]] std::string labelled(std::string_view label, const std::string& text);

/// A condition under its label, one comparison a line; "always" where nothing limits it.
[[nodiscard]] std::string condition_block(const screening::Condition& condition,
                                          const screening::Protocol& protocol,
                                          const screening::UnitPolicy& policy);

/// Sources with locators, and how sure the figure is in this unit.
[[nodiscard]] std::string sources_block(const std::vector<screening::SourceUse>& sources,
                                        screening::HowSure sure, const screening::Protocol& protocol);

/// What every rule says: its sentences, hazard, who, the words meanwhile, the sources.
[[nodiscard]] std::string head_block(const screening::RuleHead& head, const screening::Protocol& protocol,
                                     const screening::UnitPolicy& policy);

[[nodiscard]] std::string hold_block(const screening::HoldRule& rule, const screening::Protocol& protocol,
                                     const screening::UnitPolicy& policy);

/// The question with every option, which one holds in this unit and which one without an answer.
[[nodiscard]] std::string policy_block(const screening::PolicyQuestion& question, std::uint32_t chosen,
                                       const screening::Protocol& protocol);

[[nodiscard]] std::string medicine_block(const screening::MedicineDefinition& medicine,
                                         const screening::Protocol& protocol);

/// The hold rules that speak about a medicine, in the order of the protocol.
[[nodiscard]] std::vector<const screening::HoldRule*> rules_about(screening::MedicineIndex medicine,
                                                                  const screening::Protocol& protocol);

}  // namespace foreday::console
