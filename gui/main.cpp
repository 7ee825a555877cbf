#include "gui/console/run.h"
#include "gui/windows/app.h"

namespace {

using foreday::console::DesksOptions;
using foreday::console::Status;

Status open_desks(const DesksOptions& options)
{
    return foreday::windows::run_windows(
               {options.book, options.demo, options.at, options.name, options.role}) == 0
               ? Status::done
               : Status::input_has_faults;
}

}  // namespace

// Arguments are looked at before anything else starts: no toolkit, no display, no font is needed unless a
// window was asked for.
int main(int argc, char** argv)
{
    return foreday::console::run(argc, argv, open_desks);
}
