#include "gui/console/printing.h"

#include <fmt/format.h>

#include <cstdio>

namespace foreday::console {

void print(std::string_view text)
{
    std::fwrite(text.data(), 1, text.size(), stdout);
}

bool all_printed()
{
    return std::fflush(stdout) == 0 && std::ferror(stdout) == 0;
}

void print_error(std::string_view text)
{
    std::fwrite(text.data(), 1, text.size(), stderr);
}

void print_faults(const std::vector<data::LocatedFault>& faults)
{
    for (const data::LocatedFault& fault : faults) {
        print_error(data::text_of(fault) + "\n");
    }
    print_error(fmt::format("{} {}\n", faults.size(), faults.size() == 1 ? "fault" : "faults"));
}

}  // namespace foreday::console
