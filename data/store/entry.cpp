#include "data/store/entry.h"

#include <fmt/format.h>

#include <stdexcept>

#include "data/reading/hashing.h"
#include "screening/canonical.h"

namespace foreday::store {
namespace {

const screening::Moment first_moment = date::sys_days{date::year{0} / 1 / 1};
const screening::Moment after_last_moment = date::sys_days{date::year{10000} / 1 / 1};

bool has_iso_form(screening::Moment moment)
{
    return moment >= first_moment && moment < after_last_moment;
}

}  // namespace

std::string_view name_of(Chain chain)
{
    return chain == Chain::journal ? "journal" : "looks";
}

std::string iso_utc(screening::Moment moment)
{
    if (!has_iso_form(moment)) {
        return std::to_string(moment.time_since_epoch().count());
    }
    const auto midnight = date::floor<date::days>(moment);
    const date::year_month_day day{midnight};
    const date::hh_mm_ss time{moment - midnight};
    return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", static_cast<int>(day.year()),
                       static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()),
                       time.hours().count(), time.minutes().count(), time.seconds().count());
}

std::string hash_bytes(Chain chain, const Entry& entry, const std::string& hash_before)
{
    screening::CanonicalBytes bytes;
    bytes.add(name_of(chain));
    bytes.add(std::to_string(entry.number));
    bytes.add(entry.said.subject);
    bytes.add(iso_utc(entry.said.at));
    bytes.add(entry.said.who);
    bytes.add(entry.said.desk);
    bytes.add(entry.said.kind);
    bytes.add(std::to_string(entry.said.kind_version));
    bytes.add(entry.said.payload);
    bytes.add(hash_before);
    return std::move(bytes).take();
}

Entry entry_after(Chain chain, const Head& before, const NewEntry& said)
{
    if (said.kind_version < 1) {
        throw std::invalid_argument("the version of an entry's kind is at least 1");
    }
    if (!has_iso_form(said.at)) {
        throw std::invalid_argument("the time of an entry lies in the years 0 to 9999");
    }
    Entry entry{before.number + 1, said, {}};
    entry.hash = data::sha256_hex(hash_bytes(chain, entry, before.hash));
    return entry;
}

}  // namespace foreday::store
