#include "data/reading/restart_reading.h"

#include <fmt/format.h>

#include "data/reading/scalars.h"
#include "screening/as_written.h"
#include "screening/hold_plan.h"

namespace foreday::data {
namespace {

using screening::Exact;
using screening::RestartFigure;

/// A bound of the program: what starts again later than this was ended, not paused.
constexpr int longest_pause_after = 60;

std::optional<date::days> read_days(const Located& node, Faults& faults)
{
    const auto days = read_quantity_in(node, screening::Unit::day, "the day of restart", faults);
    if (!days) {
        return std::nullopt;
    }
    if (!days->is_whole() || *days < Exact{0} || *days > Exact{longest_pause_after}) {
        faults.add(
            node, fmt::format("{} is no day of restart", screening::as_written(node.text)),
            fmt::format("whole days after the day of the procedure, from 0 to {}", longest_pause_after));
        return std::nullopt;
    }
    return date::days{static_cast<int>(days->floor())};
}

std::optional<RestartFigure> read_figure(const Located& node, ProtocolDraft& draft)
{
    Faults& faults = draft.faults;
    const MapReader map(node, "a restart", {{"earliest", "sure"}, {"latest", "sources"}}, faults);
    RestartFigure figure;
    const auto earliest = map["earliest"] == nullptr ? std::nullopt : read_days(*map["earliest"], faults);
    if (map["latest"] != nullptr) {
        figure.latest = read_days(*map["latest"], faults);
        if (earliest && figure.latest && *figure.latest <= *earliest) {
            faults.add(*map["latest"], "the latest day of restart is not after the earliest",
                       "a later day, or leave it out where the source gives one day");
        }
    }
    const Ground ground = read_ground(map, draft);
    figure.sources = ground.sources;
    figure.sure = ground.sure;
    if (!earliest) {
        return std::nullopt;
    }
    figure.earliest = *earliest;
    return figure;
}

}  // namespace

void read_restart(const MapReader& hold, screening::HoldRule& rule, ProtocolDraft& draft)
{
    if (!hold.wrote("restart")) {
        return;
    }
    if (!screening::leaves_out(rule.action)) {
        draft.faults.add(
            hold.key("restart"),
            fmt::format("\"{}\" leaves nothing out that could start again", name_of(rule.action)),
            "restart belongs to the actions that leave doses out");
    }
    if (hold["restart"] == nullptr) {
        return;
    }
    const MapReader map(*hold["restart"], "restart", {{}, {"low", "high"}}, draft.faults);
    if (map["low"] != nullptr) {
        rule.restart_after_low = read_figure(*map["low"], draft);
    }
    if (map["high"] != nullptr) {
        rule.restart_after_high = read_figure(*map["high"], draft);
    }
    if (map.is_map() && map.node().keys.empty()) {
        draft.faults.add(map.node(), "a restart without a figure",
                         "low: or high:, by the bleeding risk of what was done");
    }
}

}  // namespace foreday::data
