#include <fmt/format.h>

#include <optional>

#include "data/reading/nearest.h"
#include "data/reading/policy_reading.h"
#include "data/reading/protocol_reading.h"
#include "gui/console/commands.h"
#include "gui/console/content_words.h"
#include "gui/console/item_words.h"
#include "gui/console/printing.h"
#include "gui/console/words.h"
#include "screening/references.h"

namespace foreday::console {
namespace {

/// The content and the unit's answers on it.
struct Content {
    screening::Protocol protocol;
    screening::UnitPolicy policy;
    std::string hash;
};

/// Prints the faults, if there are any.
std::optional<Content> read_content(const ContentOptions& options)
{
    data::ReadProtocol read = data::read_protocol(options.protocol);
    if (!read.protocol) {
        print_faults(read.faults);
        return std::nullopt;
    }
    if (!options.policy) {
        screening::UnitPolicy defaults = data::default_policy(*read.protocol);
        return Content{std::move(*read.protocol), std::move(defaults), read.hash};
    }
    data::ReadPolicy policy = data::read_policy(*options.policy, *read.protocol);
    if (!policy.policy) {
        print_faults(policy.faults);
        return std::nullopt;
    }
    return Content{std::move(*read.protocol), std::move(*policy.policy), read.hash};
}

void heading(const std::string& words)
{
    print(fmt::format("\n{}\n{}\n\n", words, std::string(words.size(), '=')));
}

void print_table_opening(const Content& content)
{
    print("Medicines before a planned endoscopy: what the program says about each, and why\n\n");
    print(wrapped(
        "The content was written from published texts by people who built the program. No clinician has "
        "read or signed it, unless a signature stands at the end of this paper.",
        0));
    print(wrapped(caution(), 0));
    print(fmt::format("\nProtocol version {}, hash {}\n", content.protocol.version, content.hash));
    print(content.policy.unit.empty() ? "Unit: none; every question of policy has its default answer\n"
                                      : fmt::format("Unit: {}\n", content.policy.unit));
    print(fmt::format("{} medicines, {} hold rules, {} questions of policy\n",
                      content.protocol.medicines.size(), content.protocol.holds.size(),
                      content.protocol.policy_questions.size()));
    print(wrapped(
        "\"Days\" are whole dates without a dose before the day of the procedure, and none on the day "
        "itself before it. Where one rule forbids a dose that another one requires, nobody is told a date "
        "and a clinician decides. \"Read in\" names the text in which the figure was read; \"reported\" "
        "means another text tells of it; what rests on common practice or on memory gives no date until "
        "the unit has confirmed it by name.",
        0));
}

void print_signature()
{
    heading("Signature");
    print(
        wrapped("I have read this content and let it be used in my unit, with the changes written here:", 0));
    for (const char* line : {"changes", "name", "role", "unit", "date", "signature"}) {
        print(fmt::format("\n  {:<12}{}\n", line, std::string(60, '_')));
    }
}

void print_rules(const Content& content)
{
    constexpr std::size_t topics = static_cast<std::size_t>(screening::Topic::record) + 1;
    for (std::size_t topic = 0; topic < topics; ++topic) {
        bool headed = false;
        for (const screening::HoldRule& rule : content.protocol.holds) {
            if (rule.head.topic != static_cast<screening::Topic>(topic)) {
                continue;
            }
            if (!headed) {
                print(fmt::format("--- {}\n\n", screening::name_of(rule.head.topic)));
                headed = true;
            }
            print(hold_block(rule, content.protocol, content.policy) + "\n");
        }
    }
}

std::string no_such_item(const std::string& id, const screening::Protocol& protocol)
{
    const auto items = screening::items_of(protocol);
    std::vector<std::string_view> known;
    known.reserve(items.size());
    for (const screening::ItemName& item : items) {
        known.push_back(item.id);
    }
    const std::string_view nearest = data::nearest(id, known);
    return fmt::format("\"{}\" is no id of the protocol; {}\n", id,
                       nearest.empty() ? "`foreday protocol table medicines` and `foreday facts` list them"
                                       : fmt::format("perhaps \"{}\"", nearest));
}

void print_who_names(const screening::ItemName& item, const std::vector<screening::Reference>& references)
{
    print("  named by\n");
    bool any = false;
    for (const screening::Reference& reference : references) {
        if (reference.to == item) {
            print(fmt::format("    {:<20}{}\n", screening::name_of(reference.from.kind), reference.from.id));
            any = true;
        }
    }
    if (!any) {
        print("    nothing in the protocol\n");
    }
}

}  // namespace

Status medicines_table_command(const ContentOptions& options)
{
    const auto content = read_content(options);
    if (!content) {
        return Status::input_has_faults;
    }
    print_table_opening(*content);
    heading("Questions of policy");
    for (std::size_t place = 0; place < content->protocol.policy_questions.size(); ++place) {
        print(policy_block(content->protocol.policy_questions[place], content->policy.options[place],
                           content->protocol) +
              "\n");
    }
    heading("Rules");
    print_rules(*content);
    heading("Medicines");
    for (const screening::MedicineDefinition& medicine : content->protocol.medicines) {
        print(medicine_block(medicine, content->protocol));
    }
    print_signature();
    return Status::done;
}

Status show_item_command(const std::string& id, const ContentOptions& options)
{
    const auto content = read_content(options);
    if (!content) {
        return Status::input_has_faults;
    }
    const auto references = screening::references_in(content->protocol);
    bool found = false;
    for (const screening::ItemName& item : screening::items_of(content->protocol)) {
        if (item.id != id) {
            continue;
        }
        if (found) {
            print("\n");
        }
        found = true;
        print(fmt::format("{}: ", screening::name_of(item.kind)) +
              item_block(item, content->protocol, content->policy));
        print_who_names(item, references);
    }
    if (!found) {
        print_error(no_such_item(id, content->protocol));
        return Status::input_has_faults;
    }
    print("\n" + wrapped(caution(), 0));
    return Status::done;
}

}  // namespace foreday::console
