#include "gui/windows/review_panel.h"

#include <wx/wrapsizer.h>
#include <wx/wx.h>

#include <utility>

#include "gui/windows/split.h"
#include "gui/windows/text.h"

namespace foreday::windows {

ReviewPanel::ReviewPanel(wxWindow* parent, present::Workplace& place, std::function<void()> changed)
    : DeskPanel(parent, place, std::move(changed)), desk_(place)
{
    constexpr double first_share = 0.52;
    auto* split = new Split(this, first_share);
    page_ = new PageView(split, "The page of the case");
    items_ = new FlowPanel(split, "To be decided");
    split->split(page_, items_);
    auto* column = new wxBoxSizer(wxVERTICAL);
    column->Add(split, wxSizerFlags(1).Expand());
    auto* line = new wxWrapSizer(wxHORIZONTAL);
    unsigned_ = new wxStaticText(this, wxID_ANY, wxS(" "));
    line->Add(unsigned_, wxSizerFlags().CenterVertical().Border(wxRIGHT, FromDIP(12)));
    sign_ = button(this, wxS("Si&gn"), doing([this] { desk_.sign(); }));
    line->Add(sign_, wxSizerFlags().Border(wxRIGHT, FromDIP(6)));
    line->Add(button(this, wxS("Sign and c&lear the case"), doing([this] { desk_.sign_and_clear(); })));
    column->Add(line, wxSizerFlags().Expand().Border(wxALL, FromDIP(4)));
    SetSizer(column);
}

void ReviewPanel::show_case()
{
    page_->show(desk_.page());
    auto views = desk_.to_decide();
    auto countersign = desk_.to_countersign();
    auto restarts = desk_.restarts_to_decide();
    auto changes = desk_.changed_since_signed();
    unsigned_->SetLabel(label(desk_.unsigned_in_words()));
    Layout();
    const bool same = std::tie(views, countersign, restarts, changes) ==
                          std::tie(shown_, countersign_, restarts_, changes_) &&
                      case_ == place().now()->id();
    if (same) {
        return;
    }
    case_ = place().now()->id();
    countersign_ = std::move(countersign);
    restarts_ = std::move(restarts);
    changes_ = std::move(changes);
    build(views);
    shown_ = std::move(views);
}

void ReviewPanel::build(const std::vector<present::DecisionView>& views)
{
    const FlowPanel::Position before = items_->position();
    items_->Freeze();
    items_->clear();
    if (!changes_.empty()) {
        items_->add_text("Changed since it was signed", TextSize::larger);
        for (const std::string& change : changes_) {
            items_->add_text(change);
        }
        items_->add_gap();
    }
    add_waiting();
    if (views.empty()) {
        items_->add_text("Nothing is left to decide on this case.", TextSize::larger);
    }
    for (const present::DecisionView& view : views) {
        add_item(view);
    }
    items_->relayout();
    items_->go_back_to(before);
    items_->Thaw();
}

void ReviewPanel::add_waiting()
{
    for (const present::WaitingView& one : countersign_) {
        items_->add_text(one.words, TextSize::larger);
        items_->add(button(items_, wxS("Sign what I said"),
                           doing([this, entry = one.id] { desk_.countersign(entry); }),
                           "Sign: " + one.words));
        items_->add_gap();
    }
    for (const present::WaitingView& one : restarts_) {
        items_->add_text("To be started again. " + one.words, TextSize::larger);
        items_->add(button(items_, wxS("Decide how..."),
                           doing([this, item = one.id] { desk_.decide_restart(item); }),
                           "Decide how it is started again: " + one.words));
        items_->add_gap();
    }
}

void ReviewPanel::add_item(const present::DecisionView& view)
{
    items_->add_text(view.title, TextSize::larger);
    if (!view.ground.empty()) {
        items_->add_text(view.ground);
    }
    items_->add_text(view.by);
    auto* line = new wxWrapSizer(wxHORIZONTAL);
    const auto add = [&](const char* words, auto one_thing) {
        wxButton* made =
            button(items_, shown(words), doing(one_thing), std::string(words) + " " + view.title);
        made->Enable(view.mine);
        line->Add(made, wxSizerFlags().Border(wxRIGHT | wxBOTTOM, FromDIP(6)));
    };
    const std::string id = view.id;
    if (id == "preparation") {
        add("State the plan...", [this, id] { desk_.change(id); });
    } else if (!view.can_agree) {
        add("State what to do...", [this, id] { desk_.change(id); });
    } else {
        add("Agree", [this, id] { desk_.agree(id); });
        add("Change...", [this, id] { desk_.change(id); });
    }
    add("Ask outside...", [this, id] { desk_.ask_outside(id); });
    add("Not go ahead...", [this, id] { desk_.not_go_ahead(id); });
    if (!view.chosen.empty()) {
        add("Take back", [this, id] { desk_.take_back(id); });
    }
    items_->add(line);
    if (!view.chosen.empty()) {
        items_->add_text(view.chosen, TextSize::bold);
    }
    items_->add_gap();
}

std::vector<DeskPanel::Command> ReviewPanel::commands()
{
    return {
        {wxS("&Sign\tCtrl+G"), doing([this] { desk_.sign(); })},
        {wxS("Sign and &clear\tCtrl+L"), doing([this] { desk_.sign_and_clear(); })},
    };
}

}  // namespace foreday::windows
