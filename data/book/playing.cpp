#include "data/book/playing.h"

#include <algorithm>
#include <stdexcept>

#include "data/book/codec.h"
#include "data/book/fold_value.h"
#include "data/book/verbs_booking.h"
#include "data/book/verbs_day.h"
#include "data/book/verbs_decision.h"
#include "data/book/verbs_phone.h"
#include "screening/judge.h"

namespace foreday::book {
namespace {

class Player {
public:
    Player(Book& book, const Writer& writer, const RecordedContent& recorded)
        : book_(book), writer_(writer), recorded_(recorded)
    {
    }

    void operator()(const PatientMade& said)
    {
        static_cast<void>(must(make_patient(book_, writer_, said, recorded_.subject), what()));
    }
    void operator()(const BookingMade& said) { done(make_booking(book_, writer_, said, recorded_.subject)); }
    void operator()(const Answered& said) { done(answer(book_, writer_, on(), said)); }
    void operator()(const MedicineAdded& said) { done(add_medicine(book_, writer_, on(), said.medicine)); }
    void operator()(const ListClosed& said) { done(close_list(book_, writer_, on(), said)); }
    void operator()(const ConcernRaised& said) { done(raise_concern(book_, writer_, on(), said)); }
    void operator()(const DecisionSigned& said)
    {
        const ShownItems shown = shown_items(now());
        DecidedItem decided = said.decided;
        if (const auto item = shown.find(decided.item); item != shown.end()) {
            decided.fingerprint = item->second;
        }
        done(sign(book_, writer_, on(), {{decided}, shown, false}));
    }
    void operator()(const ClearanceGiven& /*said*/) { done(clear(book_, writer_, on(), shown_items(now()))); }
    void operator()(const HoldsTold& said)
    {
        done(tell(book_, writer_, on(), sheet_hash(now()), said.words));
    }
    void operator()(const Arrived& /*said*/) { done(arrive(book_, writer_, on())); }
    void operator()(const Measured& said) { done(take_measure(book_, writer_, on(), said)); }
    void operator()(const ItemConfirmed& said) { done(confirm_item(book_, writer_, on(), said)); }
    void operator()(const IntakeStated& said) { done(record_intake(book_, writer_, on(), said)); }
    void operator()(const NothingElseTaken& /*said*/) { done(record_nothing_else(book_, writer_, on())); }
    void operator()(const DoseReallyTaken& said) { done(record_dose_taken(book_, writer_, on(), said)); }
    void operator()(const GoneIn& /*said*/) { done(go_in(book_, writer_, on())); }
    void operator()(const WorkDone& said) { done(record_what_was_done(book_, writer_, on(), said)); }
    template <class Other>
    void operator()(const Other& other)
    {
        throw std::runtime_error(what() + ": nobody plays this");
        static_cast<void>(other);
    }

private:
    [[nodiscard]] std::string what() const
    {
        return recorded_.subject + ", " + std::string(kind_of(recorded_.content).name);
    }
    [[nodiscard]] CaseNow now() const { return must(book_.open(recorded_.subject), what()); }
    [[nodiscard]] OnCase on() const
    {
        return recorded_.unseen ? OnCase{recorded_.subject, 0} : as_shown(now());
    }
    void done(Outcome<CaseNow> outcome) const { static_cast<void>(must(std::move(outcome), what())); }

    Book& book_;
    const Writer& writer_;
    const RecordedContent& recorded_;
};

}  // namespace

namespace {

bool begins_a_case(const Content& content)
{
    return std::holds_alternative<PatientMade>(content) || std::holds_alternative<BookingMade>(content);
}

bool is_decided_or_told(const Content& content)
{
    return std::holds_alternative<DecisionSigned>(content) || std::holds_alternative<HoldsTold>(content) ||
           std::holds_alternative<ClearanceGiven>(content);
}

/// What a phone call learns: nobody can have decided on it before.
bool is_asked_by_phone(const Content& content)
{
    return std::holds_alternative<Answered>(content) || std::holds_alternative<MedicineAdded>(content) ||
           std::holds_alternative<ListClosed>(content) || std::holds_alternative<ConcernRaised>(content);
}

}  // namespace

std::vector<RecordedContent> in_order_of_work(std::vector<RecordedContent> contents)
{
    screening::Moment first_decided = screening::Moment::max();
    for (const RecordedContent& said : contents) {
        if (is_decided_or_told(said.content)) {
            first_decided = std::min(first_decided, said.at);
        }
    }
    for (RecordedContent& said : contents) {
        if (is_asked_by_phone(said.content) && said.at > first_decided) {
            said.at = first_decided - std::chrono::minutes{30};
        }
    }
    const auto first = std::ranges::min_element(contents, {}, &RecordedContent::at);
    const screening::Moment earliest = first == contents.end() ? screening::Moment{} : first->at;
    for (RecordedContent& said : contents) {
        if (begins_a_case(said.content)) {
            said.at = earliest;
        }
    }
    std::ranges::stable_sort(contents, [](const RecordedContent& one, const RecordedContent& other) {
        const bool one_begins = begins_a_case(one.content);
        return one_begins != begins_a_case(other.content) ? one_begins : one.at < other.at;
    });
    return contents;
}

void ask_again_what_is_old(Book& book, const Writer& writer, const std::string& case_id)
{
    const CaseNow now = must(book.open(case_id), case_id);
    const auto& facts = now.rules().protocol.facts;
    for (std::size_t fact = 0; fact < facts.size(); ++fact) {
        const auto& reading = now.whole.assessment.readings.at(fact);
        if (!reading.past_its_age || reading.values.size() != 1 ||
            facts[fact].type != screening::FactType::yes_no) {
            continue;
        }
        screening::Answer again;
        again.value = reading.values.front();
        const OnCase on = as_shown(now);
        static_cast<void>(must(answer(book, writer, on, answered(facts[fact], again)), case_id));
    }
}

void ask_what_is_left(Book& book, const Writer& writer, const std::string& case_id)
{
    const CaseNow now = must(book.open(case_id), case_id);
    const screening::Judge judge(now.rules(), now.record(), now.at);
    const auto& facts = now.rules().protocol.facts;
    for (std::size_t place = 0; place < facts.size(); ++place) {
        const auto fact = static_cast<screening::FactIndex>(place);
        const screening::FactDefinition& asked = facts[place];
        if (asked.type != screening::FactType::yes_no || asked.scope == screening::FactScope::day ||
            judge.readings()[place].state != screening::FactState::not_asked ||
            judge.applies(fact) != screening::Truth::yes) {
            continue;
        }
        screening::Answer harmless;
        // That nothing will be removed is the endoscopist's to say, and nobody has.
        harmless.value = asked.danger.kind == screening::Danger::Kind::no &&
                         fact != now.rules().protocol.diagnostic_only_fact;
        static_cast<void>(must(answer(book, writer, as_shown(now), answered(asked, harmless)), case_id));
    }
}

void play(Book& book, const Writer& writer, const RecordedContent& recorded)
{
    Player player(book, writer, recorded);
    std::visit(player, recorded.content);
}

}  // namespace foreday::book
