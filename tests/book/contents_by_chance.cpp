#include <rapidcheck.h>

#include <set>

#include "tests/book/contents_sample.h"
#include "tests/book/journal.h"

namespace foreday::tests {
namespace {

using book::fields;

int up_to(int last)
{
    return *rc::gen::inRange(0, last + 1);
}

class Chance {
public:
    template <class T>
    Chance& operator()(const char* /*key*/, T& value)
    {
        draw(value);
        return *this;
    }

private:
    static void draw(std::string& value)
    {
        static const std::vector<std::string> odd{
            "",       "a",          "\"",           "\\",     "\n\t\r", std::string("\0x", 2), "/",
            "\x7F",   "\xC3\xA9",   "\xE2\x80\xA8", "{}",     "null",   "\xF0\x9F\x9A\x91",    "1e5",
            "<b>&'>", "as spoken ", "P-0900",       "hold:m1"};
        const int pieces = up_to(4);
        for (int i = 0; i < pieces; ++i) {
            value += *rc::gen::elementOf(odd);
        }
    }
    static void draw(std::int64_t& value) { value = *rc::gen::arbitrary<std::int64_t>(); }
    static void draw(bool& value) { value = *rc::gen::arbitrary<bool>(); }
    static void draw(screening::Date& value)
    {
        value = day("1900-01-01") + date::days{up_to(73048)};  // to 2099-12-31
    }
    static void draw(screening::TimeOfDay& value) { value = std::chrono::minutes{up_to(1439)}; }
    static void draw(screening::LocalMinute& value)
    {
        screening::Date on;
        draw(on);
        value = on + std::chrono::minutes{up_to(1439)};
    }
    static void draw(book::WallTime& value)
    {
        draw(value.local);
        value.offset = std::chrono::minutes{up_to(1680) - 840};
    }
    static void draw(screening::Exact& value)
    {
        value = screening::Exact::ratio(*rc::gen::inRange<std::int64_t>(-1000000000000, 1000000000000),
                                        *rc::gen::inRange<std::int64_t>(1, 1000000));
    }
    template <class T>
    static void draw(screening::Interval<T>& value)
    {
        draw(value.lowest);
        draw(value.highest);
        if (value.highest < value.lowest) {
            std::swap(value.lowest, value.highest);
        }
    }
    static void draw(book::StatedNumber& value)
    {
        screening::NumberInterval interval;
        draw(interval);
        value = {interval.lowest, interval.highest,
                 *rc::gen::element<std::string>("", "kg", "mL/min/1.73 m2")};
    }
    static void draw(book::NamedChoice& value) { draw(value.id); }
    static void draw(std::vector<screening::TimeOfDay>& times)
    {
        std::set<screening::TimeOfDay> drawn;
        for (int count = up_to(3); count > 0; --count) {
            drawn.insert(std::chrono::minutes{up_to(1439)});
        }
        times.assign(drawn.begin(), drawn.end());
    }
    void draw(screening::Pattern& value)
    {
        std::vector<screening::TimeOfDay> times;
        draw(times);
        std::set<unsigned> weekdays{static_cast<unsigned>(up_to(6)) + 1, static_cast<unsigned>(up_to(6)) + 1};
        screening::Date from;
        draw(from);
        const std::vector<screening::Pattern> patterns{
            screening::PatternNotKnown{},
            screening::Daily{times},
            screening::OnWeekdays{weekdays, times},
            screening::EveryNDays{2 + up_to(364), from, times},
            screening::Monthly{1U + static_cast<unsigned>(up_to(30)), times},
            screening::AsNeeded{},
            screening::Continuous{}};
        value = patterns[static_cast<std::size_t>(up_to(6))];
    }
    void draw(book::StatedValue& value)
    {
        const auto kind = up_to(5);
        const auto as = [&](auto drawn) {
            draw(drawn);
            value = std::move(drawn);
        };
        switch (kind) {
            case 0:
                return as(bool{});
            case 1:
                return as(book::NamedChoice{});
            case 2:
                return as(book::StatedNumber{});
            case 3:
                return as(screening::DateInterval{});
            case 4:
                return as(screening::TimeInterval{});
            default:
                return as(std::string{});
        }
    }
    static void draw(screening::Level& value)
    {
        value = *rc::gen::element(screening::Level::ask, screening::Level::stop);
    }
    static void draw(screening::Role& value) { value = static_cast<screening::Role>(up_to(13)); }
    static void draw(screening::Topic& value) { value = static_cast<screening::Topic>(up_to(18)); }
    static void draw(screening::Informant& value) { value = static_cast<screening::Informant>(up_to(5)); }
    static void draw(checklists::TryOutcome& value) { value = static_cast<checklists::TryOutcome>(up_to(5)); }
    static void draw(screening::DecisionAnswer& value)
    {
        value = static_cast<screening::DecisionAnswer>(up_to(3));
    }
    template <class Enum>
        requires std::is_enum_v<Enum>
    static void draw(Enum& value)
    {
        value = static_cast<Enum>(up_to(2));
    }
    template <class T>
    void draw(std::optional<T>& value)
    {
        if (*rc::gen::arbitrary<bool>()) {
            draw(value.emplace());
        }
    }
    template <class T>
    void draw(std::vector<T>& values)
    {
        values.resize(static_cast<std::size_t>(up_to(3)));
        for (T& value : values) {
            draw(value);
        }
    }
    template <class T>
        requires std::is_class_v<T>
    void draw(T& value)
    {
        fields(*this, value);
        mend(value);
    }

public:
    // What must hold besides the types.
    template <class T>
    static void mend(T& /*value*/)
    {
    }
    static void mend(book::Answered& value)
    {
        if (value.value) {
            value.why_not_known.reset();
        } else if (!value.why_not_known) {
            value.why_not_known = screening::WhyNotKnown::would_not_say;
        }
    }
    static void mend(book::BookingMade& value) { value.procedures.emplace_back("colonoscopy"); }
    static void mend(book::Rescheduled& value)
    {
        if (value.procedures) {
            value.procedures->emplace_back("colonoscopy");
        }
    }
};

}  // namespace

book::Content by_chance(book::Content kind)
{
    std::visit(
        [](auto& said) {
            Chance chance;
            fields(chance, said);
            Chance::mend(said);
        },
        kind);
    return kind;
}

}  // namespace foreday::tests
