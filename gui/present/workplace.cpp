#include "gui/present/workplace.h"

#include <fmt/format.h>

#include <exception>

#include "checklists/words.h"
#include "data/book/projecting.h"
#include "data/book/verbs_unit.h"
#include "data/reading/folding.h"
#include "gui/present/follows.h"

namespace foreday::present {

using book::CaseNow;
using book::Outcome;

namespace {

/// What of a case may change by time alone.
std::vector<std::string> said_of(const CaseNow& now)
{
    std::vector<std::string> words = where_it_stands(now);
    words.emplace_back(checklists::name_of(now.whole.readiness.verdict));
    words.insert(words.end(), now.whole.readiness.reasons.begin(), now.whole.readiness.reasons.end());
    return words;
}

}  // namespace

Workplace::Workplace(std::unique_ptr<book::Book> book, Questioner& questioner, std::string program)
    : book_(std::move(book)), questioner_(questioner), program_(std::move(program))
{
    guarded([&] {
        if (auto rules = book_->rules()) {
            unit_ = std::move(*rules);
        } else {
            say(Notice::Kind::refused, book::in_words(rules.error()));
        }
    });
}

/// A fault of the disk, or one of ours, becomes words; the program goes on with what it has.
template <class Work>
bool Workplace::guarded(const Work& work)
{
    try {
        work();
        return true;
    } catch (const std::exception& fault) {
        say(Notice::Kind::refused, fault.what());
        return false;
    }
}

std::string Workplace::clock() const
{
    return unit_ ? checklists::clock_in_words(unit_->rules.zone, book_->now()) : std::string();
}

bool Workplace::sign_in(const std::string& who, screening::Role role)
{
    if (data::fold(who).empty()) {
        say(Notice::Kind::refused, "Nobody has signed in: a name is needed, as it shall stand in the book.");
        return false;
    }
    desk_ = home_desk(role);
    // Entries are told apart by the name: a blank typed after it must not make another person of it.
    constexpr const char* blanks = " \t\r\n";
    const std::size_t first = who.find_first_not_of(blanks);
    writer_ = {who.substr(first, who.find_last_not_of(blanks) + 1 - first), role,
               std::string(name_of(desk_))};
    say(Notice::Kind::none, "");
    return guarded([&] {
        book::note_sign_in(*book_, writer_);
        list_again();
    });
}

std::string Workplace::who_in_words() const
{
    if (!signed_in()) {
        return "Nobody has signed in.";
    }
    return fmt::format("{}, {}, at the {}{}", writer_.who, screening::name_of(writer_.role), name_of(desk_),
                       unit_ ? " of " + unit_->rules.policy.unit : "");
}

void Workplace::go_to(Desk desk)
{
    desk_ = desk;
    writer_.desk = name_of(desk);
    typed_.clear();
    guarded([&] { list_again(); });
}

void Workplace::find(const std::string& typed)
{
    typed_ = typed;
    guarded([&] { list_again(); });
}

void Workplace::list_again()
{
    rows_.clear();
    if (unit_ == nullptr || !signed_in()) {
        return;
    }
    rows_ = data::fold(typed_).empty() ? rows_of(*book_, unit_->rules.zone, desk_)
                                       : rows_found(*book_, unit_->rules.zone, typed_);
}

std::string Workplace::list_heading() const
{
    if (data::fold(typed_).empty()) {
        return heading_of(desk_, rows_.size());
    }
    if (rows_.empty()) {
        return "Nobody found by that";
    }
    return rows_.size() < most_found ? fmt::format("Found: {}", rows_.size())
                                     : fmt::format("The first {} found; type more", most_found);
}

void Workplace::open(const std::string& case_id)
{
    guarded([&] {
        auto opened = book_->open(case_id);
        if (!opened) {
            say(Notice::Kind::refused, book::in_words(opened.error()));
            return;
        }
        now_ = std::move(*opened);
        say(Notice::Kind::none, "");
        book::note_look(*book_, writer_, case_id, std::string(name_of(desk_)));
    });
}

void Workplace::look_again()
{
    guarded([&] {
        if (now_) {
            if (auto opened = book_->open(now_->id())) {
                now_ = std::move(*opened);
            }
        }
        list_again();
    });
}

bool Workplace::act(const std::string& done, const Act& verb)
{
    bool stands = false;
    guarded([&] {
        Outcome<CaseNow> outcome = verb();
        if (!outcome) {
            say(Notice::Kind::refused, book::in_words(outcome.error()));
            return;
        }
        stands = true;
        now_ = std::move(*outcome);
        std::string words = fmt::format("{}: {}", clock(), done);
        for (const std::string& remark : now_->remarks) {
            words += " " + remark;
        }
        say(Notice::Kind::done, std::move(words));
    });
    const Notice said = notice_;
    if (stands) {
        guarded([&] { list_again(); });
    } else {
        look_again();
        notice_ = said;
    }
    return stands;
}

bool Workplace::act(const std::string& done, const std::function<std::optional<book::Refusal>()>& verb)
{
    bool stands = false;
    guarded([&] {
        if (const auto refused = verb()) {
            say(Notice::Kind::refused, book::in_words(*refused));
            return;
        }
        stands = true;
        say(Notice::Kind::done, fmt::format("{}: {}", clock(), done));
    });
    const Notice said = notice_;
    look_again();
    notice_ = said;
    return stands;
}

bool Workplace::let_time_pass()
{
    constexpr std::size_t batch = 20;  // a fraction of a second of work
    bool changed = false;
    guarded([&] {
        book::look_again(*book_, program_, batch);
        if (auto rules = book_->rules(); rules && *rules != unit_) {
            unit_ = std::move(*rules);
            changed = true;
        }
        const std::vector<ListRow> before = rows_;
        list_again();
        changed = changed || rows_ != before;
        if (now_) {
            auto opened = book_->open(now_->id());
            if (opened && opened->folded.last_read != now_->folded.last_read) {
                say(Notice::Kind::news,
                    fmt::format("{}: somebody else has written into this case; it is shown as it is now.",
                                clock()));
                changed = true;
            }
            if (opened) {
                changed = changed || said_of(*opened) != said_of(*now_);
                now_ = std::move(*opened);
            }
        }
    });
    return changed;
}

}  // namespace foreday::present
