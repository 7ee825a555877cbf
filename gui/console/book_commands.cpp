#include "gui/console/book_commands.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <sstream>
#include <stdexcept>

#include "checklists/page_text.h"
#include "checklists/strands.h"
#include "data/book/demo_book.h"
#include "data/book/projecting.h"
#include "data/book/seen_page.h"
#include "data/book/verbs_unit.h"
#include "data/reading/yaml_text.h"
#include "data/store/sqlite_store.h"
#include "data/store/verify.h"
#include "gui/console/printing.h"
#include "gui/console/report_json.h"
#include "gui/console/report_words.h"
#include "gui/console/words.h"

namespace foreday::console {
namespace {

using book::Book;
using screening::Moment;
using store::OpenMode;

Moment clock_now()
{
    return std::chrono::time_point_cast<std::chrono::seconds>(std::chrono::system_clock::now());
}

Status refuse(const std::string& words)
{
    print_error("foreday: " + words + "\n");
    return Status::input_has_faults;
}

/// What can go wrong with any book, as one line for a person.
template <class Work>
Status with_book(const Work& work)
{
    try {
        return work();
    } catch (const store::StoreFault& fault) {
        return refuse(fault.what());
    } catch (const std::runtime_error& error) {
        return refuse(error.what());
    }
}

std::optional<store::NotedHead> read_head(const std::string& text)
{
    std::istringstream words(text);
    std::string chain;
    store::NotedHead noted;
    words >> chain >> noted.head.number >> noted.head.hash;
    const bool hash_fits = noted.head.hash.size() == 64 &&
                           noted.head.hash.find_first_not_of("0123456789abcdef") == std::string::npos;
    if (!words || (chain != "journal" && chain != "looks") || noted.head.number < 0 || !hash_fits) {
        return std::nullopt;
    }
    noted.chain = chain == "journal" ? store::Chain::journal : store::Chain::looks;
    return noted;
}

std::string head_words(std::string_view chain, const store::Head& head)
{
    return fmt::format("{} {} {}\n", chain, head.number, head.hash);
}

/// The moment to look from: a written time in the zone of the book's rules, else the clock.
std::optional<Moment> moment_from(const std::optional<std::string>& at, const screening::Zone& zone)
{
    if (!at) {
        return clock_now();
    }
    const auto written = screening::parse_written_time(*at);
    const auto moment = written ? screening::resolve(zone, *written) : tl::unexpected(written.error());
    if (!moment) {
        print_error(fmt::format("--at: {}; {}\n", moment.error().what, moment.error().would_be_right));
        return std::nullopt;
    }
    return *moment;
}

/// What `make` makes in a new file. When it fails, the file is not left behind.
template <class Make>
auto made_whole(const std::filesystem::path& file, const Make& make)
{
    if (std::filesystem::exists(file)) {
        throw std::runtime_error(file.string() + " is there already; another folder, or the file moved away");
    }
    try {
        return make();
    } catch (const std::exception&) {
        for (const char* beside : {"", "-wal", "-shm"}) {
            std::error_code ignored;
            std::filesystem::remove(file.string() + beside, ignored);
        }
        throw;
    }
}

/// A case of a book, as it is at the moment asked for.
struct Found {
    std::unique_ptr<Book> book;
    book::CaseNow now;
};

tl::expected<Found, Status> find_case(const BookCaseOptions& options)
{
    auto clock = std::make_shared<Moment>(clock_now());
    auto opened = std::make_unique<Book>(store::open_book(options.book, OpenMode::read_only),
                                         [clock] { return *clock; });
    const auto unit = opened->rules();
    if (!unit) {
        return tl::unexpected(refuse(book::in_words(unit.error())));
    }
    const auto at = moment_from(options.at, (*unit)->rules.zone);
    if (!at) {
        return tl::unexpected(Status::wrong_use);
    }
    *clock = *at;
    auto now = opened->open(options.case_id);
    if (!now) {
        return tl::unexpected(refuse(book::in_words(now.error())));
    }
    return Found{std::move(opened), std::move(*now)};
}

std::string strands_words(const book::CaseNow& now)
{
    const auto strands =
        checklists::strands_of(now.rules(), now.file(), now.whole, now.at, book::book_hash());
    std::string words;
    for (const std::string* sentence : {&strands.screening_words, &strands.decision_words,
                                        &strands.told_words, &strands.day_words, &strands.closing_words}) {
        words += wrapped(*sentence, 2);
    }
    return words;
}

std::string calls_words(const book::CaseNow& now)
{
    std::string words;
    for (const checklists::Call& call :
         checklists::calls_of(now.rules(), now.file(), now.whole, book::book_hash())) {
        words += wrapped(fmt::format("from {}, useful until {}: {} Tries so far: {}.",
                                     moment_words(now.rules().zone, call.due_from),
                                     moment_words(now.rules().zone, call.useful_until), call.why, call.tries),
                         2);
    }
    return words.empty() ? "  None.\n" : words;
}

std::string page_words(const book::CaseNow& now)
{
    std::string words;
    for (const checklists::Line& line : checklists::case_page(now.rules(), now.file(), now.whole).lines) {
        words += line.kind == checklists::LineKind::heading ? "\n" + line.text + "\n" : wrapped(line.text, 2);
    }
    return words;
}

}  // namespace

Status new_book_command(const NewBookOptions& options)
{
    const auto role = screening::find_role(options.role);
    if (!role) {
        print_error(fmt::format("--role: \"{}\" is no role; such as medical director\n", options.role));
        return Status::wrong_use;
    }
    return with_book([&] {
        const auto protocol = data::protocol_texts(options.protocol);
        const auto policy = data::whole_text(options.policy);
        if (!protocol || !policy) {
            return refuse(
                fmt::format("{} cannot be read", (policy ? options.protocol : options.policy).string()));
        }
        const book::UnitTexts texts{*protocol, *policy};
        const auto unit = book::read_unit(texts);
        const book::Writer writer{options.by, *role, "console"};
        if (unit.rules == nullptr) {
            print_faults(unit.faults);
            return Status::input_has_faults;
        }
        if (const auto refused = book::role_refused(writer, book::Verb::put_in_force)) {
            return refuse(book::in_words(*refused));
        }
        Book made(store::create_book(options.file), clock_now);
        if (const auto refused = book::put_in_force(made, writer, texts)) {
            return refuse(book::in_words(*refused));
        }
        print(fmt::format("{}: a new book for {}, protocol {}\n", options.file.string(),
                          unit.rules->rules.policy.unit, unit.rules->rules.protocol.version));
        return Status::done;
    });
}

Status verify_book_command(const std::filesystem::path& file, const std::vector<std::string>& noted)
{
    std::vector<store::NotedHead> heads;
    for (const std::string& text : noted) {
        const auto head = read_head(text);
        if (!head) {
            print_error(
                fmt::format("--head: \"{}\" is no end of a chain; such as \"journal 120 HASH\", as this "
                            "command prints it\n",
                            text));
            return Status::wrong_use;
        }
        heads.push_back(*head);
    }
    return with_book([&] {
        const auto opened = store::open_book(file, OpenMode::read_only);
        const store::Verification found = store::verify(*opened, heads, book::documents_named);
        for (const store::Damage& damage : found.damages) {
            print_error(store::in_words(damage) + "\n");
        }
        print(head_words("journal", found.journal) + head_words("looks", found.looks) +
              fmt::format("documents {}\n", found.documents));
        print(found.damages.empty()
                  ? "sound: every entry is as it was written\n"
                  : "NOT SOUND: keep this file as it is, and go on from the last good copy\n");
        return found.damages.empty() ? Status::done : Status::input_has_faults;
    });
}

Status rebuild_book_command(const std::filesystem::path& file)
{
    return with_book([&] {
        Book opened(store::open_book(file, OpenMode::read_write), clock_now);
        const int cases = book::rebuild(opened);
        print(fmt::format("the lists of {} cases are made again from the journal\n", cases));
        return Status::done;
    });
}

Status book_info_command(const std::filesystem::path& file)
{
    return with_book([&] {
        Book opened(store::open_book(file, OpenMode::read_only), clock_now);
        const store::StoreInfo info = opened.store().info();
        const auto unit = opened.rules();
        print(fmt::format("schema {}\n", info.schema_version));
        if (!info.may_write) {
            print(wrapped("read only: " + info.why_not, 0));
        }
        print(head_words("journal", opened.store().head(store::Chain::journal)) +
              head_words("looks", opened.store().head(store::Chain::looks)));
        print(fmt::format("cases {}, documents {}\n", info.cases, info.documents));
        if (unit) {
            print(fmt::format("unit {}, protocol {} ({})\n", (*unit)->rules.policy.unit,
                              (*unit)->rules.protocol.version, (*unit)->protocol_hash));
        } else {
            print(wrapped(book::in_words(unit.error()), 0));
        }
        return Status::done;
    });
}

Status demo_command(const std::filesystem::path& folder, const std::optional<std::string>& at,
                    const std::filesystem::path& data)
{
    return with_book([&] {
        const auto protocol = data::protocol_texts(data / "protocol");
        const auto policy = data::whole_text(data / "demo" / "larkmoor.yaml");
        if (!protocol || !policy) {
            return refuse((data / "demo").string() + " cannot be read");
        }
        const auto unit = book::read_unit({*protocol, *policy});
        if (unit.rules == nullptr) {
            print_faults(unit.faults);
            return Status::input_has_faults;
        }
        const auto moment = moment_from(at, unit.rules->rules.zone);
        if (!moment) {
            return Status::wrong_use;
        }
        std::filesystem::create_directories(folder);
        const auto file = folder / "larkmoor.foreday";
        const auto made = made_whole(file, [&] {
            return book::make_demo_book(store::create_book(file), data / "demo", *protocol, *moment);
        });
        print(fmt::format("{}: {} invented patients of an invented unit\n", file.string(),
                          made->store().info().cases));
        return Status::done;
    });
}

Status show_case_command(const BookCaseOptions& options)
{
    return with_book([&] {
        const auto found = find_case(options);
        if (!found) {
            return found.error();
        }
        const book::CaseNow& now = found->now;
        print(wrapped(caution(), 0) +
              fmt::format("\nCase {}, seen {}\n", now.id(), moment_words(now.rules().zone, now.at)));
        print("\nWhere it stands\n" + strands_words(now) + "\nCalls\n" + calls_words(now));
        const auto changes = book::changes_since_signed(*found->book, now);
        if (!changes.empty()) {
            print("\nChanged since it was signed\n");
            for (const checklists::Change& change : changes) {
                print(wrapped(change.words, 2));
            }
        }
        print(page_words(now));
        for (const book::NotPlaced& lost : now.folded.not_placed) {
            print(wrapped(
                fmt::format("Entry {} ({}) could not be placed: {}", lost.entry, lost.kind, lost.why), 2));
        }
        return Status::done;
    });
}

Status assess_in_book_command(const BookCaseOptions& options)
{
    return with_book([&] {
        const auto found = find_case(options);
        if (!found) {
            return found.error();
        }
        const book::CaseNow& now = found->now;
        const ReportHead head{.case_id = now.id(),
                              .unit = now.rules().policy.unit,
                              .protocol_version = now.rules().protocol.version,
                              .protocol_hash = now.unit->protocol_hash,
                              .policy_hash = now.unit->policy_hash,
                              .caution = caution()};
        constexpr int indent = 2;
        print(options.json ? report_json(head, now.rules(), now.record(), now.whole).dump(indent) + "\n"
                           : report_words(head, now.rules(), now.record(), now.whole));
        return Status::done;
    });
}

}  // namespace foreday::console
