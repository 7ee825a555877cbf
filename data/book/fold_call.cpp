#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "data/book/fold_state.h"
#include "data/book/fold_value.h"

/// What was said: answers, medicines, worries.
namespace foreday::book {

using screening::Answer;
using screening::FactIndex;
using screening::MedicineItem;

/// Whether an answer that stands was not in view of the one who writes now.
bool Folding::is_unseen(FactIndex fact) const
{
    const auto& answers = record_.answers[fact];
    const auto reading = screening::read_answers(protocol_.facts[fact], answers, zone_, at());
    return std::ranges::any_of(reading.standing, [&](std::size_t place) {
        const Event& earlier = *answered_by_[fact][place];
        const bool of_another =
            event_->of_another_patient && earlier.said().subject != event_->said().subject;
        return of_another || earlier.comes_in > event_->envelope.seen;
    });
}

void Folding::place(FactIndex fact, Answer answer)
{
    answer.at = at();
    answer.desk = event_->said().desk;
    if (const auto aside = gathered_.set_aside.find(event_->number()); aside != gathered_.set_aside.end()) {
        folded_.set_aside.push_back(
            {event_->number(), protocol_.facts[fact].id, aside->second, std::move(answer)});
        return;
    }
    answer.unseen = is_unseen(fact);
    record_.answers[fact].push_back(std::move(answer));
    folded_.answer_entries[fact].push_back(event_->number());
    answered_by_[fact].push_back(event_);
}

void Folding::place_named(const std::string& fact, const std::optional<StatedValue>& value, Answer answer)
{
    const auto place_of_fact = screening::find_fact(protocol_, fact);
    if (!place_of_fact) {
        return not_placed(fact, fmt::format("the protocol has no fact \"{}\" any more", fact));
    }
    if (value) {
        auto known = value_of(protocol_.facts[*place_of_fact], *value);
        if (!known) {
            return not_placed(fact, known.error().what);
        }
        answer.value = *std::move(known);
    }
    place(*place_of_fact, std::move(answer));
}

void Folding::apply(const Answered& said)
{
    Answer answer;
    answer.why_not_known = said.why_not_known.value_or(answer.why_not_known);
    answer.words = said.words;
    answer.informant = said.informant;
    answer.who = said.who;
    answer.interpreter = said.interpreter;
    answer.strength = said.strength;
    answer.origin = said.origin;
    answer.dated = said.dated;
    place_named(said.fact, said.value, std::move(answer));
}

void Folding::apply(const Measured& said)
{
    Answer answer;
    answer.why_not_known = said.value ? answer.why_not_known : screening::WhyNotKnown::could_not_be_measured;
    answer.words = said.words;
    answer.informant = screening::Informant::staff;
    answer.who = said.who;
    answer.strength = screening::Strength::measured;
    place_named(said.fact, said.value, std::move(answer));
}

void Folding::apply(const ItemConfirmed& said)
{
    Answer answer;
    answer.words = said.words;
    answer.informant = screening::Informant::staff;
    answer.strength = screening::Strength::measured;
    place_named(said.fact, StatedValue{said.confirmed}, std::move(answer));
}

/// The answer itself is set aside where it comes in; here it is only looked whether there was one.
void Folding::apply(const AnswerSetAside& said)
{
    const auto is_it = [&](const Event& event) {
        return event.number() == said.entry && event.number() < event_->number() &&
               event.said().subject == event_->said().subject &&
               (std::holds_alternative<Answered>(event.content) ||
                std::holds_alternative<Measured>(event.content) ||
                std::holds_alternative<ItemConfirmed>(event.content));
    };
    if (std::ranges::none_of(gathered_.events, is_it)) {
        not_placed(std::to_string(said.entry), fmt::format("entry {} is no answer of this case", said.entry));
    }
}

/// A medicine the protocol does not know any more stays on the list as one that nobody has named.
MedicineItem Folding::item_of(const std::string& id, const StatedMedicine& said)
{
    MedicineItem item{
        id,
        said.medicine.empty() ? std::nullopt : screening::find_medicine(protocol_, said.medicine),
        said.heard,
        said.dose,
        said.pattern,
        said.prescriber,
        said.reason,
        said.last_dose,
        said.origin,
        said.informant,
        said.who,
        at()};
    if (!said.medicine.empty() && !item.medicine) {
        not_placed(id, fmt::format("the protocol has no medicine \"{}\" any more", said.medicine));
        item.heard = said.heard.empty() ? said.medicine : said.heard;
    }
    return item;
}

std::optional<std::size_t> Folding::medicine_place(const std::string& id) const
{
    const auto& items = record_.medicines.items;
    const auto found = std::ranges::find(items, id, &MedicineItem::id);
    return found == items.end() ? std::nullopt
                                : std::optional{static_cast<std::size_t>(found - items.begin())};
}

void Folding::apply(const MedicineAdded& said)
{
    std::string id = said.id;
    if (medicine_place(id)) {
        id = fmt::format("{}.{}", said.id, event_->number());
        not_placed(said.id,
                   fmt::format("the list has an entry \"{}\" already, so this one is \"{}\"", said.id, id));
    }
    record_.medicines.items.push_back(item_of(id, said.medicine));
    folded_.medicine_entries.push_back(event_->number());
}

void Folding::apply(const MedicineChanged& said)
{
    const auto place_of_item = medicine_place(said.id);
    if (!place_of_item) {
        return not_placed(said.id, fmt::format("the list has no entry \"{}\" to change", said.id));
    }
    if (folded_.medicine_entries[*place_of_item] > event_->envelope.seen) {
        not_placed(said.id,
                   fmt::format("\"{}\" was changed by two who had not seen each other's change; the later "
                               "one stands",
                               said.id));
    }
    record_.medicines.items[*place_of_item] = item_of(said.id, said.medicine);
    folded_.medicine_entries[*place_of_item] = event_->number();
}

void Folding::apply(const MedicineStopped& said)
{
    const auto place_of_item = medicine_place(said.id);
    if (!place_of_item) {
        return not_placed(said.id, fmt::format("the list has no entry \"{}\" to stop", said.id));
    }
    auto& items = record_.medicines.items;
    const auto offset = static_cast<std::ptrdiff_t>(*place_of_item);
    folded_.stopped.push_back({event_->number(), said.words, std::move(items[*place_of_item])});
    items.erase(items.begin() + offset);
    folded_.medicine_entries.erase(folded_.medicine_entries.begin() + offset);
}

void Folding::apply(const ListClosed& /*said*/)
{
    record_.medicines.closed = screening::MedicineList::Closing{who(), at()};
}

void Folding::apply(const ListReopened& /*said*/)
{
    record_.medicines.closed.reset();
}

void Folding::apply(const ConcernRaised& said)
{
    record_.concerns.push_back({said.words, said.level, said.topic, who(), at()});
    folded_.concern_entries.push_back(event_->number());
}

}  // namespace foreday::book
