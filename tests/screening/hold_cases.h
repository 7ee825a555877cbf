#pragma once
#include <string_view>

#include "screening/hold_plan.h"
#include "tests/screening/builders.h"

/// Cases that tests of holds begin with.
namespace foreday::screening::build {

/// Apixaban at 08:00 and 20:00 before Thursday 17 June 2027 at 09:00, seen on 1 June.
inline TinyCase on_apixaban()
{
    TinyCase tiny;
    tiny.take("m1", "apixaban", daily({"08:00", "20:00"}));
    return tiny;
}

/// Ibuprofen (not marked) with the same times.
inline TinyCase on_ibuprofen()
{
    TinyCase tiny;
    tiny.take("m1", "ibuprofen", daily({"08:00", "20:00"}));
    return tiny;
}

/// A medicine whose two rules hang on fact "a": two days when no, `otherwise` when yes.
inline TinyCase two_ways(HoldAction otherwise, int number)
{
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("good_kidneys", {"apixaban"}, HoldAction::omit_days, Exact{2}).when = tiny.is("a", false);
    tiny.hold_rule("weak_kidneys", {"apixaban"}, otherwise, Exact{number}).when = tiny.is("a");
    return tiny;
}

/// Apixaban with one rule, no dose for two days: the last is on Monday 14 June at 20:00.
inline TinyCase apixaban_two_days(std::string_view now)
{
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("bleeding", {"apixaban"}, HoldAction::omit_days, Exact{2});
    tiny.now = utc(now);
    return tiny;
}

/// Where a plan is laid out: Thursday 17 June 2027 at 09:00 on clocks that never change, unless told
/// otherwise.
struct Setting {
    Zone zone = fixed_zone();
    std::string start = "2027-06-17T09:00";  // a Thursday

    [[nodiscard]] HoldPlan plan(const Pattern& pattern, HoldAction action, const Exact& number = 0) const
    {
        const HoldSetting setting{zone, pattern, wall(start), moment_of(zone, wall(start))};
        return lay_out(action, number, {}, setting);
    }
};

inline HoldPlan plan(const Pattern& pattern, HoldAction action, const Exact& number = 0)
{
    return Setting{}.plan(pattern, action, number);
}

}  // namespace foreday::screening::build
