#include <fmt/format.h>

#include <cmath>

#include "tests/bench/invented_book.h"

namespace foreday::bench {
namespace {

constexpr std::size_t given_names = 400;
constexpr std::size_t family_names = 6000;

}  // namespace

Inventor::Inventor(std::uint64_t seed) : random_{seed}
{
    for (std::size_t made = 0; made < given_names; ++made) {
        given_.push_back(syllables(1 + pick(3)));
    }
    static const std::vector<std::string> ends = {"ford", "wick", "ham", "sen", "ski", "ez", "well", "",
                                                  "ton",  "mann", "ic",  "",    "ley", "é",  "ova",  ""};
    for (std::size_t made = 0; made < family_names; ++made) {
        family_.push_back(syllables(1 + pick(3)) + ends[pick(ends.size())]);
    }
}

std::size_t Inventor::pick(std::size_t below)
{
    return static_cast<std::size_t>(random_() % below);
}

std::string Inventor::syllables(std::size_t count)
{
    static const std::vector<std::string> begins = {"B", "C", "D",  "F",  "G",  "H", "J", "K",
                                                    "L", "M", "N",  "P",  "R",  "S", "T", "V",
                                                    "W", "Z", "Sh", "Br", "Tr", "O'"};
    static const std::vector<std::string> middles = {"a", "e", "i", "o", "u", "ö", "ie", "ar", "el", "on"};
    static const std::vector<std::string> inner = {"l", "n", "r", "s", "t", "m", "d", "k", "v", "nn"};
    std::string name = begins[pick(begins.size())] + middles[pick(middles.size())];
    for (std::size_t made = 1; made < count; ++made) {
        name += inner[pick(inner.size())] + middles[pick(middles.size())];
    }
    return name + inner[pick(inner.size())];
}

const std::string& Inventor::name_from(const std::vector<std::string>& names)
{
    constexpr std::size_t fine = 1U << 20U;
    const double part = static_cast<double>(pick(fine)) / static_cast<double>(fine);
    const auto place = static_cast<std::size_t>(std::pow(static_cast<double>(names.size()), part));
    return names[place - 1];
}

InventedPerson Inventor::person()
{
    InventedPerson one;
    one.name = name_from(given_) + ' ' + name_from(family_);
    if (pick(20) == 0) {
        one.name += '-' + name_from(family_);
    }
    one.number = fmt::format("{:07}", pick(10'000'000));
    constexpr screening::Date first_born{date::local_days{date::year{1930} / date::January / 1}};
    one.born = first_born + date::days{static_cast<int>(pick(28'000))};
    one.phone = fmt::format("{}-{:03}-{:04}", pick(5) == 0 ? 201 + pick(700) : 555, pick(1000), pick(10'000));
    return one;
}

}  // namespace foreday::bench
