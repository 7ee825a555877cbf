#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

#include "data/reading/parameter_value.h"
#include "data/reading/reading_parts.h"
#include "data/reading/scalars.h"
#include "screening/as_written.h"

namespace foreday::data {
namespace {

using screening::Looser;
using screening::Parameter;
using screening::PolicyOption;
using screening::PolicyQuestion;
using screening::Source;

constexpr int first_year = 1900;  // those of every date we read
constexpr int last_year = 2099;

Source read_source(const Located& node, Faults& faults)
{
    const MapReader map(node, "a source", {{"id", "title", "by", "where", "year"}, {}}, faults);
    Source source;
    source.id = id_at(map);
    source.title = text_at(map, "title", faults);
    source.by = text_at(map, "by", faults);
    source.where = text_at(map, "where", faults);
    if (map["year"] != nullptr) {
        source.year = static_cast<int>(read_whole(*map["year"], first_year, last_year, faults).value_or(0));
    }
    return source;
}

/// The range of a parameter, [lowest, highest]; empty after a fault.
void read_range(const MapReader& map, Parameter& parameter, Faults& faults)
{
    const Located* range = map["range"];
    if (std::holds_alternative<bool>(parameter.by_default)) {
        if (range != nullptr) {
            faults.add(map.key("range"), "a range of yes and no", "leave the range out");
        }
        return;
    }
    if (range == nullptr) {
        if (!map.wrote("range")) {
            faults.add(map.node(), fmt::format("the parameter \"{}\" has no range", parameter.id),
                       "range: [lowest, highest]");
        }
        return;
    }
    const auto& ends = list_items(*range, "range", faults);
    if (range->kind == Located::Kind::list && ends.size() != 2) {
        faults.add(*range, "a range has two ends", "range: [lowest, highest]");
    }
    if (ends.size() != 2) {
        return;
    }
    const auto lowest = read_parameter_value(ends[0], parameter, faults);
    const auto highest = read_parameter_value(ends[1], parameter, faults);
    if (!lowest || !highest) {
        return;
    }
    parameter.range = {as_number(*lowest), as_number(*highest)};
    if (parameter.range.highest < parameter.range.lowest) {
        faults.add(*range, "the range ends below its beginning", "range: [lowest, highest]");
    } else if (!in_range(parameter.by_default, parameter)) {
        faults.add(
            *map["default"],
            fmt::format("the default {} is out of its range", screening::as_written(map["default"]->text)),
            fmt::format("from {}", range_text(parameter)));
    }
}

/// @param sound  set where type and unit are known
Parameter read_parameter(const Located& node, ProtocolDraft& draft, std::vector<bool>& sound)
{
    Faults& faults = draft.faults;
    const MapReader map(node, "a parameter",
                        {{"id", "title", "default", "looser", "sure"}, {"range", "sources"}}, faults);
    Parameter parameter;
    parameter.id = id_at(map);
    parameter.title = text_at(map, "title", faults);
    const auto first = map["default"] == nullptr ? std::nullopt : read_default(*map["default"], faults);
    sound.push_back(first.has_value());
    if (first) {
        parameter.by_default = first->value;
        parameter.unit = first->unit;
        read_range(map, parameter, faults);
    }
    constexpr std::array<std::string_view, 3> directions{"lower", "higher", "any"};
    if (map["looser"] != nullptr) {
        parameter.looser = read_word<Looser>(*map["looser"], directions, faults).value_or(Looser::any);
    }
    const Ground ground = read_ground(map, draft);
    parameter.sources = ground.sources;
    parameter.sure = ground.sure;
    return parameter;
}

PolicyOption read_option(const Located& node, ProtocolDraft& draft)
{
    const MapReader map(node, "an option", {{"id", "title", "sure"}, {"sources"}}, draft.faults);
    PolicyOption option;
    if (map["id"] != nullptr) {
        option.id = read_id(*map["id"], draft.faults).value_or("");
    }
    option.title = text_at(map, "title", draft.faults);
    const Ground ground = read_ground(map, draft);
    option.sources = ground.sources;
    option.sure = ground.sure;
    return option;
}

/// Where an option stands; unknown options are a fault.
std::optional<std::uint32_t> find_option(const Located& node, const PolicyQuestion& question, Faults& faults)
{
    std::vector<std::string_view> names;
    for (const PolicyOption& option : question.options) {
        names.push_back(option.id);
    }
    const auto place = read_place(node, names, faults);
    return place ? std::optional{static_cast<std::uint32_t>(*place)} : std::nullopt;
}

PolicyQuestion read_question(const Located& node, ProtocolDraft& draft)
{
    Faults& faults = draft.faults;
    const MapReader map(node, "a policy question", {{"id", "question", "options", "default", "why"}, {}},
                        faults);
    PolicyQuestion question;
    question.id = id_at(map);
    question.question = text_at(map, "question", faults);
    question.why = text_at(map, "why", faults);
    if (map["options"] == nullptr) {
        return question;
    }
    std::set<std::string> seen;
    for (const Located& item : list_items(*map["options"], "options", faults)) {
        question.options.push_back(read_option(item, draft));
        const std::string& id = question.options.back().id;
        if (!id.empty() && !seen.insert(id).second) {
            faults.add(item, fmt::format("the option \"{}\" stands twice", id), "another id");
        }
    }
    if (map["options"]->kind == Located::Kind::list && question.options.size() < 2) {
        faults.add(*map["options"], "a policy question has at least two options",
                   "two options, or no question at all");
    }
    if (map["default"] != nullptr && !question.options.empty()) {
        question.by_default = find_option(*map["default"], question, faults).value_or(0);
    }
    return question;
}

}  // namespace

void read_source_file(ProtocolDraft& draft)
{
    draft.protocol.sources = read_entries<Source>(
        draft.sources, [&](const Located& node) { return read_source(node, draft.faults); });
}

void read_parameter_file(ProtocolDraft& draft)
{
    std::vector<bool> sound;
    draft.protocol.parameters = read_entries<Parameter>(
        draft.parameters, [&](const Located& node) { return read_parameter(node, draft, sound); });
    draft.parameter_sound = std::move(sound);
}

void read_policy_question_file(ProtocolDraft& draft)
{
    draft.protocol.policy_questions = read_entries<PolicyQuestion>(
        draft.policy_questions, [&](const Located& node) { return read_question(node, draft); });
}

}  // namespace foreday::data
