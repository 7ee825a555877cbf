#pragma once
#include <string>

#include "data/book/contents_call.h"

namespace foreday::present {

/// Who is on the line, and through whom: it goes with every answer until it is changed.
struct SaidBy {
    screening::Informant informant = screening::Informant::patient;
    std::string who;          ///< name; may be empty
    std::string interpreter;  ///< name or number; empty: none
};

/// Those who may be on the line: the patient, a relative, a nurse of the care home, staff.
[[nodiscard]] const std::vector<screening::Informant>& informants_on_the_line();
[[nodiscard]] std::string in_words(screening::Informant informant);  ///< "the patient"

}  // namespace foreday::present
