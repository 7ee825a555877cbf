#pragma once
#include "screening/judge.h"

namespace foreday::screening {

/// Plans the hold of one recognised medicine of the list.
///
/// 1. Rules that speak about it (by class or by name, under the policy options in force) are judged.
/// 2. Among fired rules of one hazard and one direction the one that leaves most out (or takes most) is used.
/// 3. A rule that forbids a dose which another requires: `ask first`, no date, both shown.
///    `ask first` and `dose to be stated` always win.
/// 4. An open rule makes it `ask first`; every action still possible is listed, and only a last dose that
///    all of them share is proposed.
/// 5. No rule that fires or may fire: `ask first`; silence of the protocol is never "no hold needed".
[[nodiscard]] Hold plan_hold(const Judge& judge, const MedicineItem& item);

}  // namespace foreday::screening
