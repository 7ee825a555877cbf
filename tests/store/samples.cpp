#include "tests/store/samples.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <algorithm>

#include "data/store/verify.h"

namespace foreday::tests {

screening::Moment at_minute(int minutes)
{
    return date::sys_days{date::year{2027} / 4 / 12} + std::chrono::hours{13} + std::chrono::minutes{minutes};
}

store::NewEntry entry_about(const std::string& subject, const std::string& payload, int minute)
{
    store::NewEntry entry;
    entry.subject = subject;
    entry.at = at_minute(minute);
    entry.who = "n.ortega";
    entry.desk = "phone 2";
    entry.kind = "note";
    entry.kind_version = 1;
    entry.payload = payload;
    return entry;
}

store::Entry append(store::Store& store, const std::string& subject, const std::string& payload,
                    store::Chain chain)
{
    store::Entry entry;
    store.write(
        [&](store::Writing& writing) { entry = writing.append(chain, entry_about(subject, payload)); });
    return entry;
}

store::CaseProjection projection_of(const std::string& case_id, int number)
{
    store::CaseProjection one;
    one.case_id = case_id;
    one.patient_id = fmt::format("p{}", number);
    one.rules_hash = "rules 1";
    one.up_to = number;
    one.look_again = at_minute(1000 + number);
    one.name = fmt::format("Núñez-{}, Łucja", number);
    one.number = fmt::format("LM{:06}", number);
    one.born = date::local_days{date::year{1960} / 1 / 1} + date::days{number};
    one.day = date::local_days{date::year{2027} / 4 / 20} + date::days{number};
    one.start = at_minute(10'000 + number);
    one.procedures = "colonoscopy";
    one.search_words = {"nunez", "lucja", fmt::format("lm{:06}", number), fmt::format("555010{:04}", number)};
    one.calls = {{"first call", at_minute(number), at_minute(500), 0, "not reached yet"},
                 {"outside ask:o1", at_minute(60 + number), at_minute(600), 2, "no answer"}};
    one.undecided = {{"hold:1", screening::Level::ask, at_minute(90), "Blood thinner: when to stop"},
                     {"finding:2", screening::Level::stop, at_minute(91), "Chest pain at rest"}};
    return one;
}

void project(store::Store& store, const store::CaseProjection& projection)
{
    store.write([&](store::Writing& writing) { writing.project(projection); });
}

std::vector<std::string> ids_of(const std::vector<store::CaseProjection>& cases)
{
    std::vector<std::string> ids;
    for (const store::CaseProjection& one : cases) {
        ids.push_back(one.case_id);
    }
    return ids;
}

std::vector<std::string> payloads_of(const store::Store& store, store::Chain chain)
{
    std::vector<std::string> payloads;
    for (const store::Entry& entry : store.entries(chain, 0, 1'000'000)) {
        payloads.push_back(entry.said.payload);
    }
    return payloads;
}

std::string damages_in(const store::Store& store)
{
    std::string lines;
    for (const store::Damage& damage : store::verify(store).damages) {
        lines += in_words(damage) + '\n';
    }
    return lines;
}

void spoil(const std::filesystem::path& book, const std::string& sql)
{
    SQLite::Database database{book.string(), SQLite::OPEN_READWRITE, 5000};
    std::vector<std::string> triggers;
    {
        SQLite::Statement names{database, "SELECT name FROM sqlite_schema WHERE type = 'trigger'"};
        while (names.executeStep()) {
            triggers.push_back(names.getColumn(0).getString());
        }
    }
    for (const std::string& name : triggers) {
        database.exec("DROP TRIGGER " + name);
    }
    database.exec(sql);
}

std::vector<std::string> names_in(const std::filesystem::path& folder)
{
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        names.push_back(entry.path().filename().string());
    }
    std::ranges::sort(names);
    return names;
}

}  // namespace foreday::tests
