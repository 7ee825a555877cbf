#include "gui/console/load.h"

#include "data/reading/case_reading.h"
#include "data/reading/policy_reading.h"
#include "data/reading/protocol_reading.h"
#include "data/reading/zone_reading.h"
#include "gui/console/words.h"

namespace foreday::console {
namespace {

using data::LocatedFault;
using screening::Date;
using screening::Moment;

/// Collects what a case needs, step by step; stops where going on would only invent faults.
class Loader {
public:
    Loader(const AssessOptions& options, Moment clock) : options_(options), clock_(clock) {}

    Loading load()
    {
        if (read_protocol() && read_start() && read_policy() && read_zone()) {
            read_case();
        }
        if (!loading_.faults.empty()) {
            loading_.loaded.reset();
        }
        return std::move(loading_);
    }

private:
    bool read_protocol()
    {
        data::ReadProtocol read = data::read_protocol(options_.protocol);
        if (!read.protocol) {
            return give_up(std::move(read.faults));
        }
        loading_.loaded.emplace();
        loading_.loaded->rules.protocol = std::move(*read.protocol);
        loading_.loaded->head.protocol_version = loading_.loaded->rules.protocol.version;
        loading_.loaded->head.protocol_hash = read.hash;
        loading_.loaded->head.caution = caution();
        return true;
    }

    bool read_start()
    {
        start_ = data::peek_case(options_.case_file, options_.policy ? data::PolicyNamed::elsewhere
                                                                     : data::PolicyNamed::by_the_case);
        return start_.faults.empty() || give_up(std::move(start_.faults));
    }

    bool read_policy()
    {
        auto& rules = loading_.loaded->rules;
        const auto file = options_.policy ? options_.policy : start_.policy;
        if (!file) {
            rules.policy = data::default_policy(rules.protocol);
            loading_.loaded->head.unit = "no unit named";
            zone_name_ = start_.zone.value_or("");
            return true;
        }
        data::ReadPolicy read = data::read_policy(*file, rules.protocol);
        if (!read.policy) {
            return give_up(std::move(read.faults));
        }
        loading_.warnings.insert(loading_.warnings.end(), read.warnings.begin(), read.warnings.end());
        rules.policy = std::move(*read.policy);
        loading_.loaded->head.unit = rules.policy.unit;
        loading_.loaded->head.policy_hash = read.hash;
        zone_name_ = read.zone;
        return true;
    }

    bool read_zone()
    {
        // A start that cannot be read is told by the case's reader; until then today's clock will do.
        const Date clock_day = Date{date::floor<date::days>(clock_).time_since_epoch()};
        const Date around = start_.start ? screening::date_of(start_.start->local) : clock_day;
        auto zone = data::read_zone(zone_name_, around, around);
        if (!zone) {
            const std::string file = options_.case_file.string();
            return give_up({LocatedFault{file, 0, 0, zone.error().what, zone.error().would_be_right}});
        }
        loading_.loaded->rules.zone = std::move(*zone);
        return true;
    }

    bool read_case()
    {
        LoadedCase& loaded = *loading_.loaded;
        std::optional<Moment> at;
        if (options_.at) {
            const auto written = screening::parse_written_time(*options_.at);
            const auto moment =
                written ? screening::resolve(loaded.rules.zone, *written) : tl::unexpected(written.error());
            if (!moment) {
                loading_.faults.push_back({"--at", 0, 0, moment.error().what, moment.error().would_be_right});
            } else {
                at = *moment;
            }
        }
        data::ReadCase read = data::read_case(options_.case_file, loaded.rules, at.value_or(clock_));
        loading_.warnings.insert(loading_.warnings.end(), read.warnings.begin(), read.warnings.end());
        loading_.faults.insert(loading_.faults.end(), read.faults.begin(), read.faults.end());
        if (!read.record) {
            return false;
        }
        loaded.record = std::move(*read.record);
        loaded.head.case_id = loaded.record.id;
        loaded.at = at ? *at : read.as_of.value_or(clock_);
        return true;
    }

    bool give_up(std::vector<LocatedFault> faults)
    {
        loading_.faults.insert(loading_.faults.end(), faults.begin(), faults.end());
        return false;
    }

    const AssessOptions& options_;
    Moment clock_;
    Loading loading_;
    data::CaseStart start_;
    std::string zone_name_;
};

}  // namespace

Loading load_case(const AssessOptions& options, Moment clock)
{
    return Loader(options, clock).load();
}

}  // namespace foreday::console
