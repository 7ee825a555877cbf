#include "data/book/demo_book.h"

#include <algorithm>
#include <chrono>
#include <map>
#include <stdexcept>

#include "checklists/decide_by.h"
#include "checklists/telling.h"
#include "data/book/playing.h"
#include "data/book/shifted.h"
#include "data/book/verbs_booking.h"
#include "data/book/verbs_day.h"
#include "data/book/verbs_decision.h"
#include "data/book/verbs_phone.h"
#include "data/book/verbs_unit.h"
#include "data/reading/case_reading.h"
#include "data/reading/yaml_text.h"

namespace foreday::book {
namespace {

using screening::Moment;
using screening::Role;
using std::chrono::hours;
using std::chrono::minutes;

const Writer scheduler{"Wanda Pell", Role::scheduler, "booking desk"};
const Writer nurse{"Nurse Ilse Marrack", Role::nurse, "phone desk"};
const Writer arrival_nurse{"Nurse Ansgar Leith", Role::nurse, "arrival desk"};
const Writer clerk{"Jonas Quill", Role::arrival_clerk, "arrival desk"};
const Writer endoscopist{"Dr Teodor Wexcombe", Role::endoscopist, "review desk"};
const Writer director{"Dr Imke Sandvoort", Role::medical_director, "review desk"};

std::string all_of(const std::vector<data::LocatedFault>& faults)
{
    std::string text;
    for (const data::LocatedFault& fault : faults) {
        text += data::text_of(fault) + "\n";
    }
    return text;
}

std::shared_ptr<const UnitRules> must_read(const UnitTexts& texts)
{
    ReadUnit unit = read_unit(texts);
    if (unit.rules == nullptr) {
        throw std::runtime_error(all_of(unit.faults));
    }
    return unit.rules;
}

/// A case of the demo as its file has it, and the moment it is told for.
struct DemoCase {
    screening::CaseRecord record;
    Moment as_of;
};

std::vector<DemoCase> read_cases(const std::filesystem::path& folder, const screening::Rules& rules)
{
    std::vector<DemoCase> cases;
    for (const auto& file : std::filesystem::directory_iterator(folder)) {
        auto read = data::read_case(file.path(), rules, Moment{});
        if (!read.record || !read.as_of) {
            throw std::runtime_error(all_of(read.faults));
        }
        cases.push_back({std::move(*read.record), *read.as_of});
    }
    std::ranges::sort(cases, {}, [](const DemoCase& one) { return one.record.id; });
    return cases;
}

/// The unit at work, with a clock that is set to each thing it does.
class Unit {
public:
    Unit(std::unique_ptr<store::Store> store, Moment at) : at_(at), clock_(std::make_shared<Moment>(at))
    {
        book_ = std::make_unique<Book>(std::move(store), [clock = clock_] { return *clock; });
    }

    void open_for_work(const UnitTexts& texts)
    {
        *clock_ = at_ - date::days{90};
        if (const auto refused = put_in_force(*book_, director, texts)) {
            throw std::runtime_error(in_words(*refused));
        }
    }

    /// Everything a record says, in the order of its times.
    void play_all(const screening::Rules& rules, const screening::CaseRecord& record)
    {
        play(in_order_of_work(contents_of(rules, record, record.booking.patient.number)));
    }

    /// What it says of the day itself alone.
    void play_day(const screening::Rules& rules, const screening::CaseRecord& record)
    {
        auto contents = in_order_of_work(contents_of(rules, record, record.booking.patient.number));
        const auto first = std::ranges::find_if(
            contents, [](const auto& said) { return std::holds_alternative<Arrived>(said.content); });
        contents.erase(contents.begin(), first);
        play(std::move(contents));
    }

    void play(std::vector<RecordedContent> contents)
    {
        for (RecordedContent& said : contents) {
            if (auto* patient = std::get_if<PatientMade>(&said.content)) {
                patient->phones = {
                    "555-01" + patient->number.substr(patient->number.size() - 2)};  // kept free for fiction
            }
            *clock_ = std::min(said.at, at_);
            book::play(*book_, writer_of(said), said);
            if (std::holds_alternative<Arrived>(said.content)) {
                ask_again_what_is_old(*book_, arrival_nurse, said.subject);
            }
        }
    }

    /// Lets time pass, up to the moment of the demo.
    Unit& after(std::chrono::seconds so_long)
    {
        *clock_ = std::min(*clock_ + so_long, at_);
        return *this;
    }
    /// Goes on with a case at a moment, or as soon as its last word has been said.
    Unit& at(Moment moment, const std::string& id)
    {
        *clock_ = at_;  // so that all of the case is seen
        const CaseNow so_far = now(id);
        *clock_ = std::clamp(checklists::last_word(so_far.file()), std::min(moment, at_), at_);
        return *this;
    }

    [[nodiscard]] Book& book() { return *book_; }
    [[nodiscard]] CaseNow now(const std::string& id) const { return must(book_->open(id), id); }
    [[nodiscard]] OnCase on(const std::string& id) const { return as_shown(now(id)); }
    static void done(Outcome<CaseNow> outcome, const std::string& id)
    {
        static_cast<void>(must(std::move(outcome), id));
    }

    void clear_by(const Writer& writer, const std::string& id)
    {
        done(clear(*book_, writer, on(id), shown_items(now(id))), id);
    }
    void tell_all(const std::string& id)
    {
        done(tell(*book_, nurse, on(id), sheet_hash(now(id)), "read out by phone"), id);
        done(record_said_back(*book_, nurse, on(id), now(id).folded.telling_entries.back()), id);
    }
    /// Agrees to everything that asks, on one page.
    void agree_to_all(const std::string& id)
    {
        const CaseNow page = now(id);
        SignedPage signed_page{.decided = {}, .shown = shown_items(page), .clears = true};
        const auto items = checklists::all_items(page.whole.assessment);
        for (std::size_t i = 0; i < items.size(); ++i) {
            const screening::Item* item = items[i];
            if (item->level >= screening::Level::ask ||
                checklists::is_undecided(*item, page.whole.decided[i])) {
                signed_page.decided.push_back({item->id, screening::DecisionAnswer::agree, "seen and agreed",
                                               signed_page.shown.at(item->id), std::nullopt});
            }
        }
        done(sign(*book_, endoscopist, on(id), signed_page), id);
    }

    std::unique_ptr<Book> take()
    {
        *clock_ = at_;
        return std::move(book_);
    }

private:
    static const Writer& writer_of(const RecordedContent& said)
    {
        if (said.role == Role::endoscopist) {
            return endoscopist;
        }
        if (said.role == Role::scheduler) {
            return scheduler;
        }
        if (said.role == Role::arrival_clerk) {
            return clerk;
        }
        const bool of_the_day = std::holds_alternative<Measured>(said.content) ||
                                std::holds_alternative<ItemConfirmed>(said.content) ||
                                std::holds_alternative<IntakeStated>(said.content) ||
                                std::holds_alternative<NothingElseTaken>(said.content) ||
                                std::holds_alternative<DoseReallyTaken>(said.content);
        return of_the_day ? arrival_nurse : nurse;
    }

    Moment at_;
    std::shared_ptr<Moment> clock_;
    std::unique_ptr<Book> book_;
};

screening::Date day_of(const screening::Rules& rules, Moment moment)
{
    return screening::date_of(screening::local_of(rules.zone, moment));
}

/// Some sessions lie on a day the story needs: so many days from today. One patient was rung within the last
/// day, too late for a medicine. The others stay whole weeks from their own day, so that a medicine taken on
/// Mondays stays one of Mondays. None is told for a time that has not come yet.
date::days shift_for(const DemoCase& one, const screening::Rules& rules, Moment at)
{
    static const std::map<std::string, date::days> session_on{{"LK-0401", date::days{-2}},
                                                              {"LK-0403", date::days{-1}},
                                                              {"LK-0404", date::days{2}},
                                                              {"LK-0415", date::days{0}},
                                                              {"LK-0416", date::days{0}}};
    const auto today = day_of(rules, at);
    if (const auto day = session_on.find(one.record.id); day != session_on.end()) {
        return today + day->second - screening::date_of(one.record.booking.start);
    }
    if (one.record.id == "LK-0407") {
        return date::floor<date::days>(at - one.as_of);
    }
    return date::floor<date::weeks>(at - one.as_of);
}

/// What happens on the day to a patient who comes with everything right, taken over from the one whose file
/// says it. Measures and doses of medicines the other does not take are left out.
screening::CaseRecord with_day_of(const screening::CaseRecord& record, const screening::CaseRecord& right,
                                  const screening::Rules& rules)
{
    const date::days apart =
        screening::date_of(record.booking.start) - screening::date_of(right.booking.start);
    const auto then = shifted(rules, right, apart);
    screening::CaseRecord whole = record;
    const bool same_medicines = record.medicines.items.size() == then.medicines.items.size();
    whole.arrival = then.arrival;
    if (!same_medicines) {
        whole.arrival->doses_taken.clear();
    }
    const auto inr = screening::find_fact(rules.protocol, "inr_today");
    for (std::size_t fact = 0; fact < whole.answers.size(); ++fact) {
        const bool of_the_day = rules.protocol.facts[fact].scope == screening::FactScope::day;
        if (of_the_day && (same_medicines || inr != fact)) {
            whole.answers[fact] = then.answers[fact];
        }
    }
    return whole;
}

/// What the people of the unit did beyond what the case files say. Case numbers are those of the demo.
class Stories {
public:
    Stories(Unit& unit, const screening::Rules& rules, std::vector<DemoCase> cases, Moment at)
        : unit_(unit), rules_(rules), at_(at)
    {
        for (DemoCase& one : cases) {
            const date::days by = shift_for(one, rules, at);
            records_.emplace(one.record.id, shifted(rules, one.record, by));
        }
    }

    void tell()
    {
        not_begun("LK-0411");
        for (const char* id : {"LK-0402", "LK-0405", "LK-0406", "LK-0407", "LK-0408", "LK-0409", "LK-0410",
                               "LK-0412", "LK-0413", "LK-0414", "LK-0415", "LK-0416"}) {
            unit_.play_all(rules_, records_.at(id));
        }
        closed("LK-0401");
        restart_to_be_decided("LK-0403");
        called_off_while_a_hold_runs("LK-0404");
        waits_for_the_cardiologist("LK-0402");
        spoken_and_to_be_signed("LK-0407");
        nobody_answers("LK-0406");
        moved_after_telling("LK-0408");
        told("LK-0410");
        Unit::done(hand_over(book(), nurse, unit_.at(at_, "LK-0409").on("LK-0409"),
                             {endoscopist.who, "what was ordered does not fit"}),
                   "LK-0409");
    }

private:
    Book& book() { return unit_.book(); }

    void not_begun(const std::string& id)
    {
        screening::CaseRecord booked = records_.at(id);
        for (auto& of_fact : booked.answers) {
            std::erase_if(of_fact, [](const screening::Answer& answer) {
                return answer.informant != screening::Informant::booking;
            });
        }
        booked.medicines = {};
        unit_.play_all(rules_, booked);
    }

    /// Up to the end of the phone screen, everything asked.
    void screened(const std::string& id)
    {
        unit_.play_all(rules_, records_.at(id));
        ask_what_is_left(book(), nurse, id);
    }

    void on_the_day(const std::string& id)
    {
        const auto day = with_day_of(records_.at(id), records_.at("LK-0416"), rules_);
        unit_.play_day(rules_, day);
        Unit::done(go_in(book(), arrival_nurse, unit_.on(id)), id);
        unit_.after(minutes{45});
        WorkDone done{wall_time(rules_.zone, book().now()), {"colonoscopy"}, ""};
        Unit::done(record_what_was_done(book(), arrival_nurse, unit_.on(id), done), id);
        Unit::done(record_preparation_quality(book(), arrival_nurse, unit_.on(id), {"clean in every part"}),
                   id);
    }

    void closed(const std::string& id)
    {
        screened(id);
        unit_.after(minutes{20}).clear_by(nurse, id);
        unit_.after(minutes{5}).tell_all(id);
        on_the_day(id);
        Unit::done(close(book(), arrival_nurse, unit_.after(hours{1}).on(id), "gone home with the escort"),
                   id);
    }

    void restart_to_be_decided(const std::string& id)
    {
        screened(id);
        unit_.after(hours{3}).agree_to_all(id);
        unit_.after(hours{1}).tell_all(id);
        on_the_day(id);
    }

    void called_off_while_a_hold_runs(const std::string& id)
    {
        screened(id);
        unit_.after(hours{3}).agree_to_all(id);
        unit_.after(hours{1}).tell_all(id);
        Unit::done(call_off(book(), scheduler, unit_.at(at_ - minutes{50}, id).on(id),
                            "a fall at home, in hospital elsewhere"),
                   id);
    }

    void waits_for_the_cardiologist(const std::string& id)
    {
        const auto yesterday = day_of(rules_, at_) - date::days{1};
        Unit::done(ask_outside(book(), nurse, unit_.at(at_ - date::days{5}, id).on(id),
                               {"o1", "hold:m1", "May warfarin pause, and with what instead?",
                                "heart clinic, Dr Odile Farrant", yesterday}),
                   id);
    }

    void spoken_and_to_be_signed(const std::string& id)
    {
        unit_.at(at_ - hours{2}, id);
        const CaseNow page = unit_.now(id);
        const auto items = checklists::to_decide(page.rules(), page.record(), page.whole);
        const auto by_endoscopist = std::ranges::find_if(items, [](const auto& item) {
            return std::ranges::find(item.who, Role::endoscopist) != item.who.end();
        });
        if (by_endoscopist == items.end()) {
            throw std::logic_error(id + ": nothing is there for the endoscopist to decide");
        }
        DecisionSpoken spoken{
            .decided =
                {by_endoscopist->id, screening::DecisionAnswer::change,
                 "take no more of it; the procedure goes ahead if the blood ketones on arrival are low, "
                 "else on another day",
                 shown_items(page).at(by_endoscopist->id), std::nullopt},
            .shown = {},
            .clinician = endoscopist.who,
            .role = Role::endoscopist,
            .spoken = wall_time(rules_.zone, book().now()),
            .how = "by phone",
            .read_back = true};
        Unit::done(record_spoken_decision(book(), nurse, unit_.on(id), spoken), id);
    }

    void nobody_answers(const std::string& id)
    {
        for (const hours ago : {hours{26}, hours{3}}) {
            Unit::done(record_try(book(), nurse, unit_.at(at_ - ago, id).on(id),
                                  {"first call", checklists::TryOutcome::no_answer,
                                   "about the days without appetite"}),
                       id);
        }
    }

    void moved_after_telling(const std::string& id)
    {
        unit_.at(at_ - hours{30}, id);
        ask_what_is_left(book(), nurse, id);
        // In later years the unit's standing order has run out, and a clinician is asked.
        if (unit_.now(id).whole.clearance.possible) {
            unit_.clear_by(nurse, id);
        } else {
            unit_.agree_to_all(id);
        }
        unit_.tell_all(id);
        Rescheduled moved;
        const screening::LocalMinute start = unit_.now(id).record().booking.start;
        moved.start = wall_time(rules_.zone, start + date::days{2});
        moved.words = "the endoscopist is away";
        Unit::done(reschedule(book(), scheduler, unit_.at(at_ - hours{1}, id).on(id), moved), id);
    }

    void told(const std::string& id)
    {
        unit_.at(at_ - hours{5}, id);
        ask_what_is_left(book(), nurse, id);
        unit_.agree_to_all(id);
        unit_.after(hours{1}).tell_all(id);
    }

    Unit& unit_;
    const screening::Rules& rules_;
    Moment at_;
    std::map<std::string, screening::CaseRecord> records_;
};

}  // namespace

std::unique_ptr<Book> make_demo_book(std::unique_ptr<store::Store> store, const std::filesystem::path& demo,
                                     const data::ProtocolTexts& protocol, Moment at)
{
    const auto policy = data::whole_text(demo / "larkmoor.yaml");
    if (!policy) {
        throw std::runtime_error((demo / "larkmoor.yaml").string() + " cannot be read");
    }
    const UnitTexts texts{protocol, *policy};
    const auto unit_rules = must_read(texts);
    const screening::Rules& rules = unit_rules->rules;
    Unit unit(std::move(store), at);
    unit.open_for_work(texts);
    Stories(unit, rules, read_cases(demo / "cases", rules), at).tell();
    return unit.take();
}

}  // namespace foreday::book
