#include "data/book/fold.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <variant>

#include "data/book/fold_state.h"

namespace foreday::book {

Folding::Folding(const screening::Protocol& protocol, const screening::Zone& zone, Gathered gathered,
                 FoldedCase& folded)
    : protocol_(protocol),
      zone_(zone),
      gathered_(std::move(gathered)),
      folded_(folded),
      file_(folded.file),
      record_(folded.file.record)
{
    record_.answers.resize(protocol.facts.size());
    folded_.answer_entries.resize(protocol.facts.size());
    answered_by_.resize(protocol.facts.size());
}

void Folding::run()
{
    for (const Event& event : gathered_.events) {
        event_ = &event;
        std::visit([this](const auto& said) { apply(said); }, event.content);
    }
    // The patient's own numbers first.
    for (const std::string& phone : phones_of_others_) {
        if (std::ranges::find(file_.phones, phone) == file_.phones.end()) {
            file_.phones.push_back(phone);
        }
    }
    std::ranges::stable_sort(folded_.not_placed, {}, &NotPlaced::entry);
}

void Folding::not_placed(std::string about, std::string why)
{
    folded_.not_placed.push_back({event_->number(), event_->said().kind, std::move(about), std::move(why)});
}

FoldedCase fold_case(const screening::Protocol& protocol, const screening::Zone& zone, std::string case_id,
                     const std::vector<store::Entry>& case_entries,
                     const std::vector<store::Entry>& patient_entries)
{
    FoldedCase folded;
    folded.file.record.id = std::move(case_id);
    Gathered gathered = gather(case_entries, patient_entries, folded);
    Folding(protocol, zone, std::move(gathered), folded).run();
    return folded;
}

}  // namespace foreday::book
