#include <chrono>

#include "checklists/whole_case.h"
#include "data/reading/hashing.h"
#include "gui/console/commands.h"
#include "gui/console/load.h"
#include "gui/console/printing.h"
#include "gui/console/report_json.h"

namespace foreday::console {

Status assess_command(const AssessOptions& options)
{
    const auto clock = std::chrono::time_point_cast<std::chrono::seconds>(std::chrono::system_clock::now());
    const Loading loading = load_case(options, clock);
    for (const data::LocatedFault& warning : loading.warnings) {
        print_error("worth a look: " + data::text_of(warning) + "\n");
    }
    if (!loading.loaded) {
        print_faults(loading.faults);
        return Status::input_has_faults;
    }
    const LoadedCase& loaded = *loading.loaded;
    const checklists::WholeCase whole =
        checklists::look_at(loaded.rules, loaded.record, loaded.at, data::sha256_hex);
    if (options.json) {
        constexpr int indent = 2;
        print(report_json(loaded.head, loaded.rules, loaded.record, whole).dump(indent) + "\n");
    } else {
        print(report_words(loaded.head, loaded.rules, loaded.record, whole));
    }
    return Status::done;
}

}  // namespace foreday::console
