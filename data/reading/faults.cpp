#include "data/reading/faults.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "data/reading/yaml_text.h"

namespace foreday::data {
namespace {

constexpr std::size_t most_shown = 200;
constexpr std::size_t most_kept = 10'000;

}  // namespace

std::string text_of(const LocatedFault& fault)
{
    std::string place = fault.file;
    if (fault.line > 0) {
        place += fmt::format(":{}:{}", fault.line, fault.column);
    }
    if (!place.empty()) {
        place += ": ";
    }
    return fault.would_be_right.empty() ? place + fault.what
                                        : fmt::format("{}{}; {}", place, fault.what, fault.would_be_right);
}

void Faults::add(const Located& at, std::string what, std::string would_be_right)
{
    add(LocatedFault{at.file ? *at.file : std::string{}, at.line, at.column, std::move(what),
                     std::move(would_be_right)});
}

void Faults::add(const Located& at, const screening::Fault& fault)
{
    add(at, fault.what, fault.would_be_right);
}

void Faults::add(LocatedFault fault)
{
    if (faults_.size() < most_kept) {
        faults_.push_back(std::move(fault));
    } else {
        ++uncounted_;
    }
}

std::vector<LocatedFault> Faults::sorted() const
{
    std::vector<LocatedFault> all = faults_;
    std::ranges::sort(all);
    all.erase(std::ranges::unique(all).begin(), all.end());
    const std::size_t total = all.size() + uncounted_;
    if (total > most_shown) {
        all.resize(std::min(all.size(), most_shown));
        all.push_back(LocatedFault{"", 0, 0, fmt::format("{} more faults are not shown", total - all.size()),
                                   "mend these first"});
    }
    return all;
}

}  // namespace foreday::data
