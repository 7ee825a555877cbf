#include <benchmark/benchmark.h>

#include <algorithm>
#include <filesystem>

#include "checklists/whole_case.h"
#include "data/reading/hashing.h"
#include "gui/console/load.h"

/// A whole assessment of each demo case, read once and judged again and again.
namespace foreday::bench {
namespace {

console::LoadedCase read(const std::filesystem::path& file)
{
    console::AssessOptions options;
    options.case_file = file;
    options.protocol = std::filesystem::path{FOREDAY_SOURCE_DATA_DIR} / "protocol";
    console::Loading loading = console::load_case(options, screening::Moment{});
    return std::move(loading.loaded.value());
}

void assess_case(benchmark::State& state, const std::filesystem::path& file)
{
    const console::LoadedCase loaded = read(file);
    for (auto _ : state) {
        benchmark::DoNotOptimize(screening::assess(loaded.rules, loaded.record, loaded.at));
    }
}

/// Decisions, timetable, clearance and readiness with it, as the console needs them.
void whole_case(benchmark::State& state, const std::filesystem::path& file)
{
    const console::LoadedCase loaded = read(file);
    for (auto _ : state) {
        benchmark::DoNotOptimize(
            checklists::look_at(loaded.rules, loaded.record, loaded.at, data::sha256_hex));
    }
}

const int registered = [] {
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(
             std::filesystem::path{FOREDAY_SOURCE_DATA_DIR} / "demo" / "cases")) {
        files.push_back(entry.path());
    }
    std::ranges::sort(files);
    for (const auto& file : files) {
        const std::string name = file.stem().string();
        benchmark::RegisterBenchmark(("assess/" + name).c_str(), assess_case, file)
            ->Unit(benchmark::kMicrosecond);
        benchmark::RegisterBenchmark(("whole_case/" + name).c_str(), whole_case, file)
            ->Unit(benchmark::kMicrosecond);
    }
    return 0;
}();

}  // namespace
}  // namespace foreday::bench
