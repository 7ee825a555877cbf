#include "screening/condition_words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "screening/calculator_words.h"
#include "screening/fact_words.h"

namespace foreday::screening {
namespace {

std::string record_words(RecordHas::What what)
{
    switch (what) {
        case RecordHas::What::conflict:
            return "two answers that stand differ";
        case RecordHas::What::unrecognised_medicine:
            return "a medicine of the list is not recognised";
        case RecordHas::What::own_concern:
            return "somebody has raised a concern of their own";
        case RecordHas::What::told_no_longer_right:
            return "the patient was told otherwise than it stands now";
        case RecordHas::What::out_of_scope:
            return "another procedure than the protocol knows, or under 18";
    }
    return "";
}

class Words {
public:
    Words(const Protocol& protocol, const UnitPolicy& policy) : protocol_(protocol), policy_(policy) {}

    [[nodiscard]] std::string limit(const Limit& limit, Unit unit) const
    {
        return limit_in_words(limit, unit, protocol_, policy_);
    }

    [[nodiscard]] std::string of(const FactIs& one) const
    {
        return fmt::format("{}: {}", fact(one.fact), one.value ? "yes" : "no");
    }
    [[nodiscard]] std::string of(const FactIsOneOf& one) const
    {
        std::vector<std::string> choices;
        for (const std::uint32_t place : one.choices) {
            choices.push_back(protocol_.facts[one.fact].choices[place]);
        }
        return fmt::format("{}: {}", fact(one.fact), fmt::join(choices, " or "));
    }
    [[nodiscard]] std::string of(const FactCompares& one) const
    {
        return fmt::format("{} {} {}", fact(one.fact), words_for(one.op),
                           limit(one.limit, protocol_.facts[one.fact].unit));
    }
    [[nodiscard]] std::string of(const FactWithin& one) const
    {
        return fmt::format("{} within {} of the procedure", fact(one.fact), limit(one.length, one.unit));
    }
    [[nodiscard]] std::string of(const CalculatedCompares& one) const
    {
        return fmt::format("{} {} {}", title_of(one.calculator), words_for(one.op),
                           limit(one.limit, unit_of(one.calculator)));
    }
    [[nodiscard]] std::string of(const TakesMedicine& one) const
    {
        std::vector<std::string> names;
        for (const ClassIndex place : one.classes) {
            names.push_back(protocol_.classes[place].title);
        }
        for (const MedicineIndex place : one.medicines) {
            names.push_back(protocol_.medicines[place].generic);
        }
        return fmt::format("takes one of: {}", fmt::join(names, "; "));
    }
    [[nodiscard]] std::string of(const ProcedureIncludes& one) const
    {
        return "the procedure includes: " + protocol_.procedures[one.procedure].title;
    }
    [[nodiscard]] std::string of(const BleedingRiskIs& one) const
    {
        return fmt::format("the procedure is of {} bleeding risk", name_of(one.risk));
    }
    [[nodiscard]] std::string of(const PreparationOrdered& one) const
    {
        std::vector<std::string> names;
        for (const PreparationIndex place : one.preparations) {
            names.push_back(protocol_.preparations[place].generic);
        }
        return fmt::format("ordered: {}", fmt::join(names, " or "));
    }
    [[nodiscard]] std::string of(const RecordHas& one) const { return record_words(one.what); }

    void add(const Condition& condition, std::size_t depth, std::vector<std::string>& lines) const
    {
        const std::string margin(2 * depth, ' ');
        if (condition.kind == Condition::Kind::compare) {
            lines.push_back(margin +
                            std::visit([this](const auto& one) { return of(one); }, condition.comparison));
            return;
        }
        lines.push_back(margin + opening(condition));
        for (const Condition& child : condition.children) {
            add(child, depth + 1, lines);
        }
    }

private:
    [[nodiscard]] std::string fact(FactIndex place) const { return label_of(protocol_.facts[place]); }

    [[nodiscard]] std::string opening(const Condition& condition) const
    {
        switch (condition.kind) {
            case Condition::Kind::any:
                return "any of:";
            case Condition::Kind::negation:
                return "not:";
            case Condition::Kind::at_least:
                return fmt::format("at least {} of:", limit(condition.count, Unit::none));
            case Condition::Kind::all:
            case Condition::Kind::compare:
                break;
        }
        return "all of:";
    }

    const Protocol& protocol_;
    const UnitPolicy& policy_;
};

}  // namespace

std::vector<std::string> condition_in_words(const Condition& condition, const Protocol& protocol,
                                            const UnitPolicy& policy)
{
    std::vector<std::string> lines;
    if (condition.kind != Condition::Kind::all || !condition.children.empty()) {
        Words(protocol, policy).add(condition, 0, lines);
    }
    return lines;
}

std::string limit_in_words(const Limit& limit, Unit unit, const Protocol& protocol, const UnitPolicy& policy)
{
    const Exact number = number_of(limit, policy);
    std::string words = number.text();
    if (unit != Unit::none) {
        const std::string_view name = unit_text(unit);
        words += fmt::format(" {}", number == Exact{1} && unit >= Unit::minute && unit < Unit::glass
                                        ? name.substr(0, name.size() - 1)
                                        : name);
    }
    if (const auto* place = std::get_if<ParameterIndex>(&limit)) {
        words += fmt::format(" ({}, which a unit may set)", protocol.parameters[*place].id);
    }
    return words;
}

}  // namespace foreday::screening
