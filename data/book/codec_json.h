#pragma once
#include <fmt/format.h>

#include <limits>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <stdexcept>
#include <string>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "data/book/codec_fields_call.h"
#include "data/book/codec_fields_day.h"
#include "data/book/codec_names.h"
#include "data/book/codec_sound.h"
#include "data/book/codec_text.h"

/// Contents to JSON values and back, by their fields.
namespace foreday::book {

using Json = nlohmann::json;  // its objects are sorted by the bytes of their keys

// Whole numbers and yes or no turn into an Exact by themselves, and are written as what they are.
template <class T>
concept HasText = !std::is_arithmetic_v<T> && requires(const T& value) { text_of(value); };
template <class T>
concept IsEnum = std::is_enum_v<T>;

inline const auto& names_of_kinds(const screening::Pattern& /*kind*/)
{
    return pattern_names;
}
inline const auto& names_of_kinds(const StatedValue& /*kind*/)
{
    return value_names;
}

inline std::optional<screening::Exact> find_text(std::string_view text, screening::Exact /*kind*/)
{
    return find_exact(text);
}
inline std::optional<screening::Date> find_text(std::string_view text, screening::Date /*kind*/)
{
    return find_date(text);
}
inline std::optional<screening::TimeOfDay> find_text(std::string_view text, screening::TimeOfDay /*kind*/)
{
    return find_time_of_day(text);
}
inline std::optional<screening::LocalMinute> find_text(std::string_view text, screening::LocalMinute /*kind*/)
{
    return find_local(text);
}
inline std::optional<WallTime> find_text(std::string_view text, const WallTime& /*kind*/)
{
    return find_wall_time(text);
}

/// Fields that are left out when they are empty, and may be missing.
template <class T>
constexpr bool may_be_absent = false;
template <>
inline constexpr bool may_be_absent<std::string> = true;
template <class T>
constexpr bool may_be_absent<std::optional<T>> = true;
template <class T>
constexpr bool may_be_absent<std::vector<T>> = true;

/// Writes the fields of one content into an object.
class ToJson {
public:
    template <class T>
    ToJson& operator()(const char* key, const T& value)
    {
        if (!is_empty(value)) {
            object_[key] = json_of(value);
        }
        return *this;
    }

    template <class T>
    static Json json_of(const T& value)
    {
        if constexpr (std::is_same_v<T, NamedChoice>) {
            return value.id;
        } else if constexpr (HasText<T>) {
            return text_of(value);
        } else if constexpr (IsEnum<T>) {
            return std::string(payload_name(value));
        } else if constexpr (std::is_arithmetic_v<T> || std::is_same_v<T, std::string>) {
            static_assert(!std::is_floating_point_v<T>);
            return value;
        } else {
            if (const auto wrong = what_is_wrong(value); !wrong.empty()) {
                throw std::invalid_argument(std::string{wrong});
            }
            ToJson object;
            fields(object, value);
            return std::move(object.object_);
        }
    }
    template <class T>
    static Json json_of(const std::optional<T>& value)
    {
        return json_of(value.value());
    }
    template <class T>
    static Json json_of(const std::vector<T>& values)
    {
        return list_of(values);
    }
    static Json json_of(const std::set<unsigned>& values) { return list_of(values); }
    template <class... T>
    static Json json_of(const std::variant<T...>& value)
    {
        Json object = Json::object();
        object[std::string(names_of_kinds(value).at(value.index()))] =
            std::visit([](const auto& kind) { return json_of(kind); }, value);
        return object;
    }

private:
    template <class List>
    static Json list_of(const List& values)
    {
        Json list = Json::array();
        for (const auto& value : values) {
            list.push_back(json_of(value));
        }
        return list;
    }
    template <class T>
    static bool is_empty(const T& value)
    {
        if constexpr (requires { value.has_value(); }) {
            return !value.has_value();
        } else if constexpr (may_be_absent<T>) {
            return value.empty();
        } else {
            return false;
        }
    }

    Json object_ = Json::object();
};

/// Reads the fields of one content out of an object and keeps the first thing that is wrong.
class FromJson {
public:
    template <class T>
    FromJson& operator()(const char* key, T& value)
    {
        const auto found = object_->find(key);
        if (found != object_->end()) {
            ++used_;
            read(*found, key, value);
        } else if (!may_be_absent<T>) {
            say(fmt::format("\"{}\" is missing", key), "every field that may not be empty");
        }
        return *this;
    }

    /// @param key  for words about it
    template <class T>
    void read(const Json& json, std::string_view key, T& value)
    {
        if constexpr (HasText<T>) {
            const auto found =
                json.is_string() ? find_text(json.get_ref<const std::string&>(), value) : std::optional<T>{};
            found ? void(value = *found) : wrong(key);
        } else if constexpr (IsEnum<T>) {
            if (!json.is_string() || !find_payload_name(json.get_ref<const std::string&>(), value)) {
                wrong(key);
            }
        } else {
            read_fields(json, key, value);
        }
    }
    void read(const Json& json, std::string_view key, std::string& value)
    {
        json.is_string() ? void(value = json.get<std::string>()) : wrong(key);
    }
    void read(const Json& json, std::string_view key, NamedChoice& value) { read(json, key, value.id); }
    void read(const Json& json, std::string_view key, bool& value)
    {
        json.is_boolean() ? void(value = json.get<bool>()) : wrong(key);
    }
    void read(const Json& json, std::string_view key, std::int64_t& value) { read_whole(json, key, value); }
    void read(const Json& json, std::string_view key, int& value) { read_whole(json, key, value); }
    void read(const Json& json, std::string_view key, unsigned& value) { read_whole(json, key, value); }
    template <class T>
    void read(const Json& json, std::string_view key, std::optional<T>& value)
    {
        read(json, key, value.emplace());
    }
    template <class T>
    void read(const Json& json, std::string_view key, std::vector<T>& values)
    {
        read_list(json, key, [&](const Json& item) { read(item, key, values.emplace_back()); });
    }
    void read(const Json& json, std::string_view key, std::set<unsigned>& values)
    {
        read_list(json, key, [&](const Json& item) {
            unsigned value = 0;
            read(item, key, value);
            values.insert(value);
        });
    }
    template <class... T>
    void read(const Json& json, std::string_view key, std::variant<T...>& value)
    {
        if (!json.is_object() || json.size() != 1) {
            return wrong(key);
        }
        const auto& names = names_of_kinds(value);
        const auto name = std::ranges::find(names, std::string_view{json.begin().key()});
        if (name == names.end()) {
            return wrong(key);
        }
        const auto place = static_cast<std::size_t>(name - names.begin());
        std::size_t at = 0;
        // Sets the alternative whose turn it is, then reads into it.
        static_cast<void>(
            ((at++ == place && (read(json.front(), key, value.template emplace<T>()), true)) || ...));
    }

    [[nodiscard]] const std::optional<screening::Fault>& fault() const { return fault_; }

private:
    void say(std::string what, std::string would_be_right)
    {
        if (!fault_) {
            fault_ = screening::Fault{std::move(what), std::move(would_be_right)};
        }
    }
    void wrong(std::string_view key)
    {
        say(fmt::format("\"{}\" does not hold what it should", key), "what the program writes there");
    }
    template <class Whole>
    void read_whole(const Json& json, std::string_view key, Whole& value)
    {
        if (!json.is_number_integer() ||
            (json.is_number_unsigned() && !std::in_range<Whole>(json.get<std::uint64_t>())) ||
            (!json.is_number_unsigned() && !std::in_range<Whole>(json.get<std::int64_t>()))) {
            return wrong(key);
        }
        value = json.get<Whole>();
    }
    template <class Read>
    void read_list(const Json& json, std::string_view key, const Read& read_item)
    {
        if (!json.is_array()) {
            return wrong(key);
        }
        for (const Json& item : json) {
            read_item(item);
        }
    }
    template <class T>
    void read_fields(const Json& json, std::string_view key, T& value)
    {
        if (!json.is_object()) {
            return wrong(key);
        }
        const Json* const outer = std::exchange(object_, &json);
        const std::size_t used_before = std::exchange(used_, 0);
        fields(*this, value);
        if (used_ != json.size()) {
            say(fmt::format("\"{}\" holds a field that this version does not know", key),
                "a later version of the program");
        }
        if (const auto unsound = what_is_wrong(value); !unsound.empty()) {
            say(fmt::format("\"{}\": {}", key, unsound), "what the program writes there");
        }
        object_ = outer;
        used_ = used_before;
    }

    const Json* object_ = nullptr;
    std::size_t used_ = 0;
    std::optional<screening::Fault> fault_;
};

}  // namespace foreday::book
