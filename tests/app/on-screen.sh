#!/usr/bin/env bash
# on-screen.sh COMMAND [ARGUMENT...]
# Runs a test on a screen, a session bus and in a home folder of its own, with a window manager (a
# dialog that closes gives the keyboard back only under one). Whatever was started is ended, and
# nothing else: it carries PF_SCREEN in its environment.
set -u
(($#)) || { echo "usage: on-screen.sh COMMAND [ARGUMENT...]" >&2; exit 2; }

folder=$(mktemp -d "${TMPDIR:-/tmp}/pinfold-screen.XXXXXX") || exit 99
export PF_SCREEN=$folder
log=$folder/log
helpers=()

# Processes with our mark, this shell aside.
marked () {
  local environ pid
  for environ in /proc/[0-9]*/environ; do
    pid=${environ#/proc/} pid=${pid%/environ}
    [[ $pid == $$ || $pid == "$BASHPID" ]] && continue
    { tr '\0' '\n' <"$environ" | grep -qxF "PF_SCREEN=$folder"; } 2>/dev/null && echo "$pid"
  done
}

finish () {
  local status=$? signal pids
  trap - EXIT INT TERM HUP
  ((${#helpers[@]})) && kill "${helpers[@]}" 2>/dev/null
  for signal in 0 TERM TERM TERM KILL KILL; do
    mapfile -t pids < <(marked)
    ((${#pids[@]})) || break
    kill -s "$signal" "${pids[@]}" 2>/dev/null
    sleep 0.2
  done
  rm -rf "$folder"
  exit "$status"
}
trap finish EXIT
trap 'exit 130' INT TERM HUP

fail () {
  echo "on-screen.sh: $1 doesn't start" >&2
  cat "$log" >&2
  exit 99
}

# Waits up to 20 s until a file isn't empty.
wait_for () {
  local i
  for ((i = 0; i < 400; i++)); do
    [[ -s $1 ]] && return
    sleep 0.05
  done
  return 1
}

# start NAME COMMAND...: in the background, without what is meant for the test alone.
start () {
  env -u LD_PRELOAD -u G_DEBUG -u ASAN_OPTIONS -u LSAN_OPTIONS -u UBSAN_OPTIONS "${@:2}" \
    >>"$log" 2>&1 &
  helpers+=($!)
}

unset WAYLAND_DISPLAY XAUTHORITY DISPLAY DBUS_SESSION_BUS_ADDRESS AT_SPI_BUS_ADDRESS SESSION_MANAGER
export HOME=$folder/home XDG_RUNTIME_DIR=$folder/run
export XDG_CONFIG_HOME=$HOME/.config XDG_DATA_HOME=$HOME/.local/share
export XDG_CACHE_HOME=$HOME/.cache XDG_STATE_HOME=$HOME/.local/state
mkdir -p "$XDG_CONFIG_HOME/gtk-4.0" "$XDG_DATA_HOME" "$XDG_CACHE_HOME" "$XDG_STATE_HOME"
mkdir -m 700 "$XDG_RUNTIME_DIR"
printf '[Settings]\ngtk-enable-animations=false\ngtk-cursor-blink=false\n' \
  >"$XDG_CONFIG_HOME/gtk-4.0/settings.ini"

exec 7>"$folder/display"
start Xvfb Xvfb -displayfd 7 -screen 0 "${PF_SCREEN_SIZE:-1280x900}x24" -dpi 96 -nolisten tcp -noreset
exec 7>&-
wait_for "$folder/display" || fail Xvfb
DISPLAY=:$(tr -d '\n' <"$folder/display")
export DISPLAY

exec 7>"$folder/bus"
start dbus-daemon dbus-daemon --session --nofork --nopidfile --print-address=7
exec 7>&-
wait_for "$folder/bus" || fail dbus-daemon
DBUS_SESSION_BUS_ADDRESS=$(head -n 1 "$folder/bus")
export DBUS_SESSION_BUS_ADDRESS

cat >"$folder/openbox.xml" <<'XML'
<?xml version="1.0"?>
<openbox_config xmlns="http://openbox.org/3.4/rc">
  <focus><focusNew>yes</focusNew><focusLast>yes</focusLast></focus>
  <placement><policy>Smart</policy><center>yes</center></placement>
  <theme><name>Clearlooks</name></theme>
  <desktops><number>1</number><popupTime>0</popupTime></desktops>
  <keyboard><keybind key="A-F4"><action name="Close"/></keybind></keyboard>
  <applications>
    <application type="normal"><position force="yes"><x>0</x><y>0</y></position></application>
  </applications>
</openbox_config>
XML
start openbox openbox --sm-disable --config-file "$folder/openbox.xml"
for ((i = 0; i < 400; i++)); do
  xprop -root _NET_SUPPORTING_WM_CHECK 2>/dev/null | grep -q 'window id' && break
  sleep 0.05
done
((i < 400)) || fail openbox

"$@"
