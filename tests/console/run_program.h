#pragma once
#include <map>
#include <string>
#include <vector>

namespace foreday::tests {

/// What one run of the program left behind.
struct Ran {
    int status = -1;  ///< exit status; -1: ended by a signal
    std::string out;
    std::string err;
};

/// How a run differs from one in the folder and environment of the tests.
struct Around {
    std::map<std::string, std::string> set;  ///< variables of the environment
    std::vector<std::string> unset;
    std::string folder;  ///< to run in; empty: the folder of the tests
    std::string out_to;  ///< where standard output goes instead of `Ran::out`; empty: nowhere else
};

/// Runs the program `foreday` with nothing on its standard input and waits for its end.
[[nodiscard]] Ran run_program(const std::vector<std::string>& arguments, const Around& around = {});

/// The path of a demo case, by its name without the ending.
[[nodiscard]] std::string demo_case(const std::string& name);
/// The names of the demo cases that lie in the folder, sorted, without the ending.
[[nodiscard]] std::vector<std::string> demo_case_names();
/// The path of the demo unit's policy.
[[nodiscard]] std::string demo_policy();
/// The bytes of a file; a failure of the test where it cannot be read.
[[nodiscard]] std::string bytes_of(const std::string& path);
/// Line ends and indents taken for one blank: long sentences are broken over lines.
[[nodiscard]] std::string on_one_line(const std::string& text);
/// The text with one part replaced; a failure of the test where the part does not stand there once.
[[nodiscard]] std::string replaced(std::string text, const std::string& part, const std::string& with);

}  // namespace foreday::tests
