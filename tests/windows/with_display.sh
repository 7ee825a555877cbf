#!/bin/bash
# tests/windows/with_display.sh COMMAND...: runs it on a private display with settings of its own; nothing is left
# behind. With A11Y=1 it gets a private session bus, so that assistive technology can look in. SCREEN: size of the
# display (1280x900x24). THEME: a theme GTK has built in (Adwaita, Adwaita:dark, HighContrast).
set -u
own=$(mktemp -d)
chmod 700 "$own"
mkdir "$own/gtk-3.0"
mkfifo "$own/display"
Xvfb -displayfd 3 -screen 0 "${SCREEN:-1280x900x24}" -nolisten tcp -noreset -dpi 96 3>"$own/display" 2>/dev/null &
server=$!
trap 'kill "$server" 2>/dev/null; wait "$server" 2>/dev/null; rm -rf "$own"' EXIT
read -r number <"$own/display"
printf '[Settings]\ngtk-theme-name=Adwaita\ngtk-font-name=Noto Sans 10\ngtk-enable-animations=0\ngtk-cursor-blink=0\n' \
    >"$own/gtk-3.0/settings.ini"
export DISPLAY=":$number" GDK_BACKEND=x11 GDK_GL=disable LC_ALL=C.UTF-8
export XDG_CONFIG_HOME="$own" XDG_CACHE_HOME="$own" XDG_RUNTIME_DIR="$own"
[ -z "${THEME:-}" ] || export GTK_THEME="$THEME"
if [ "${A11Y:-0}" = 1 ]; then
    dbus-run-session -- "$@" 2> >(grep -v -e 'dbus-daemon\[' >&2)
else
    NO_AT_BRIDGE=1 "$@"
fi
