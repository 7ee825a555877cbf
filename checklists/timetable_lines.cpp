#include "checklists/timetable_lines.h"

#include <fmt/format.h>

#include <optional>

#include "checklists/words.h"

namespace foreday::checklists {

void add_timetable(std::vector<Line>& lines, const Fitted& plan, const screening::Zone& zone)
{
    std::optional<screening::Date> current;
    for (const Step& step : plan.steps) {
        const screening::Date day = screening::date_of(screening::local_of(zone, step.at));
        if (day != current) {
            current = day;
            lines.push_back({LineKind::text, day_in_words(day), {}});
        }
        lines.push_back(
            {LineKind::step, fmt::format("{} {}", clock_in_words(zone, step.at), step.what), step.at});
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
