#include <gtest/gtest.h>

#include <filesystem>

#include "checklists/whole_case.h"
#include "data/book/contents_of.h"
#include "data/reading/case_reading.h"
#include "data/reading/hashing.h"
#include "tests/book/journal.h"

namespace foreday::tests {
namespace {

using screening::CaseRecord;

struct DemoCase {
    CaseRecord record;
    screening::Moment as_of;
};

std::vector<std::filesystem::path> demo_files()
{
    std::vector<std::filesystem::path> files;
    for (const auto& file : std::filesystem::directory_iterator(FOREDAY_SOURCE_DATA_DIR "/demo/cases")) {
        files.push_back(file.path());
    }
    std::ranges::sort(files);
    return files;
}

DemoCase read(const std::filesystem::path& file)
{
    const auto read = data::read_case(file, demo_rules(), at("2027-06-01T09:00"));
    return {read.record.value(), read.as_of.value()};
}

book::FoldedCase written_and_folded(const CaseRecord& record)
{
    std::vector<store::Entry> of_case;
    std::vector<store::Entry> of_patient;
    std::int64_t number = 0;
    for (const auto& one : book::contents_of(demo_rules(), record, "P-1")) {
        const book::Envelope envelope{one.role, one.unseen ? 0 : number};
        ++number;
        (one.subject == "P-1" ? of_patient : of_case)
            .push_back(
                {number, book::new_entry(one.subject, one.at, one.who, one.desk, envelope, one.content), ""});
    }
    return book::fold_case(demo_rules().protocol, demo_rules().zone, record.id, of_case, of_patient);
}

/// Every item as it comes out, with its fingerprint and what was decided of it.
std::string outcome(const CaseRecord& record, screening::Moment now)
{
    const auto whole = checklists::look_at(demo_rules(), record, now,
                                           [](std::string_view bytes) { return data::sha256_hex(bytes); });
    std::string text;
    const auto items = checklists::all_items(whole.assessment);
    for (std::size_t place = 0; place < items.size(); ++place) {
        text += items[place]->id + " " + whole.decided[place].fingerprint + " " +
                std::string(checklists::name_of(whole.decided[place].state)) + "\n";
        for (const auto& ground : items[place]->because) {
            text += "  " + ground.what + ": " + ground.value + " (" + ground.who + ")\n";
        }
    }
    for (const auto& item : whole.readiness.items) {
        text += item.id + " " + std::string(checklists::name_of(item.state)) + " " + item.why + "\n";
    }
    return text + std::string(checklists::name_of(whole.readiness.verdict)) + " " +
           std::to_string(static_cast<int>(whole.clearance.given));
}

TEST(FoldDemo, EveryDemoCaseWrittenAsEntriesFoldsToTheRecordThatWasRead)
{
    const auto files = demo_files();
    EXPECT_EQ(files.size(), 16U);
    for (const auto& file : files) {
        const DemoCase demo = read(file);
        const auto folded = written_and_folded(demo.record);
        EXPECT_EQ(lines_of(folded.file.record), lines_of(demo.record)) << file;
        EXPECT_TRUE(folded.not_placed.empty()) << file << folded.not_placed.at(0).why;
    }
}

TEST(FoldDemo, EveryDemoCaseWrittenAsEntriesComesOutTheSame)
{
    for (const auto& file : demo_files()) {
        const DemoCase demo = read(file);
        const std::string before = outcome(demo.record, demo.as_of);
        EXPECT_GT(before.size(), 100U) << file;
        EXPECT_EQ(outcome(written_and_folded(demo.record).file.record, demo.as_of), before) << file;
    }
}

TEST(FoldDemo, ARecordWithAllThatDemoCasesLackFoldsToItself)
{
    CaseRecord record = read(demo_files().front()).record;
    auto& weights = record.answers.at(fact("weight"));
    const auto seventy_five = screening::Exact::parse("75").value();
    screening::Answer unseen = weights.front();
    unseen.value = screening::NumberInterval{seventy_five, seventy_five};
    unseen.unseen = true;
    unseen.desk = "review desk";
    weights.push_back(unseen);
    screening::Answer not_known = weights.front();
    not_known.value.reset();
    not_known.why_not_known = screening::WhyNotKnown::would_not_say;
    weights.push_back(not_known);
    record.concerns.push_back(
        {"frail", screening::Level::stop, screening::Topic::heart, "Nurse Leith", at("2027-06-02T09:00")});
    screening::Decision spoken = record.decisions.at(0);
    spoken.manner = screening::DecisionManner::spoken;
    spoken.answer = screening::DecisionAnswer::change;
    spoken.last_dose = day("2027-06-08");
    spoken.fingerprint = std::string(64, 'f');
    record.decisions.push_back(spoken);
    spoken.manner = screening::DecisionManner::from_outside;
    spoken.role = screening::Role::cardiology;
    record.decisions.push_back(spoken);
    record.arrival->let_pass = {{demo_rules().protocol.readiness.front().head.id, "not confirmed"}};
    record.booking.ordered.reset();
    record.booking.ordered_words = "the one from last time";
    record.done = at("2027-06-15T10:20");
    EXPECT_EQ(lines_of(written_and_folded(record).file.record), lines_of(record));
}

}  // namespace
}  // namespace foreday::tests
