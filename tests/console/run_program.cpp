#include "tests/console/run_program.h"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <stdexcept>

#include "tests/support/temporary_folder.h"

namespace foreday::tests {
namespace {

std::map<std::string, std::string> environment_of(const Around& around)
{
    std::map<std::string, std::string> variables;
    for (char** entry = environ; *entry != nullptr; ++entry) {
        const std::string text = *entry;
        const auto equals = text.find('=');
        if (equals != std::string::npos) {
            variables[text.substr(0, equals)] = text.substr(equals + 1);
        }
    }
    for (const auto& [name, value] : around.set) {
        variables[name] = value;
    }
    for (const std::string& name : around.unset) {
        variables.erase(name);
    }
    return variables;
}

std::vector<char*> pointers_to(std::vector<std::string>& texts)
{
    std::vector<char*> pointers;
    for (std::string& text : texts) {
        pointers.push_back(text.data());
    }
    pointers.push_back(nullptr);
    return pointers;
}

}  // namespace

Ran run_program(const std::vector<std::string>& arguments, const Around& around)
{
    const TemporaryFolder folder;
    const std::string out = around.out_to.empty() ? (folder.path() / "out").string() : around.out_to;
    const std::string err = (folder.path() / "err").string();

    std::vector<std::string> argv = {FOREDAY_PROGRAM};
    argv.insert(argv.end(), arguments.begin(), arguments.end());
    std::vector<std::string> environment;
    for (const auto& [name, value] : environment_of(around)) {
        environment.push_back(name);
        environment.back().append("=").append(value);
    }

    // Into files, not pipes: a program that writes much to both could not then be kept waiting.
    constexpr int to_write = O_WRONLY | O_CREAT | O_TRUNC;
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, out.c_str(), to_write, 0600);
    posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, err.c_str(), to_write, 0600);
    if (!around.folder.empty()) {
        posix_spawn_file_actions_addchdir_np(&actions, around.folder.c_str());
    }
    pid_t process = 0;
    const int failed = posix_spawn(&process, FOREDAY_PROGRAM, &actions, nullptr, pointers_to(argv).data(),
                                   pointers_to(environment).data());
    posix_spawn_file_actions_destroy(&actions);
    if (failed != 0) {
        throw std::runtime_error(std::string{"cannot be started: "} + FOREDAY_PROGRAM);
    }
    int state = 0;
    if (waitpid(process, &state, 0) != process) {
        throw std::runtime_error("the program's end was not seen");
    }
    Ran ran;
    ran.status = WIFEXITED(state) ? WEXITSTATUS(state) : -1;
    ran.out = around.out_to.empty() ? bytes_of(out) : std::string{};
    ran.err = bytes_of(err);
    return ran;
}

std::string demo_case(const std::string& name)
{
    return std::string{FOREDAY_SOURCE_DATA_DIR} + "/demo/cases/" + name + ".yaml";
}

std::vector<std::string> demo_case_names()
{
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(FOREDAY_SOURCE_DATA_DIR "/demo/cases")) {
        if (entry.path().extension() == ".yaml") {
            names.push_back(entry.path().stem().string());
        }
    }
    std::ranges::sort(names);
    return names;
}

std::string demo_policy()
{
    return FOREDAY_SOURCE_DATA_DIR "/demo/larkmoor.yaml";
}

std::string bytes_of(const std::string& path)
{
    std::ifstream file(path, std::ios::binary);
    if (!file) {
        ADD_FAILURE() << path << " cannot be read";
        return {};
    }
    return std::string{std::istreambuf_iterator<char>(file), {}};
}

std::string replaced(std::string text, const std::string& part, const std::string& with)
{
    const auto place = text.find(part);
    if (place == std::string::npos || text.find(part, place + 1) != std::string::npos) {
        ADD_FAILURE() << "does not stand there just once: " << part;
        return text;
    }
    return text.replace(place, part.size(), with);
}

std::string on_one_line(const std::string& text)
{
    std::istringstream words(text);
    std::string line;
    for (std::string word; words >> word;) {
        line += (line.empty() ? "" : " ") + word;
    }
    return line;
}

}  // namespace foreday::tests
