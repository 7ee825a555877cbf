#include "gui/present/medicine_form.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "checklists/words.h"
#include "data/reading/folding.h"
#include "data/reading/medicine_names.h"
#include "gui/present/typed_value.h"
#include "screening/as_written.h"

namespace foreday::present {
namespace {

using screening::Date;
using screening::Pattern;
using screening::Result;
using screening::TimeOfDay;

enum class Way : std::uint8_t { daily, weekdays, every_n_days, monthly, as_needed, continuous, not_known };

constexpr std::array<std::string_view, 7> weekday_names{"Monday", "Tuesday",  "Wednesday", "Thursday",
                                                        "Friday", "Saturday", "Sunday"};

tl::unexpected<screening::Fault> wrong(std::string what, std::string would_be_right)
{
    return tl::unexpected(screening::Fault{std::move(what), std::move(would_be_right)});
}

std::vector<std::string> parts_of(const std::string& text)
{
    std::vector<std::string> parts;
    std::string part;
    const auto keep = [&] {
        if (!part.empty()) {
            parts.push_back(std::move(part));
            part.clear();
        }
    };
    for (const char c : text) {
        if (c == ',' || c == ';' || c == ' ') {
            keep();
        } else {
            part += c;
        }
    }
    keep();
    return parts;
}

Result<std::vector<TimeOfDay>> times_in(const std::string& typed)
{
    std::vector<TimeOfDay> times;
    for (const std::string& part : parts_of(typed)) {
        const auto time = typed_time(part);
        if (!time) {
            return wrong("Times: " + time.error().what, time.error().would_be_right);
        }
        times.push_back(*time);
    }
    std::ranges::sort(times);
    times.erase(std::unique(times.begin(), times.end()), times.end());
    return times;
}

Result<std::set<unsigned>> weekdays_in(const std::string& typed)
{
    constexpr std::size_t least_letters = 2;
    std::set<unsigned> days;
    for (const std::string& part : parts_of(typed)) {
        const std::string folded = data::fold(part);
        const auto* const day = std::ranges::find_if(weekday_names, [&](std::string_view name) {
            return folded.size() >= least_letters && data::fold(name).starts_with(folded);
        });
        if (day == weekday_names.end()) {
            return wrong(fmt::format("Days: {} is no day of the week", screening::as_written(part)),
                         "such as Mon, Thu");
        }
        days.insert(static_cast<unsigned>(day - weekday_names.begin()) + 1);
    }
    if (days.empty()) {
        return wrong("Days: no day of the week was typed", "such as Mon, Thu");
    }
    return days;
}

std::optional<int> number_at_front(const std::string& typed)
{
    const auto parts = parts_of(typed);
    int value = 0;
    if (parts.empty()) {
        return std::nullopt;
    }
    const std::string& text = parts.front();
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    return error == std::errc{} && end == text.data() + text.size() ? std::optional(value) : std::nullopt;
}

Result<Pattern> every_n_days(const std::string& typed, std::vector<TimeOfDay> times)
{
    constexpr const char* right = "such as 14 from 2026-11-03: every so many days, from a day with a dose";
    constexpr int most_days = 366;
    const auto days = number_at_front(typed);
    const std::size_t from = typed.find("from");
    if (!days || *days < 2 || *days > most_days || from == std::string::npos) {
        return wrong("Days: how many, and from which day, is not clear", right);
    }
    const auto day = typed_date(typed.substr(from + 4));
    if (!day || !day->exact()) {
        return wrong("Days: the day of one dose is not clear", right);
    }
    return screening::EveryNDays{*days, day->lowest, std::move(times)};
}

Result<Pattern> pattern_of(const MedicineForm& form)
{
    auto times = times_in(form.times);
    if (!times) {
        return tl::unexpected(times.error());
    }
    switch (static_cast<Way>(form.taken)) {
        case Way::daily:
            return screening::Daily{std::move(*times)};
        case Way::weekdays: {
            auto days = weekdays_in(form.days);
            if (!days) {
                return tl::unexpected(days.error());
            }
            return screening::OnWeekdays{std::move(*days), std::move(*times)};
        }
        case Way::every_n_days:
            return every_n_days(form.days, std::move(*times));
        case Way::monthly: {
            constexpr int longest_month = 31;
            const auto day = number_at_front(form.days);
            if (!day || *day < 1 || *day > longest_month) {
                return wrong("Days: the day of the month is not clear", "from 1 to 31");
            }
            return screening::Monthly{static_cast<unsigned>(*day), std::move(*times)};
        }
        case Way::as_needed:
            return screening::AsNeeded{};
        case Way::continuous:
            return screening::Continuous{};
        case Way::not_known:
            break;
    }
    return screening::PatternNotKnown{};
}

Result<std::optional<screening::Dose>> last_dose_of(const std::string& typed, screening::LocalMinute now)
{
    if (parts_of(typed).empty()) {
        return std::nullopt;
    }
    const std::size_t colon = typed.find(':');
    const std::size_t cut = colon == std::string::npos ? typed.size() : typed.find_last_of(" T", colon);
    const Date today = screening::date_of(now);
    screening::Dose dose{today, std::nullopt};
    if (colon != std::string::npos) {
        const auto time = typed_time(cut == std::string::npos ? typed : typed.substr(cut + 1));
        if (!time) {
            return wrong("Last dose: " + time.error().what, time.error().would_be_right);
        }
        dose.time = *time;
    }
    if (cut != std::string::npos) {
        const auto day = typed_date(typed.substr(0, cut));
        if (!day || !day->exact()) {
            return wrong("Last dose: the day is not clear", "such as 2026-11-03 or 2026-11-03 08:00");
        }
        dose.day = day->lowest;
    }
    if (dose.day > today) {
        return wrong("Last dose: that day is still to come", "the last dose really taken");
    }
    if (dose.day == today && dose.time && *dose.time > screening::time_of_day(now)) {
        return wrong("Last dose: that time is still to come",
                     "the day before it, such as 2026-11-03 22:00, if it was yesterday");
    }
    return dose;
}

std::string at_times(const std::vector<TimeOfDay>& times)
{
    std::vector<std::string> words;
    std::ranges::transform(times, std::back_inserter(words), checklists::time_in_words);
    return times.empty() ? "" : " at " + checklists::listed(words);
}

}  // namespace

const std::vector<WayOfTaking>& ways_of_taking()
{
    static const std::vector<WayOfTaking> ways{
        {"every day", ""},
        {"on days of the week", "which, such as Mon, Thu"},
        {"every so many days", "such as 14 from 2026-11-03"},
        {"every month", "the day of the month, 1 to 31"},
        {"as needed", ""},
        {"all the time (pump or patch)", ""},
        {"not known", ""},
    };
    return ways;
}

Result<book::StatedMedicine> stated_medicine(const MedicineForm& form, screening::LocalMinute now)
{
    if (form.medicine.empty() && data::fold(form.heard).empty()) {
        return wrong("No medicine was named", "the name as the patient says it");
    }
    auto pattern = pattern_of(form);
    if (!pattern) {
        return tl::unexpected(pattern.error());
    }
    auto last = last_dose_of(form.last_dose, now);
    if (!last) {
        return tl::unexpected(last.error());
    }
    book::StatedMedicine stated;
    stated.medicine = form.medicine;
    stated.heard = form.heard;
    stated.dose = form.dose;
    stated.pattern = std::move(*pattern);
    stated.prescriber = form.prescriber;
    stated.reason = form.reason;
    stated.last_dose = *last;
    return stated;
}

MedicineNames::MedicineNames(const screening::Protocol& protocol)
    : protocol_(protocol), index_(data::medicine_names(protocol))
{
}

std::vector<MeantMedicine> MedicineNames::candidates(const std::string& heard) const
{
    constexpr std::size_t at_most = 8;  // what a nurse reads while the patient waits
    std::vector<MeantMedicine> meant;
    for (const screening::Candidate& candidate :
         screening::rank_candidates(index_, data::fold(heard), at_most)) {
        const auto place = screening::find_medicine(protocol_, candidate.medicine_id);
        const screening::MedicineDefinition& medicine = protocol_.medicines.at(place.value());
        std::string words = medicine.generic;
        if (candidate.shown != medicine.generic) {
            words += fmt::format(" (\"{}\")", candidate.shown);
        }
        std::vector<std::string> others;
        for (const std::string& other : medicine.mistaken_for) {
            const auto other_place = screening::find_medicine(protocol_, other);
            others.push_back(other_place ? protocol_.medicines[*other_place].generic : other);
        }
        if (!others.empty()) {
            words += "; easily confused with " + checklists::listed(others);
        }
        meant.push_back({medicine.id, std::move(words)});
    }
    return meant;
}

std::string pattern_in_words(const Pattern& pattern)
{
    struct Words {
        std::string operator()(const screening::PatternNotKnown& /*none*/) const
        {
            return "how often is not known";
        }
        std::string operator()(const screening::Daily& daily) const
        {
            return "every day" + at_times(daily.times);
        }
        std::string operator()(const screening::OnWeekdays& on) const
        {
            std::vector<std::string> days;
            for (const unsigned day : on.weekdays) {
                days.emplace_back(weekday_names.at(day - 1));
            }
            return "on " + checklists::listed(days) + at_times(on.times);
        }
        std::string operator()(const screening::EveryNDays& every) const
        {
            return fmt::format("every {} days from {}{}", every.days, checklists::day_in_words(every.from),
                               at_times(every.times));
        }
        std::string operator()(const screening::Monthly& monthly) const
        {
            return fmt::format("on day {} of each month{}", monthly.day, at_times(monthly.times));
        }
        std::string operator()(const screening::AsNeeded& /*none*/) const { return "as needed"; }
        std::string operator()(const screening::Continuous& /*none*/) const { return "all the time"; }
    };
    return std::visit(Words{}, pattern);
}

std::string medicine_in_words(const screening::Protocol& protocol, const screening::MedicineItem& item)
{
    std::string words = item.medicine ? protocol.medicines.at(*item.medicine).generic
                                      : fmt::format("\"{}\" (nobody has named it)", item.heard);
    if (!item.dose.empty()) {
        words += ", " + item.dose;
    }
    words += ", " + pattern_in_words(item.pattern);
    words += item.last_dose ? ", last dose " + checklists::dose_in_words(*item.last_dose)
                            : std::string(", last dose not known");
    if (item.origin != screening::Origin::this_case) {
        words += ", not confirmed in this case";
    }
    return words + ".";
}

}  // namespace foreday::present
