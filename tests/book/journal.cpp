#include "tests/book/journal.h"

#include <fmt/format.h>

#include <stdexcept>
#include <utility>

namespace foreday::tests {

screening::Moment at(std::string_view written)
{
    return screening::resolve(demo_rules().zone, screening::parse_written_time(written).value()).value();
}

book::WallTime wall(std::string_view written)
{
    return book::wall_time(demo_rules().zone, at(written));
}

screening::Date day(std::string_view iso)
{
    return screening::parse_date(iso).value();
}

screening::FactIndex fact(std::string_view id)
{
    return screening::find_fact(demo_rules().protocol, id).value();
}

screening::MedicineIndex medicine(std::string_view id)
{
    return screening::find_medicine(demo_rules().protocol, id).value();
}

Journal Journal::booked()
{
    Journal journal;
    journal.when("2027-06-01T09:00").by("Clerk Petra Lund", screening::Role::scheduler, "booking");
    journal.add_about(patient_id, 0,
                      book::PatientMade{"Orla Finch", "P-0900", day("1961-03-02"), "female", {"555 0100"}});
    journal.add(
        book::BookingMade{patient_id, {"colonoscopy"}, wall("2027-06-17T10:00"), {"peg_els_4l_split", ""}});
    journal.when("2027-06-10T09:00").by("Nurse Ansgar Leith");
    return journal;
}

Journal& Journal::by(std::string who, screening::Role role, std::string desk)
{
    who_ = std::move(who);
    role_ = role;
    desk_ = std::move(desk);
    return *this;
}

Journal& Journal::when(std::string_view written)
{
    at_ = at(written);
    return *this;
}

std::int64_t Journal::add(const book::Content& content)
{
    return add_seen(last(), content);
}

std::int64_t Journal::add_seen(std::int64_t seen, const book::Content& content)
{
    return add_about(case_id, seen, content);
}

std::int64_t Journal::add_about(const std::string& subject, std::int64_t seen, const book::Content& content)
{
    entries_.push_back({last() + 1, book::new_entry(subject, at_, who_, desk_, {role_, seen}, content), ""});
    return last();
}

std::int64_t Journal::add_raw(const std::string& subject, std::string kind, int version, std::string payload)
{
    entries_.push_back(
        {last() + 1, {subject, at_, who_, desk_, std::move(kind), version, std::move(payload)}, ""});
    return last();
}

std::vector<store::Entry> Journal::about(const std::string& subject) const
{
    std::vector<store::Entry> found;
    for (const store::Entry& entry : entries_) {
        if (entry.said.subject == subject) {
            found.push_back(entry);
        }
    }
    return found;
}

book::FoldedCase Journal::fold_under(const screening::Protocol& protocol) const
{
    const auto of_case = about(case_id);
    const auto of_patient =
        book::patient_entries_for(of_case, [this](const std::string& subject) { return about(subject); });
    return book::fold_case(protocol, demo_rules().zone, case_id, of_case, of_patient);
}

book::Answered said(std::string fact_id, book::StatedValue value)
{
    book::Answered answer;
    answer.fact = std::move(fact_id);
    answer.value = std::move(value);
    return answer;
}

book::Answered weight(std::string_view kilograms)
{
    const auto number = screening::Exact::parse(kilograms).value();
    return said("weight", book::StatedNumber{number, number, "kg"});
}

}  // namespace foreday::tests
