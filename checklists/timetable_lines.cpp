#include "checklists/timetable_lines.h"

#include <fmt/format.h>

#include <optional>

#include "checklists/words.h"

namespace foreday::checklists {
namespace {

bool begins_the_second_portion(const Fitted& plan, const Step& step)
{
    return plan.second_portion && step.at == *plan.second_portion;
}

}  // namespace

void add_timetable(std::vector<Line>& lines, const Fitted& plan, const screening::Zone& zone)
{
    std::optional<screening::Date> current;
    for (const Step& step : plan.steps) {
        const screening::Date day = screening::date_of(screening::local_of(zone, step.at));
        if (day != current) {
            current = day;
            lines.push_back({LineKind::text, day_in_words(day), {}});
        }
        lines.push_back({LineKind::step,
                         fmt::format("{} {}", clock_in_words(zone, step.at), sentence(step.what)), step.at});
    }
}

void add_short_timetable(std::vector<Line>& lines, const Fitted& plan, const screening::Zone& zone)
{
    int portions = 0;
    for (std::size_t place = 0; place < plan.steps.size();) {
        const Step& first = plan.steps[place];
        std::size_t next = place + 1;
        std::string what = sentence(first.what);
        if (first.drink) {
            while (next < plan.steps.size() && plan.steps[next].drink &&
                   !begins_the_second_portion(plan, plan.steps[next])) {
                ++next;
            }
            what = fmt::format("{} portion begins; {} steps, the last at {}.",
                               ++portions == 1 ? "The first" : "The second", next - place,
                               clock_in_words(zone, plan.steps[next - 1].at));
        }
        lines.push_back(
            {LineKind::step, fmt::format("{}: {}", moment_in_words(zone, first.at), what), first.at});
        place = next;
    }
}

std::string procedures_in_words(const screening::Rules& rules, const screening::CaseRecord& record)
{
    std::vector<std::string> titles;
    for (const screening::ProcedureIndex place : record.booking.procedures) {
        const screening::Procedure& procedure = rules.protocol.procedures.at(place);
        titles.push_back(procedure.title.empty() ? procedure.id : procedure.title);
    }
    return listed(titles);
}

}  // namespace foreday::checklists
