#pragma once
#include <string_view>

namespace foreday::screening {

/// Whether a folded word is one that people say on such a call and that is no name of a medicine: days and
/// meals, family, parts of the body, illnesses, what a medicine is for, what was eaten. Such a word may
/// begin a name or stand beside one; it is never taken for a misheard one. Common practice, no source.
[[nodiscard]] bool is_everyday_word(std::string_view folded);

}  // namespace foreday::screening
