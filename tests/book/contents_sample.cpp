#include "tests/book/contents_sample.h"

#include <map>
#include <string>

#include "tests/book/journal.h"

namespace foreday::tests {
namespace {

const std::map<std::string_view, const char*>& words_by_field()
{
    static const std::map<std::string_view, const char*> words{
        {"name", "Orla Finch"},
        {"number", "P-0900"},
        {"sex", "female"},
        {"words", "as it was said, \"so\""},
        {"away", "P-0901"},
        {"into", "P-0900"},
        {"from", "P-0900"},
        {"id", "m1"},
        {"patient", "P-0900"},
        {"fact", "weight"},
        {"who", "Dr Teodor Wexcombe"},
        {"interpreter", "4711"},
        {"medicine", "warfarin"},
        {"heard", "the small pink one"},
        {"dose", "4 mg"},
        {"prescriber", "family doctor"},
        {"reason", "Vorhofflimmern \xE2\x80\x93 \xC3\xBC"},
        {"call", "first call"},
        {"item", "hold:m1"},
        {"what", "may it be stopped"},
        {"whom", "heart clinic"},
        {"answer", "yes, five days"},
        {"document", "letter of 2027-06-03"},
        {"to", "review desk"},
        {"page", "page of LK-0900"},
        {"how", "by phone"},
        {"practice", "Heart Clinic Nettlecombe"},
    };
    return words;
}

/// Fills every field with what goes with its key.
class Fill {
public:
    template <class T>
    Fill& operator()(std::string_view key, T& value)
    {
        fill(key, value);
        return *this;
    }

private:
    static void fill(std::string_view key, std::string& value)
    {
        const auto found = words_by_field().find(key);
        value = found == words_by_field().end() ? std::string(key) + " text" : found->second;
    }
    static void fill(std::string_view /*key*/, std::int64_t& value) { value = 17; }
    static void fill(std::string_view /*key*/, bool& value) { value = true; }
    static void fill(std::string_view /*key*/, screening::Date& value) { value = day("2027-06-09"); }
    static void fill(std::string_view /*key*/, book::WallTime& value) { value = wall("2027-06-10T09:05"); }
    static void fill(std::string_view /*key*/, screening::Dose& value)
    {
        value = {day("2027-06-09"), std::chrono::hours{18}};
    }
    static void fill(std::string_view /*key*/, screening::Pattern& value)
    {
        value = screening::EveryNDays{7, day("2027-06-02"), {std::chrono::hours{8}, std::chrono::hours{20}}};
    }
    static void fill(std::string_view /*key*/, book::StatedValue& value)
    {
        const auto third = screening::Exact::ratio(665, 442);
        value = book::StatedNumber{screening::Exact::parse("0.9").value(), third, "mg/dL creatinine"};
    }
    static void fill(std::string_view /*key*/, screening::Level& value) { value = screening::Level::stop; }
    template <class Enum>
        requires std::is_enum_v<Enum>
    static void fill(std::string_view /*key*/, Enum& value)
    {
        value = static_cast<Enum>(2);
    }
    template <class T>
    void fill(std::string_view key, std::optional<T>& value)
    {
        // An answer has a value or says why not.
        if (key != "why_not_known") {
            fill(key, value.emplace());
        }
    }
    template <class T>
    void fill(std::string_view key, std::vector<T>& values)
    {
        values.resize(2);
        for (T& value : values) {
            fill(key, value);
        }
    }
    template <class T>
        requires std::is_class_v<T>
    void fill(std::string_view /*key*/, T& value)
    {
        fields(*this, value);
    }
};

}  // namespace

book::Content sample_of(book::Content kind)
{
    std::visit(
        [](auto& said) {
            Fill fill;
            fields(fill, said);
        },
        kind);
    return kind;
}

}  // namespace foreday::tests
