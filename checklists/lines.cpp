#include "checklists/lines.h"

#include <array>

#include "screening/canonical.h"

namespace foreday::checklists {

std::string_view name_of(LineKind kind)
{
    constexpr std::array<std::string_view, 3> names{"heading", "text", "step"};
    return names.at(static_cast<std::size_t>(kind));
}

std::string bytes_of(std::string_view page, const std::vector<Line>& lines, const screening::Zone& zone)
{
    screening::CanonicalBytes bytes;
    bytes.add(page);
    bytes.add_count(lines.size());
    for (const Line& line : lines) {
        bytes.add(name_of(line.kind));
        bytes.add(line.text);
        bytes.add(line.at ? screening::iso_with_offset(zone, *line.at) : "");
    }
    return std::move(bytes).take();
}

}  // namespace foreday::checklists
