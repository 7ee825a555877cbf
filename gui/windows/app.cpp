#include "gui/windows/app.h"

#include <fmt/format.h>
#include <gtk/gtk.h>
#include <wx/fileconf.h>
#include <wx/stdpaths.h>
#include <wx/utils.h>
#include <wx/wx.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <cstring>
#include <exception>

#include "data/store/sqlite_store.h"
#include "gui/windows/main_frame.h"
#include "gui/windows/text.h"
#include "gui/windows/text_scale.h"

namespace foreday::windows {
namespace {

using screening::Moment;

Moment machine_clock()
{
    return std::chrono::time_point_cast<std::chrono::seconds>(std::chrono::system_clock::now());
}

void complain(const std::string& words)
{
    fmt::print(stderr, "foreday: {}\n", words);
}

/// What GTK says of scroll bars that are laid out before they have room, and of pages of a notebook that
/// assistive technology asks for their label before they have one. It means nothing to anybody.
constexpr std::array idle_complaints{"gtk_box_gadget_distribute", "gtk_notebook_get_tab_label"};

GLogWriterOutput write_log(GLogLevelFlags level, const GLogField* fields, gsize count, gpointer data)
{
    for (gsize i = 0; i < count; ++i) {
        const auto is_said = [&](const char* words) {
            return std::strstr(static_cast<const char*>(fields[i].value), words) != nullptr;
        };
        if (std::strcmp(fields[i].key, "MESSAGE") == 0 && std::ranges::any_of(idle_complaints, is_said)) {
            return G_LOG_WRITER_HANDLED;
        }
    }
    return g_log_writer_default(level, fields, count, data);
}

class App : public wxApp {
public:
    /// @param began  set once there is a display
    App(const WindowOptions& options, bool& began) : options_(options), began_(began) {}

    bool OnInit() override
    {
        began_ = true;
        SetAppName(wxS("foreday"));
        wxFileConfig::DontCreateOnDemand();
        wxConfigBase::Set(new wxFileConfig(wxS("foreday"), wxEmptyString, config_file(), wxEmptyString,
                                           wxCONFIG_USE_LOCAL_FILE));
        restore_text_scale();
        auto place = open_place();
        if (!place) {
            return false;
        }
        auto* frame = new MainFrame(std::move(place), options_.demo);
        questioner_.ask_over(frame);
        frame->Show();
        if (options_.name) {
            frame->place().sign_in(*options_.name, options_.role);
            frame->begin();
        } else {
            frame->CallAfter([frame] {
                if (!frame->ask_who()) {
                    frame->Close();
                }
            });
        }
        return true;
    }

    int OnExit() override
    {
        delete wxConfigBase::Set(nullptr);
        return wxApp::OnExit();
    }

    /// A broken assumption of the toolkit is for whoever mends the program, never a question to a nurse.
    void OnAssertFailure(const wxChar* file, int line, const wxChar* function, const wxChar* condition,
                         const wxChar* message) override
    {
        complain(assertion_in_words(file, line, function, condition, message));
    }

    bool OnExceptionInMainLoop() override
    {
        try {
            throw;
        } catch (const std::exception& fault) {
            wxMessageBox(shown(std::string("That could not be done: ") + fault.what()), wxS("Foreday"));
        }
        return true;
    }

private:
    static wxString config_file()
    {
        const wxString folder = wxStandardPaths::Get().GetUserConfigDir();
        wxString xdg;
        return (wxGetEnv(wxS("XDG_CONFIG_HOME"), &xdg) && !xdg.empty() ? xdg : folder + wxS("/.config")) +
               wxS("/foreday.ini");
    }

    std::unique_ptr<present::Workplace> open_place()
    {
        try {
            auto clock_from = std::make_shared<Moment>(machine_clock());
            const Moment began = machine_clock();
            auto book = std::make_unique<book::Book>(
                store::open_book(options_.book, store::OpenMode::read_write),
                [clock_from, began] { return *clock_from + (machine_clock() - began); });
            const auto rules = book->rules();
            if (!rules) {
                complain(book::in_words(rules.error()));
                return nullptr;
            }
            if (options_.at) {
                const auto written = screening::parse_written_time(*options_.at);
                const auto moment = written ? screening::resolve((*rules)->rules.zone, *written)
                                            : tl::unexpected(written.error());
                if (!moment) {
                    complain(fmt::format("--at: {}; {}", moment.error().what, moment.error().would_be_right));
                    return nullptr;
                }
                *clock_from = *moment;
            }
            return std::make_unique<present::Workplace>(std::move(book), questioner_,
                                                        fmt::format("window {}", wxGetProcessId()));
        } catch (const std::exception& fault) {
            complain(fault.what());
            return nullptr;
        }
    }

    const WindowOptions& options_;
    bool& began_;
    DialogQuestioner questioner_;
};

}  // namespace

int run_windows(const WindowOptions& options)
{
    g_log_set_writer_func(write_log, nullptr, nullptr);
    bool began = false;
    wxApp::SetInstance(new App(options, began));
    int no_arguments = 0;
    char** none = nullptr;
    const wxLogNull no_words_of_the_toolkit;
    const int status = wxEntry(no_arguments, none);
    if (!began) {
        complain(
            "there is no display to show a window on. In a terminal `foreday assess` does the job; a desktop "
            "session, `ssh -X` or a remote desktop gives a window.");
    }
    return status == 0 ? 0 : 1;
}

}  // namespace foreday::windows
