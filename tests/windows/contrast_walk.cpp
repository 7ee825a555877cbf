#include <fmt/format.h>
#include <gtk/gtk.h>
#include <wx/wx.h>

#include <cmath>
#include <filesystem>
#include <map>
#include <memory>

#include "gui/windows/controls.h"
#include "gui/windows/text.h"
#include "tests/windows/at_the_window.h"
#include "tests/windows/walks.h"

namespace foreday::tests {
namespace {

struct Unref {
    void operator()(GdkPixbuf* picture) const { g_object_unref(picture); }
};
using Picture = std::unique_ptr<GdkPixbuf, Unref>;

Picture picture_of(const wxRect& where)
{
    return Picture(gdk_pixbuf_get_from_window(gdk_get_default_root_window(), where.x, where.y, where.width,
                                              where.height));
}

using Colour = std::array<guchar, 3>;

/// Relative luminance of sRGB as WCAG 2.1 defines it.
double luminance(const Colour& colour)
{
    const auto linear = [](guchar part) {
        const double value = part / 255.0;
        return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(colour[0]) + 0.7152 * linear(colour[1]) + 0.0722 * linear(colour[2]);
}

/// Contrast ratio as WCAG 2.1 defines it, from 1 to 21.
double contrast(double one, double other)
{
    return (std::max(one, other) + 0.05) / (std::min(one, other) + 0.05);
}

/// The colour that fills most of it against the one that stands out most: paper and ink.
double contrast_in(const GdkPixbuf* picture)
{
    std::map<Colour, int> counts;
    const int channels = gdk_pixbuf_get_n_channels(picture);
    const int stride = gdk_pixbuf_get_rowstride(picture);
    const guchar* pixels = gdk_pixbuf_read_pixels(picture);
    for (int y = 0; y < gdk_pixbuf_get_height(picture); ++y) {
        for (int x = 0; x < gdk_pixbuf_get_width(picture); ++x) {
            const guchar* at =
                pixels + static_cast<std::ptrdiff_t>(y) * stride + static_cast<std::ptrdiff_t>(x) * channels;
            ++counts[{at[0], at[1], at[2]}];
        }
    }
    const auto paper = std::ranges::max_element(counts, {}, [](const auto& one) { return one.second; });
    double best = 1;
    for (const auto& [colour, count] : counts) {
        best = std::max(best, contrast(luminance(colour), luminance(paper->first)));
    }
    return best;
}

/// Where its words are: inside the edge of what has one. Empty: it stands half outside what scrolls.
wxRect inside(wxWindow* window)
{
    constexpr int edge = 4;
    wxRect where = window->GetScreenRect();
    if (dynamic_cast<wxStaticText*>(window) == nullptr) {
        where.Deflate(edge);
    }
    constexpr int always_seen = 60;  // pixels: what is higher may never be in view as a whole
    const int whole = std::min(where.height, always_seen);
    for (const wxWindow* around = window->GetParent(); around != nullptr; around = around->GetParent()) {
        where.Intersect(around->GetScreenRect());
        if (around->IsTopLevel()) {
            break;
        }
    }
    return where.height < whole ? wxRect() : where;
}

std::string words_of(wxWindow* window)
{
    if (const auto* text = dynamic_cast<wxTextEntry*>(window)) {
        return windows::typed(text->GetValue());
    }
    if (const auto* list = dynamic_cast<wxListBox*>(window)) {
        return list->IsEmpty() ? std::string() : windows::typed(list->GetString(0));
    }
    if (dynamic_cast<wxStaticText*>(window) != nullptr || dynamic_cast<wxControl*>(window) != nullptr) {
        return windows::typed(wxControl::RemoveMnemonics(window->GetLabel()));
    }
    return "";
}

}  // namespace

Contrasts contrasts(wxWindow* window)
{
    constexpr double least = 4.5;
    constexpr int enough_to_read = 8;  // pixels
    Contrasts found;
    for (wxWindow* one : shown_under(window)) {
        const std::string words = words_of(one);
        const wxRect where = words.empty() || !one->IsThisEnabled() ? wxRect() : inside(one);
        if (where.width < enough_to_read || where.height < enough_to_read) {
            continue;
        }
        ++found.measured;
        const double seen = contrast_in(picture_of(where).get());
        if (seen < least) {
            constexpr std::size_t enough = 60;
            found.faint.push_back(fmt::format("{:.1f}:1  \"{}\"", seen, words.substr(0, enough)));
        }
    }
    return found;
}

void keep_picture(const std::string& name)
{
    const std::filesystem::path folder = FOREDAY_PICTURES;
    std::filesystem::create_directories(folder);
    const Picture picture = picture_of(wxGetClientDisplayRect());
    gdk_pixbuf_save(picture.get(), (folder / (name + ".png")).c_str(), "png", nullptr, nullptr);
}

}  // namespace foreday::tests
