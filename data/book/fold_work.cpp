#include <fmt/format.h>

#include <algorithm>

#include "data/book/fold_state.h"

/// The work around a case.
namespace foreday::book {

using checklists::TryOutcome;

void Folding::apply(const NoteMade& said)
{
    file_.notes.push_back({at(), who(), said.words});
}

void Folding::add_try(const std::string& call, TryOutcome outcome, const std::string& words)
{
    file_.tries.push_back({call, at(), who(), outcome, words});
}

void Folding::apply(const TryMade& said)
{
    add_try(said.call, said.outcome, said.words);
}

void Folding::apply(const PatientRangIn& said)
{
    add_try(said.call, TryOutcome::rang_in, said.words);
}

void Folding::apply(const CallEndedForEmergency& said)
{
    add_try(said.call, TryOutcome::ended_for_an_emergency, said.words);
}

void Folding::apply(const OutsideAskSent& said)
{
    file_.outside_asks.push_back(
        {said.id, said.item, said.what, said.whom, at(), said.reply_by, std::nullopt, ""});
}

void Folding::apply(const OutsideAskAnswered& said)
{
    const auto waiting = std::ranges::find_if(file_.outside_asks, [&](const checklists::OutsideAsk& ask) {
        return ask.id == said.id && !ask.came;
    });
    if (waiting == file_.outside_asks.end()) {
        return not_placed(said.id, fmt::format("nothing that was asked outside as \"{}\" waits", said.id));
    }
    waiting->came = at();
    waiting->answer = said.answer;
}

void Folding::apply(const HandedOver& said)
{
    file_.who_has_it = said.to;
}

void Folding::apply(const SheetIssued& said)
{
    folded_.sheets.push_back({event_->number(), said.sheet, said.language, at(), who(), std::nullopt});
}

void Folding::apply(const SheetSuperseded& said)
{
    bool found = false;
    for (IssuedSheet& sheet : folded_.sheets) {
        if (sheet.sheet == said.sheet && !sheet.superseded) {
            sheet.superseded = at();
            found = true;
        }
    }
    if (!found) {
        not_placed(said.sheet, "no such sheet is in force");
    }
}

void Folding::apply(const QualityStated& said)
{
    file_.preparation_quality = said.words;
}

void Folding::apply(const RestartDecided& said)
{
    file_.restarts.push_back(
        {said.item, at(), who(), event_->envelope.role, said.words, said.from, std::nullopt});
    folded_.restart_entries.push_back(event_->number());
}

/// What was told is the last that was decided.
void Folding::apply(const RestartTold& said)
{
    for (const std::string& item : said.items) {
        const auto last =
            std::find_if(file_.restarts.rbegin(), file_.restarts.rend(),
                         [&](const checklists::Restart& restart) { return restart.item == item; });
        if (last == file_.restarts.rend()) {
            not_placed(item, fmt::format("no restart of \"{}\" was decided", item));
        } else if (!last->told) {
            last->told = at();
        }
    }
}

void Folding::apply(const CaseClosed& /*said*/)
{
    file_.closed = at();
}

}  // namespace foreday::book
