#include "data/book/projecting.h"

#include <algorithm>
#include <chrono>
#include <iterator>

#include "checklists/decide_by.h"
#include "checklists/look_again.h"
#include "data/book/codec.h"
#include "data/book/verbs_decision.h"
#include "data/reading/folding.h"

namespace foreday::book {
namespace {

using store::CaseProjection;

std::string digits_of(const std::string& phone)
{
    std::string digits;
    std::ranges::copy_if(phone, std::back_inserter(digits), [](char c) { return c >= '0' && c <= '9'; });
    return digits;
}

std::vector<std::string> search_words(const CaseNow& now)
{
    std::vector<std::string> words;
    const auto& patient = now.record().booking.patient;
    for (const std::string& text :
         {patient.name, patient.number, now.id(), now.folded.patient_id, now.folded.booked_for}) {
        std::ranges::move(search_words_of(text), std::back_inserter(words));
    }
    for (const std::string& phone : now.file().phones) {
        words.push_back(digits_of(phone));
    }
    std::erase(words, "");
    std::ranges::sort(words);
    words.erase(std::unique(words.begin(), words.end()), words.end());
    return words;
}

std::string procedures_in_words(const CaseNow& now)
{
    std::string words;
    for (const auto procedure : now.record().booking.procedures) {
        words += (words.empty() ? "" : ", ") + now.rules().protocol.procedures.at(procedure).title;
    }
    return words;
}

std::optional<screening::Moment> ended_at(const checklists::CaseFile& file)
{
    if (file.record.done) {
        return file.record.done;
    }
    return file.ending ? std::optional(file.ending->when) : std::nullopt;
}

/// Nothing is left that time or new rules could change.
bool is_finished(const CaseNow& now, const std::vector<checklists::Call>& calls)
{
    return now.file().closed || (now.file().ending && calls.empty());
}

}  // namespace

std::vector<std::string> search_words_of(const std::string& text)
{
    std::vector<std::string> words;
    const std::string folded = data::fold(text);
    std::size_t from = 0;
    while (from < folded.size()) {
        const std::size_t end = std::min(folded.find(' ', from), folded.size());
        if (end > from) {
            words.push_back(folded.substr(from, end - from));
        }
        from = end + 1;
    }
    return words;
}

CaseProjection projection_of(const CaseNow& now, const std::string& rules_hash)
{
    const auto& booking = now.record().booking;
    CaseProjection row;
    row.case_id = now.id();
    row.patient_id = now.folded.patient_id;
    row.rules_hash = rules_hash;
    row.up_to = now.folded.last_read;
    row.look_again = checklists::look_again(now.rules(), now.file(), now.whole, now.at, book_hash());
    row.name = booking.patient.name;
    row.number = booking.patient.number;
    row.born = booking.patient.born;
    row.day = screening::date_of(booking.start);
    row.start = booking.start_moment;
    row.procedures = procedures_in_words(now);
    row.search_words = search_words(now);
    const auto calls = checklists::calls_of(now.rules(), now.file(), now.whole, book_hash());
    for (const checklists::Call& call : calls) {
        row.calls.push_back({call.id, call.due_from, call.useful_until, call.tries, call.why});
    }
    // A signature is due whether or not the session takes place; before it, it should be there.
    for (const std::string& name : checklists::to_sign(now.whole)) {
        row.undecided.push_back({"signature:" + name, screening::Level::note, booking.start_moment,
                                 "What " + name + " said is to be signed"});
    }
    const bool still_to_come = !now.file().ending && !now.record().done && !now.file().closed;
    if (still_to_come) {
        for (const checklists::ToDecide& item : checklists::to_decide(now.rules(), now.record(), now.whole)) {
            row.undecided.push_back({item.id, item.level, item.decide_by, item.title});
        }
    }
    if (now.record().arrival && now.record().arrival->here_since) {
        row.here_since = screening::moment_of(now.rules().zone, *now.record().arrival->here_since);
    }
    row.gone_in = now.file().gone_in;
    row.ended = ended_at(now.file());
    row.finished = is_finished(now, calls);
    return row;
}

int look_again(Book& book, const std::string& program, std::size_t at_most)
{
    constexpr std::chrono::seconds lease{30};  // long enough for a batch; short enough if the program dies
    const auto current = book.rules();
    if (!current || !book.store().elect(program, book.now(), book.now() + lease)) {
        return 0;
    }
    const auto cases = book.store().to_look_at_again((*current)->hash, book.now(), at_most);
    for (const std::string& id : cases) {
        // One transaction a case, so that nobody at a desk waits for a batch.
        book.store().write([&](store::Writing& writing) {
            const auto now = book.project_again(id, writing);
            if (!now) {
                throw std::logic_error("a projected case is not in the journal: " + id);
            }
            if (note_lapsed_clearance(book, *now, writing)) {
                static_cast<void>(book.project_again(id, writing));
            }
        });
    }
    return static_cast<int>(cases.size());
}

int rebuild(Book& book)
{
    constexpr std::size_t batch = 1000;
    std::vector<std::string> cases;
    std::int64_t after = 0;
    for (auto entries = book.store().entries(store::Chain::journal, 0, batch); !entries.empty();
         entries = book.store().entries(store::Chain::journal, after, batch)) {
        for (const store::Entry& entry : entries) {
            if (entry.said.kind == kind_of(BookingMade{}).name) {
                cases.push_back(entry.said.subject);
            }
        }
        after = entries.back().number;
    }
    std::ranges::sort(cases);
    cases.erase(std::unique(cases.begin(), cases.end()), cases.end());
    int made = 0;
    book.store().write([&](store::Writing& writing) {
        writing.forget_projections();
        for (const std::string& id : cases) {
            made += book.project_again(id, writing) ? 1 : 0;
        }
    });
    return made;
}

}  // namespace foreday::book
