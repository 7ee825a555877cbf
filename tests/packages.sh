# Read by gui/start and tests/run: the Debian 12 packages the project needs, and how to bring in those missing.
# A library joins this list only with an entry under Decisions in DEVELOPERS.md.

build_packages=(
    g++ cmake ninja-build pkg-config
    libhowardhinnant-date-dev tzdata libfmt-dev libexpected-dev
    libyaml-cpp-dev libsodium-dev libicu-dev
    libcli11-dev nlohmann-json3-dev
    libsqlite3-dev libsqlitecpp-dev zlib1g-dev
    libwxgtk3.2-dev libgtk-3-dev adwaita-icon-theme fonts-noto-core
)
test_packages=(
    libgtest-dev libgmock-dev librapidcheck-dev libbenchmark-dev
    clang-format-16 clang-tidy-16
    git ccache
    locales          # sources of a locale that writes 1,5
    python3          # a second reader of the zone data
    xvfb             # a display for the windows
    at-spi2-core dbus-daemon dbus-bin python3-gi gir1.2-atspi-2.0  # assistive technology
)

as_root() {
    if [ "$(id -u)" -eq 0 ]; then
        "$@"
    elif command -v sudo >/dev/null; then
        sudo "$@"
    else
        echo "This needs root, and sudo is not here. As root, run: $*" >&2
        return 1
    fi
}

# install_missing PACKAGE...: asks nothing, and touches neither network nor packages when all are there.
install_missing() {
    if ! command -v dpkg-query >/dev/null; then
        echo "Not a Debian system: these must be there already: $*" >&2
        return 0
    fi
    local package missing=()
    for package in "$@"; do
        [ "$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || missing+=("$package")
    done
    [ "${#missing[@]}" -gt 0 ] || return 0
    echo "Installing: ${missing[*]}"
    as_root env DEBIAN_FRONTEND=noninteractive apt-get -q -o Acquire::Retries=3 update </dev/null &&
        as_root env DEBIAN_FRONTEND=noninteractive apt-get -q -y -o Acquire::Retries=3 \
            install --no-install-recommends "${missing[@]}" </dev/null
}
