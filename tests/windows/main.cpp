#include <gtest/gtest.h>
#include <wx/evtloop.h>
#include <wx/fileconf.h>
#include <wx/sstream.h>
#include <wx/wx.h>

#include <cstdio>
#include <memory>

#include "gui/windows/text.h"

namespace foreday::tests {
namespace {

/// A broken assumption of the toolkit is a failure of the test during which it broke.
class TestApp : public wxApp {
public:
    bool OnInit() override
    {
        SetAppName(wxS("foreday-tests"));
        SetExitOnFrameDelete(false);
        wxStringInputStream nothing_remembered(wxEmptyString);
        wxConfigBase::Set(new wxFileConfig(nothing_remembered));
        return true;
    }

    int OnExit() override
    {
        delete wxConfigBase::Set(nullptr);
        return wxApp::OnExit();
    }

    void OnAssertFailure(const wxChar* file, int line, const wxChar* function, const wxChar* condition,
                         const wxChar* message) override
    {
        ADD_FAILURE() << windows::assertion_in_words(file, line, function, condition, message);
    }

    [[noreturn]] bool OnExceptionInMainLoop() override { throw; }
};

}  // namespace
}  // namespace foreday::tests

int main(int argc, char** argv)
{
    ::testing::InitGoogleTest(&argc, argv);
    if (::testing::GTEST_FLAG(list_tests)) {
        return RUN_ALL_TESTS();  // ctest asks for the list, and there need not be a display
    }
    wxApp::SetInstance(new foreday::tests::TestApp);
    int no_arguments = 0;
    char** none = nullptr;
    if (!wxEntryStart(no_arguments, none)) {
        std::fputs("test_windows: no display; run it through tests/windows/with_display.sh\n", stderr);
        return 1;
    }
    wxTheApp->CallOnInit();
    int status = 1;
    {
        wxEventLoop loop;
        const wxEventLoopActivator active(&loop);
        status = RUN_ALL_TESTS();
    }
    wxTheApp->OnExit();
    wxEntryCleanup();
    return status;
}
