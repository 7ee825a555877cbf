#pragma once
#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

#include "data/reading/faults.h"

namespace foreday::tests {

/// One change that breaks a file, and what must be told.
struct Broken {
    const char* name;  ///< of the test
    const char* file;  ///< that is changed
    const char* from;  ///< stands in it exactly once
    const char* to;
    const char* at;            ///< the text that begins at the very line and column of the fault
    const char* says;          ///< stands in the fault
    const char* told_in = "";  ///< the file the fault is in, where that is another one
};

inline std::string name_of_broken(const testing::TestParamInfo<Broken>& info)
{
    return info.param.name;
}

/// What stands at line and column of a text; empty when there is no such place.
inline std::string text_at(const std::string& text, int line, int column)
{
    std::istringstream lines(text);
    std::string read;
    for (int i = 0; i < line && std::getline(lines, read); ++i) {
    }
    const auto start = static_cast<std::size_t>(column - 1);
    return line < 1 || column < 1 || start > read.size() ? std::string{} : read.substr(start);
}

inline std::string all_of(const std::vector<data::LocatedFault>& faults)
{
    std::string text;
    for (const auto& fault : faults) {
        text += text_of(fault) + "\n";
    }
    return text;
}

/// Whether one of the faults stands at that text of that file and says that.
inline bool is_told(const std::vector<data::LocatedFault>& faults, const std::string& file,
                    const std::string& text, const Broken& broken)
{
    return std::ranges::any_of(faults, [&](const data::LocatedFault& fault) {
        return fault.file == file && text_of(fault).find(broken.says) != std::string::npos &&
               text_at(text, fault.line, fault.column).starts_with(broken.at) &&
               !fault.would_be_right.empty();
    });
}

}  // namespace foreday::tests
