#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <stdexcept>

#include "data/reading/folding.h"
#include "data/reading/medicine_names.h"
#include "data/reading/protocol_reading.h"
#include "screening/medicine_lookup.h"
#include "tests/support/rows.h"

/// What was heard of a medicine, ranked against every name of the protocol: each row of misheard.tsv and of
/// no_medicine.tsv, one look at a time, so that the slow ones show.
namespace foreday::bench {
namespace {

const std::filesystem::path source{FOREDAY_SOURCE_DIR};

screening::LookupIndex names_of_the_protocol()
{
    const data::ReadProtocol read = data::read_protocol(source / "data/protocol");
    if (!read.protocol) {
        throw std::runtime_error("data/protocol has faults");
    }
    return data::medicine_names(*read.protocol);
}

std::vector<std::string> what_was_heard()
{
    std::vector<std::string> heard;
    for (const auto& row : tests::read_rows(source / "tests/present/misheard.tsv")) {
        heard.push_back(data::fold(row.at("heard")));
    }
    for (const auto& row : tests::read_rows(source / "tests/present/no_medicine.tsv")) {
        heard.push_back(data::fold(row.at("words")));
    }
    return heard;
}

void look_up_what_was_heard(benchmark::State& state)
{
    const screening::LookupIndex index = names_of_the_protocol();
    const std::vector<std::string> heard = what_was_heard();
    std::vector<double> milliseconds;
    for (auto _ : state) {
        for (const std::string& words : heard) {
            const auto began = std::chrono::steady_clock::now();
            benchmark::DoNotOptimize(screening::rank_candidates(index, words));
            milliseconds.push_back(
                std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - began).count());
        }
    }
    std::ranges::sort(milliseconds);
    state.counters["names"] = static_cast<double>(index.entries.size());
    state.counters["median_ms"] = milliseconds.at(milliseconds.size() / 2);
    state.counters["p99_ms"] = milliseconds.at(milliseconds.size() * 99 / 100);
    state.counters["worst_ms"] = milliseconds.back();
}
BENCHMARK(look_up_what_was_heard)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace foreday::bench
