#pragma once
#include <string>
#include <vector>

class wxWindow;

namespace foreday::tests {

/// What is wrong on a screen, one sentence each; empty: nothing is.

/// Controls that take the focus and have no name to read out, names that two of them share, and letters that
/// Alt presses for two of them. Looks at what assistive technology is shown, not at what wx was told.
[[nodiscard]] std::vector<std::string> unnamed(wxWindow* window);

/// Texts, labels and fields that have less room than they ask for, or that stand partly outside what they are
/// in. What lies further down in something that scrolls is not outside; what lies beside it is.
[[nodiscard]] std::vector<std::string> clipped(wxWindow* window);

/// Words drawn with a contrast under 4.5:1 against what is behind them (WCAG 2.1, success criterion 1.4.3),
/// as seen in the picture of the screen. Controls that are off are exempt there and here. The second list has
/// what was measured, for a test that the walk saw anything.
struct Contrasts {
    std::vector<std::string> faint;
    int measured = 0;
};
[[nodiscard]] Contrasts contrasts(wxWindow* window);

/// Keeps the picture of the screen under the test output, as NAME.png.
void keep_picture(const std::string& name);

}  // namespace foreday::tests
