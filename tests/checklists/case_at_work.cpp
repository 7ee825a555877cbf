#include "tests/checklists/case_at_work.h"

#include <algorithm>

namespace foreday::checklists::build {

CaseAtWork::CaseAtWork()
{
    work.booked_at = at("2027-05-03T09:00-04:00");
    // What is left is one question a fact, so that a test can count them.
    rules.protocol.facts[fact("inr_today")].scope = screening::FactScope::day;
    answer("worry", false);
}

CaseFile CaseAtWork::file() const
{
    CaseFile all = work;
    all.record = record;
    return all;
}

std::vector<Call> CaseAtWork::calls() const
{
    return calls_of(rules, file(), look(), hash);
}

std::optional<Call> CaseAtWork::call(CallKind kind) const
{
    const auto all = calls();
    const auto found = std::ranges::find(all, kind, &Call::kind);
    return found == all.end() ? std::nullopt : std::optional{*found};
}

Strands CaseAtWork::strands() const
{
    return strands_of(rules, file(), look(), now, hash);
}

void CaseAtWork::tell(std::string_view iso, std::string sheet)
{
    work.tellings.push_back({at(iso), "Nurse Example", std::move(sheet), true});
}

void CaseAtWork::tell_hold(std::string_view item, std::string_view iso, std::string_view last_dose)
{
    record.told.push_back({std::string{item}, at(iso), day(last_dose)});
    tell(iso);
}

void CaseAtWork::end(EndingKind kind, std::string_view iso)
{
    work.ending = Ending{kind, at(iso), "Nurse Example", "a fall"};
}

OutsideAsk& CaseAtWork::ask_outside(std::string item, std::string_view reply_by)
{
    const std::string id = "o" + std::to_string(work.outside_asks.size() + 1);
    return work.outside_asks.emplace_back(OutsideAsk{id,
                                                     std::move(item),
                                                     "how old the stent is",
                                                     "the cardiologist",
                                                     at("2027-06-10T09:00-04:00"),
                                                     day(reply_by),
                                                     {},
                                                     ""});
}

Restart& CaseAtWork::restart(std::string item, std::string_view iso)
{
    Restart one;
    one.item = std::move(item);
    one.when = at(iso);
    one.who = "Dr Example";
    one.words = "with the next meal";
    return work.restarts.emplace_back(std::move(one));
}

std::string span(const std::optional<Call>& call)
{
    return call ? text(call->due_from) + " .. " + text(call->useful_until) : "none";
}

CaseAtWork with_warfarin()
{
    CaseAtWork unit;
    unit.hold_rule("five days", "warfarin", screening::HoldAction::omit_days, screening::Exact{5});
    unit.take("m1", "warfarin", daily({"18:00"}));
    return unit;
}

CaseAtWork with_warfarin_told()
{
    CaseAtWork unit = with_warfarin();
    unit.decide("hold:m1").when = at("2027-06-10T10:00-04:00");
    unit.tell_hold("hold:m1", "2027-06-10T11:00-04:00", "2027-06-11");
    unit.look("2027-06-10T12:00-04:00");
    return unit;
}

}  // namespace foreday::checklists::build
