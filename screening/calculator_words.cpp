#include "screening/calculator_words.h"

#include <fmt/format.h>

#include <array>

namespace foreday::screening {
namespace {

bool is_kidney(Calculator calculator)
{
    return calculator == Calculator::ckd_epi || calculator == Calculator::lower_egfr ||
           calculator == Calculator::cockcroft_gault;
}

int decimals_of(Calculator calculator)
{
    return calculator == Calculator::cockcroft_gault || calculator == Calculator::bmi ? 1 : 0;
}

std::string span(const NumberInterval& value, int decimals)
{
    const std::string low = fmt::format("{:.{}f}", value.lowest.to_double(), decimals);
    const std::string high = fmt::format("{:.{}f}", value.highest.to_double(), decimals);
    return low == high ? low : low + " to " + high;
}

bool near(const NumberInterval& value, const Exact& limit)
{
    const Exact close{2};  // how near a result is pointed out; ours, it changes no answer
    return value.highest >= limit - close && value.lowest <= limit + close;
}

}  // namespace

std::string calculated_words(Calculator calculator, const NumberInterval& value, const Exact& limit)
{
    std::string words = span(value, decimals_of(calculator));
    if (const auto unit = unit_text(unit_of(calculator)); !unit.empty()) {
        words += fmt::format(" {}", unit);
    }
    if (is_kidney(calculator) && near(value, limit)) {
        words += fmt::format(" (unrounded {}, within 2 of the limit {})", span(value, 2), limit.text());
    }
    return words;
}

std::string_view title_of(Calculator calculator)
{
    // In the order of the enumerators.
    constexpr std::array<std::string_view, calculator_count> titles{"age on the day",
                                                                    "body mass index",
                                                                    "eGFR by CKD-EPI 2021",
                                                                    "the lower of the two eGFR values",
                                                                    "creatinine clearance by Cockcroft-Gault",
                                                                    "CHADS2 points",
                                                                    "CHA2DS2-VASc points"};
    return titles.at(static_cast<std::size_t>(calculator));
}

}  // namespace foreday::screening
