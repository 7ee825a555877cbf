#pragma once
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "data/book/book.h"
#include "gui/present/case_list.h"
#include "gui/present/notice.h"
#include "gui/present/questioner.h"

namespace foreday::present {

/// One person at work in one book: who it is, at which desk, the list before them and the case in their
/// hands. The desks' presenters write through it. Nothing here throws: what goes wrong is a notice.
class Workplace {
public:
    /// @param questioner  must outlive it
    /// @param program     a name for this running program, as election wants one
    Workplace(std::unique_ptr<book::Book> book, Questioner& questioner, std::string program);

    /// Begins at the home desk of the role. Refused, with a notice, for a blank name.
    bool sign_in(const std::string& who, screening::Role role);
    [[nodiscard]] bool signed_in() const { return !writer_.who.empty(); }
    [[nodiscard]] const book::Writer& writer() const { return writer_; }
    /// "Nurse Ilse Marrack, nurse, at the phone desk of Larkmoor Endoscopy."
    [[nodiscard]] std::string who_in_words() const;

    [[nodiscard]] Desk desk() const { return desk_; }
    /// The case in hand stays.
    void go_to(Desk desk);

    /// Narrows the list to what is found in the whole book; blank: the desk's own list again.
    void find(const std::string& typed);
    [[nodiscard]] const std::vector<ListRow>& rows() const { return rows_; }
    [[nodiscard]] std::string list_heading() const;

    /// Takes a case in hand. Notes the look.
    void open(const std::string& case_id);
    /// nullptr: none is in hand.
    [[nodiscard]] const book::CaseNow* now() const { return now_ ? &*now_ : nullptr; }
    /// The case in hand with what of it is in view. Only while one is.
    [[nodiscard]] book::OnCase on() const { return book::as_shown(*now_); }
    /// Reads the case in hand and the list again.
    void look_again();

    using Act = std::function<book::Outcome<book::CaseNow>()>;
    /// Does one thing to the case in hand. Done: the case as it is now is in hand, and the notice says `done`
    /// with the time. Refused: the notice says why, and the case is read again.
    bool act(const std::string& done, const Act& verb);
    /// The same for what gives no case.
    bool act(const std::string& done, const std::function<std::optional<book::Refusal>()>& verb);

    /// To be called now and then: lists that time has changed are made again by the one program elected for
    /// it; what others have written comes into view. True: something shown has changed.
    bool let_time_pass();

    [[nodiscard]] const Notice& notice() const { return notice_; }
    void say(Notice::Kind kind, std::string words) { notice_ = {kind, std::move(words)}; }
    [[nodiscard]] Questioner& questioner() const { return questioner_; }
    [[nodiscard]] book::Book& book() const { return *book_; }
    /// Rules in force. nullptr: the book has none.
    [[nodiscard]] const book::UnitRules* unit() const { return unit_.get(); }

private:
    template <class Work>
    bool guarded(const Work& work);
    void list_again();
    [[nodiscard]] std::string clock() const;

    std::unique_ptr<book::Book> book_;
    Questioner& questioner_;
    std::string program_;
    std::shared_ptr<const book::UnitRules> unit_;
    book::Writer writer_;
    Desk desk_ = Desk::phone;
    std::string typed_;
    std::vector<ListRow> rows_;
    std::optional<book::CaseNow> now_;
    Notice notice_;
};

}  // namespace foreday::present
