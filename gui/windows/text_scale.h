#pragma once

class wxWindow;

namespace foreday::windows {

/// Size of all text, in per cent of what the desktop asks for: 100 to 200.
inline constexpr int usual_text = 100;
inline constexpr int largest_text = 200;
inline constexpr int text_step = 25;

[[nodiscard]] int text_scale();
/// Outside the range: the nearest end. Remembered.
void set_text_scale(int per_cent);
/// As remembered from last time; before the first window is made.
void restore_text_scale();

/// Sizes that were taken from the text at its former size, of a window and everything in it.
/// @param ratio  of the new width of a letter to the former
void measure_again(wxWindow* window, double ratio);
/// Lays out a window and all in it, outermost first; wx leaves alone what keeps its own size.
void lay_out_again(wxWindow* window);

}  // namespace foreday::windows
