#include "tests/book/desk.h"

#include <algorithm>
#include <filesystem>
#include <stdexcept>

#include "data/book/contents_of.h"
#include "data/book/playing.h"
#include "data/book/verbs_booking.h"
#include "data/book/verbs_unit.h"
#include "data/reading/case_reading.h"
#include "data/reading/yaml_text.h"
#include "data/store/memory_store.h"

namespace foreday::tests {
namespace {

const std::filesystem::path data_folder = FOREDAY_SOURCE_DATA_DIR;

data::ReadCase read_demo_case(std::string_view file)
{
    return data::read_case(data_folder / "demo" / "cases" / file, demo_rules(), at("2027-03-01T09:00"));
}

}  // namespace

const book::Writer& writer_of(const book::RecordedContent& said)
{
    switch (said.role) {
        case screening::Role::endoscopist:
            return physician;
        case screening::Role::scheduler:
            return scheduler;
        case screening::Role::arrival_clerk:
            return clerk;
        default:
            return nurse;
    }
}

std::vector<book::RecordedContent> demo_contents(std::string_view file)
{
    const auto read = read_demo_case(file);
    return book::in_order_of_work(
        book::contents_of(demo_rules(), read.record.value(), read.record->booking.patient.number));
}

book::UnitTexts demo_texts()
{
    return {data::protocol_texts(data_folder / "protocol").value(),
            data::whole_text(data_folder / "demo" / "larkmoor.yaml").value()};
}

std::string replaced(std::string text, const std::string& from, const std::string& to)
{
    const auto place = text.find(from);
    if (place == std::string::npos) {
        throw std::runtime_error("not in the text: " + from);
    }
    return text.replace(place, from.size(), to);
}

book::UnitTexts demo_texts_with(const std::string& from, const std::string& to)
{
    book::UnitTexts texts = demo_texts();
    texts.policy = replaced(texts.policy, from, to);
    return texts;
}

Desk::Desk(std::unique_ptr<store::Store> store)
    : clock_(std::make_shared<screening::Moment>(at("2027-03-01T09:00")))
{
    book_ = std::make_unique<book::Book>(store ? std::move(store) : store::make_memory_store(),
                                         [clock = clock_] { return *clock; });
    if (const auto refused = book::put_in_force(*book_, director, demo_texts())) {
        throw std::runtime_error(book::in_words(*refused));
    }
}

std::string Desk::play_case(std::string_view file)
{
    return play(file, true);
}

std::string Desk::play_case_up_to_the_day(std::string_view file)
{
    return play(file, false);
}

std::string Desk::play(std::string_view file, bool with_the_day)
{
    const auto read = read_demo_case(file);
    for (const book::RecordedContent& said : demo_contents(file)) {
        if (!with_the_day && std::holds_alternative<book::Arrived>(said.content)) {
            *clock_ = said.at;
            return read.record->id;
        }
        *clock_ = said.at;
        book::play(*book_, writer_of(said), said);
    }
    *clock_ = read.as_of.value();
    return read.record->id;
}

book::CaseNow Desk::now(const std::string& id) const
{
    return book::must(book_->open(id), id);
}

screening::FactReading Desk::reading(const std::string& id, std::string_view fact_id) const
{
    return now(id).whole.assessment.readings.at(fact(fact_id));
}

book::SignedPage Desk::page_of(const std::string& id) const
{
    const book::CaseNow page = now(id);
    book::SignedPage signed_page{.decided = {}, .shown = book::shown_items(page), .clears = true};
    for (const screening::Item* item : checklists::all_items(page.whole.assessment)) {
        if (item->level >= screening::Level::ask) {
            signed_page.decided.push_back({item->id, screening::DecisionAnswer::agree, "seen and agreed",
                                           signed_page.shown.at(item->id), std::nullopt});
        }
    }
    return signed_page;
}

book::Outcome<book::CaseNow> Desk::agree_to_all(const std::string& id)
{
    return book::sign(*book_, physician, on(id), page_of(id));
}

book::Answered said_number(std::string fact, std::string_view number, std::string unit)
{
    const auto exact = screening::Exact::parse(number).value();
    return said(std::move(fact), book::StatedNumber{exact, exact, std::move(unit)});
}

book::StatedMedicine on_list(std::string medicine)
{
    book::StatedMedicine stated;
    stated.medicine = std::move(medicine);
    stated.pattern = screening::Daily{{screening::TimeOfDay{480}}};
    return stated;
}

book::ListClosed whole_list()
{
    book::ListClosed closed;
    for (const screening::ListQuestion& question : demo_rules().protocol.list_questions) {
        closed.gone_through.push_back(question.id);
    }
    return closed;
}

std::string book_orla_finch(book::Book& book)
{
    const auto patient = book::must(
        book::make_patient(book, scheduler,
                           {"Orla Finch", "P-0900", day("1961-03-02"), "female", {"555-0190"}}, patient_id),
        "patient");
    return book::must(
               book::make_booking(
                   book, scheduler,
                   {patient, {"colonoscopy"}, wall("2027-06-17T10:00"), {"peg_els_4l_split", ""}}, case_id),
               "booking")
        .id();
}

}  // namespace foreday::tests
