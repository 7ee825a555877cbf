#include "tests/screening/builders.h"

#include <fmt/format.h>

#include <stdexcept>

namespace foreday::screening::build {
namespace {

template <class T>
T right(Result<T> result)
{
    if (!result) {
        throw std::invalid_argument("a slip in the test: " + result.error().what);
    }
    return *std::move(result);
}

Saying with(Saying saying, auto change)
{
    change(saying.answer);
    return saying;
}

}  // namespace

Date day(std::string_view iso)
{
    return right(parse_date(iso));
}
LocalMinute wall(std::string_view iso)
{
    return right(parse_written_time(iso)).local;
}
Moment utc(std::string_view iso)
{
    return moment_of(fixed_zone(), wall(iso));
}
TimeOfDay clock(std::string_view hour)
{
    return right(parse_time_of_day(hour));
}
Exact num(std::string_view text)
{
    return right(Exact::parse(text));
}

Zone fixed_zone(std::chrono::minutes offset)
{
    return {"Fixed", "by hand", "", {{Moment{}, offset}}};
}

Zone new_york_2027()
{
    const std::chrono::hours winter{-5};
    const std::chrono::hours summer{-4};
    return {"America/New_York",
            "by hand",
            "",
            {{utc("2026-11-01T06:00"), winter},
             {utc("2027-03-14T07:00"), summer},
             {utc("2027-11-07T06:00"), winter}}};
}

Value yes()
{
    return true;
}
Value no()
{
    return false;
}
Value number(std::string_view text)
{
    return NumberInterval{num(text), num(text)};
}
Value between(std::string_view lowest, std::string_view highest)
{
    return NumberInterval{num(lowest), num(highest)};
}
Value on(std::string_view date)
{
    return DateInterval{day(date), day(date)};
}
Value from_to(std::string_view earliest, std::string_view latest)
{
    return DateInterval{day(earliest), day(latest)};
}

Saying Saying::unseen() const
{
    return with(*this, [](Answer& one) { one.unseen = true; });
}
Saying Saying::measured() const
{
    return with(*this, [](Answer& one) {
        one.strength = Strength::measured;
        one.informant = Informant::staff;
    });
}
Saying Saying::in_a_letter() const
{
    return with(*this, [](Answer& one) {
        one.strength = Strength::dated_document;
        one.informant = Informant::letter;
    });
}
Saying Saying::in_a_letter(std::string_view dated) const
{
    return with(in_a_letter(), [&](Answer& one) { one.dated = day(dated); });
}
Saying Saying::imported() const
{
    return with(*this, [](Answer& one) { one.origin = Origin::import; });
}
Saying Saying::in_an_earlier_case() const
{
    return with(*this, [](Answer& one) { one.origin = Origin::earlier_case; });
}
Saying Saying::at(std::string_view moment) const
{
    return with(*this, [&](Answer& one) { one.at = utc(moment); });
}

Saying said(Value value)
{
    Saying saying;
    saying.answer.value = std::move(value);
    saying.answer.desk = "phone";
    saying.answer.at = utc("2027-06-01T12:00");
    return saying;
}

Saying does_not_know()
{
    Saying saying = said(no());
    saying.answer.value.reset();
    return saying;
}

Condition all(std::vector<Condition> children)
{
    Condition condition;
    condition.children = std::move(children);
    return condition;
}
Condition any(std::vector<Condition> children)
{
    Condition condition;
    condition.kind = Condition::Kind::any;
    condition.children = std::move(children);
    return condition;
}
Condition negated(Condition child)
{
    Condition condition;
    condition.kind = Condition::Kind::negation;
    condition.children.push_back(std::move(child));
    return condition;
}
Condition at_least(Limit count, std::vector<Condition> children)
{
    Condition condition;
    condition.kind = Condition::Kind::at_least;
    condition.count = count;
    condition.children = std::move(children);
    return condition;
}
Condition leaf(Comparison comparison)
{
    Condition condition;
    condition.kind = Condition::Kind::compare;
    condition.comparison = std::move(comparison);
    return condition;
}

Daily daily(std::initializer_list<std::string_view> times)
{
    Daily pattern;
    for (const std::string_view time : times) {
        pattern.times.push_back(clock(time));
    }
    return pattern;
}

std::vector<std::string> names_of(const std::vector<OpenOn>& open_on)
{
    std::vector<std::string> names;
    names.reserve(open_on.size());
    for (const OpenOn& open : open_on) {
        names.push_back(fmt::format("{}: {}", open.fact, name_of(open.why)));
    }
    return names;
}

std::string text_of(const std::optional<Dose>& dose)
{
    if (!dose) {
        return "none";
    }
    return dose->time ? iso_date(dose->day) + " " + iso_time_of_day(*dose->time) : iso_date(dose->day);
}

std::vector<std::string> texts_of(const std::vector<Date>& days)
{
    std::vector<std::string> texts;
    texts.reserve(days.size());
    for (const Date one : days) {
        texts.push_back(iso_date(one));
    }
    return texts;
}

}  // namespace foreday::screening::build

namespace foreday::screening {

void PrintTo(Truth truth, std::ostream* out)
{
    *out << (truth == Truth::yes ? "yes" : truth == Truth::no ? "no" : "open");
}

void PrintTo(FactState state, std::ostream* out)
{
    switch (state) {
        case FactState::not_asked:
            *out << "not asked";
            return;
        case FactState::not_applicable:
            *out << "not applicable";
            return;
        case FactState::known:
            *out << "known";
            return;
        case FactState::not_known:
            *out << "not known";
            return;
        case FactState::in_conflict:
            *out << "in conflict";
            return;
    }
}

void PrintTo(Level level, std::ostream* out)
{
    *out << name_of(level);
}
void PrintTo(HoldAction action, std::ostream* out)
{
    *out << name_of(action);
}
void PrintTo(HoldWarning warning, std::ostream* out)
{
    *out << name_of(warning);
}
void PrintTo(const std::optional<DayOf>& what, std::ostream* out)
{
    *out << (what ? name_of(*what) : "nothing said");
}
void PrintTo(const Exact& number, std::ostream* out)
{
    *out << number.text();
}
void PrintTo(const Dose& dose, std::ostream* out)
{
    *out << build::text_of(dose);
}

}  // namespace foreday::screening
